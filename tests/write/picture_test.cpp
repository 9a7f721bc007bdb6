#include "write/picture.h"

#include <doctest/doctest.h>
#include <zlib.h>

#include <cairo.h>
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <thread>

#include "diagnose/failure.h"
#include "paper.h"
#include "sample_pages.h"
#include "write/pdf.h"

using namespace blankwright;

namespace {

std::uint32_t number_at(const std::string& bytes, std::size_t at) {
  std::uint32_t number = 0;
  for (std::size_t i = 0; i < 4; ++i) number = number << 8 | static_cast<unsigned char>(bytes.at(at + i));
  return number;
}

/// The picture as a reader of PNG sees it.
Picture decoded(const std::string& png, int dots_per_inch) {
  std::string_view rest = png;
  const auto read = [](void* from, unsigned char* into, unsigned int size) {
    auto& left = *static_cast<std::string_view*>(from);
    if (left.size() < size) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(into, left.data(), size);
    left.remove_prefix(size);
    return CAIRO_STATUS_SUCCESS;
  };
  cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(read, &rest);
  REQUIRE(cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS);
  Picture out;
  out.width = cairo_image_surface_get_width(surface);
  out.height = cairo_image_surface_get_height(surface);
  out.dots_per_inch = dots_per_inch;
  for (int y = 0; y < out.height; ++y) {
    const unsigned char* row = cairo_image_surface_get_data(surface) + y * cairo_image_surface_get_stride(surface);
    for (int x = 0; x < out.width; ++x) out.grey.push_back(row[4 * x]);
  }
  cairo_surface_destroy(surface);
  return out;
}

/// A page with a mark of each kind, and every dash.
Page page_of_every_mark() {
  Page page = tag_sheet({"K7T4X54", "K7T4X5A", "K7T4X5B"});
  page.items.push_back(text(20, 140, "Öl, Ø25 ↑ ½ Łódź Γραμμή", Face::regular, 6 * mm));
  page.items.push_back(
      {Text{.at = {20 * mm, 200 * mm}, .words = "upright", .size = 6 * mm, .turn = 90 * degree}, Role::field});
  double y = 210;
  for (const Dash dash : {Dash::solid, Dash::hidden, Dash::centre, Dash::tear}) {
    page.items.push_back(stroke(30, y, 150, y + 4, 0.5 * mm, dash));
    y += 8;
  }
  page.items.push_back({Fill{{rectangle(30, 250, 40, 20)}}, Role::rule});
  page.items.push_back({Fill{{rectangle(35, 255, 10, 10)}, Ink::white}, Role::rule});
  page.items.push_back({Ellipse{{120 * mm, 240 * mm, 60 * mm, 30 * mm}, 0.7 * mm, Dash::hidden}, Role::rule});
  page.items.push_back({Ellipse{{140 * mm, 250 * mm, 20 * mm, 10 * mm}, {}}, Role::rule});
  const auto pixels = std::make_shared<GreyPixels>();
  pixels->width = pixels->height = 8;
  for (int i = 0; i < 64; ++i) pixels->grey.push_back(i % 8 < 3 || i / 8 == 6 ? 0 : 255);
  page.items.push_back({Image{{90 * mm, 250 * mm, 24 * mm, 24 * mm}, pixels}, Role::note});
  return page;
}

/// Of all the dots that are dark in either picture: how many are dark in one and light in the other, or the other way
/// round, and so are all of their neighbours: an edge may fall a dot aside, a mark may not.
double share_that_differs(const Picture& a, const Picture& b) {
  const auto dark_near = [](const Picture& p, int x, int y) {
    for (int dy = -1; dy <= 1; ++dy) {
      for (int dx = -1; dx <= 1; ++dx) {
        const int nx = x + dx, ny = y + dy;
        if (nx >= 0 && ny >= 0 && nx < p.width && ny < p.height && p.at(nx, ny) < 160) return true;
      }
    }
    return false;
  };
  int dark = 0, differ = 0;
  for (int y = 0; y < std::min(a.height, b.height); ++y) {
    for (int x = 0; x < std::min(a.width, b.width); ++x) {
      if (a.at(x, y) < 96) ++dark, differ += dark_near(b, x, y) ? 0 : 1;
      if (b.at(x, y) < 96) ++dark, differ += dark_near(a, x, y) ? 0 : 1;
    }
  }
  REQUIRE(dark > 1000);
  return static_cast<double>(differ) / dark;
}

}  // namespace

TEST_CASE("a picture shows what an independent program makes of the printed page") {
  const std::vector<Page> pages{page_of_every_mark()};
  for (const int dots_per_inch : {100, 300}) {
    CAPTURE(dots_per_inch);
    const Picture ours = decoded(png_of(pages.front(), dots_per_inch, fonts()), dots_per_inch);
    const Picture theirs = printed(pdf_of(pages, {}, fonts()), 1, dots_per_inch);
    CHECK(std::abs(ours.width - theirs.width) <= 1);
    CHECK(std::abs(ours.height - theirs.height) <= 1);
    CHECK(share_that_differs(ours, theirs) < 0.002);
  }
}

TEST_CASE("codes are read from the picture by both readers") {
  const Page page = tag_sheet(ids_of_a_sheet());
  const Picture picture = decoded(png_of(page, 300, fonts()), 300);
  const auto ids = ids_of_a_sheet();
  for (std::size_t n = 0; n < ids.size(); ++n) {
    const Picture label = picture.part(
        {70.0 * static_cast<double>(n % 3) * mm, (0.5 + 37.0 * static_cast<double>(n / 3)) * mm, 70 * mm, 36 * mm});
    CHECK(read_by_zxing(label) == std::vector{ids.at(n)});
    CHECK(read_by_zbar(label) == std::vector{ids.at(n)});
  }
}

TEST_CASE("a picture states its size and its resolution") {
  // PNG specification (ISO/IEC 15948), 11.2.2: width and height in IHDR; 11.3.5.3: dots a metre in pHYs.
  const Page page{.paper = {"card", 101.6 * mm, 50.8 * mm}, .items = {}, .label = {}, .links = {}};
  const std::string png = png_of(page, 150, fonts());
  CHECK(number_at(png, 16) == 600);
  CHECK(number_at(png, 20) == 300);
  CHECK(png.substr(37, 4) == "pHYs");
  CHECK(number_at(png, 41) == 5906);  // 150 / 0.0254
  CHECK(png.at(49) == 1);
  const auto sum = crc32(0, reinterpret_cast<const Bytef*>(png.data() + 37), 13);
  CHECK(number_at(png, 50) == sum);
}

TEST_CASE("a picture is the same each time, also when several threads make it") {
  const Page page = tag_sheet(ids_of_a_sheet());
  const std::string once = png_of(page, 72, fonts());
  std::vector<std::string> made(4);
  std::vector<std::thread> threads;
  for (std::string& out : made) threads.emplace_back([&] { out = png_of(page, 72, fonts()); });
  for (std::thread& thread : threads) thread.join();
  for (const std::string& out : made) CHECK((out == once));
}

TEST_CASE("pictures coarser or finer than paper is looked at are a broken promise, bad fonts are told") {
  const Page page{.paper = {"card", 50 * mm, 50 * mm}, .items = {}, .label = {}, .links = {}};
  CHECK_THROWS_AS(png_of(page, 35, fonts()), BrokenPromise);
  CHECK_THROWS_AS(png_of(page, 601, fonts()), BrokenPromise);
  CHECK_THROWS_AS(png_of(page, 100, {"no font", "no font"}), WorldError);
}
