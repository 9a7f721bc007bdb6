#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "measure/characters.h"
#include "measure/utf8.h"
#include "paper.h"
#include "write/sample_pages.h"

// What a printer makes of the pages: pictures at 300 dpi.

using namespace blankwright;

namespace {

/// Rows or columns of the picture in which something is black, first and last.
struct Extent {
  int left, right, top, bottom;
};
std::optional<Extent> black_extent(const Picture& picture) {
  std::optional<Extent> extent;
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) {
      if (picture.at(x, y) >= 128) continue;
      if (!extent) extent = Extent{x, x, y, y};
      extent = Extent{std::min(extent->left, x), std::max(extent->right, x), extent->top, y};
    }
  }
  return extent;
}

double black_mm(int first, int last) { return (last + 1 - first) * 25.4 / 300; }

}  // namespace

TEST_CASE("every supported character is printed, and not as an empty box") {
  // A reader copies text even where the picture shows a box, so only the picture proves a glyph. U+2603 is in no font
  // of ours: what it prints is the box.
  constexpr int in_a_row = 20;
  constexpr double cell = 108 * 25.4 / 300;  // whole dots, so that equal glyphs make equal pictures
  const auto is_space = [](char32_t character) {
    return character == 0x20 || character == 0xA0 || character == 0x2009 || character == 0x202F;
  };
  std::u32string characters{0x2603, 0x2603};
  for (const CharacterRange& range : supported_ranges()) {
    for (char32_t character = range.first; character <= range.last; ++character) characters += character;
  }
  for (const Face face : {Face::regular, Face::bold}) {
    Page page{.paper = {"proof", 200 * mm, 300 * mm}, .items = {}, .label = {}};
    const auto left = [](std::size_t n) { return cell * static_cast<double>(n % in_a_row); };
    const auto top = [](std::size_t n) { return cell * static_cast<double>(n / in_a_row); };
    for (std::size_t n = 0; n < characters.size(); ++n) {
      page.items.push_back(text(left(n) + 1, top(n) + 7, to_utf8(characters.at(n)), face, 6 * mm));
    }
    const Picture picture = printed(pdf(page));
    const auto cell_of = [&](std::size_t n) {
      return picture.part({left(n) * mm, top(n) * mm, cell * mm, cell * mm}).grey;
    };
    const std::vector<std::uint8_t> box = cell_of(0);
    REQUIRE(std::count(box.begin(), box.end(), 0) > 0);
    REQUIRE((cell_of(1) == box));
    for (std::size_t n = 2; n < characters.size(); ++n) {
      CAPTURE(to_utf8(characters.at(n)));
      const std::vector<std::uint8_t> ink = cell_of(n);
      CHECK((*std::min_element(ink.begin(), ink.end()) < 128) != is_space(characters.at(n)));
      CHECK((ink != box));
    }
  }
}

TEST_CASE("letters keep their accents") {
  // A subset that lost the parts of a glyph that is put together would print š as s.
  for (const Face face : {Face::regular, Face::bold}) {
    for (const auto& [accented, plain] :
         {std::pair{"š", "s"}, {"é", "e"}, {"Å", "A"}, {"ű", "u"}, {"ź", "z"}, {"ή", "η"}}) {
      const auto black = [&](const char* word) {
        const Paper stamp{"stamp", 20 * mm, 10 * mm};
        const Picture picture = printed(pdf({.paper = stamp, .items = {text(5, 8, word, face)}, .label = {}}));
        return std::count_if(picture.grey.begin(), picture.grey.end(), [](std::uint8_t grey) { return grey < 128; });
      };
      CAPTURE(accented);
      CHECK(black(accented) > black(plain));
    }
  }
}

TEST_CASE("text stands upright at its place, and turned text runs anticlockwise") {
  const Picture upright =
      printed(pdf({.paper = a4, .items = {text(50, 100, "HHHH", Face::bold, 10 * mm)}, .label = {}}));
  const Extent ink = black_extent(upright).value();
  // Capitals of Liberation Sans are 1409/2048 em high (its OS/2 table): 6.88 mm on the baseline.
  CHECK(ink.bottom * 25.4 / 300 == doctest::Approx(100).epsilon(0.002));
  CHECK(black_mm(ink.top, ink.bottom) == doctest::Approx(6.88).epsilon(0.02));
  CHECK(ink.left * 25.4 / 300 > 50);
  CHECK(ink.left * 25.4 / 300 < 52);

  Item quarter = text(50, 100, "HHHH", Face::bold, 10 * mm);
  std::get<Text>(quarter.mark).turn = 90 * degree;
  const Extent turned = black_extent(printed(pdf({.paper = a4, .items = {quarter}, .label = {}}))).value();
  CHECK(turned.right * 25.4 / 300 == doctest::Approx(50).epsilon(0.004));
  CHECK(turned.bottom * 25.4 / 300 < 100);
  CHECK(black_mm(turned.top, turned.bottom) == doctest::Approx(black_mm(ink.left, ink.right)).epsilon(0.01));
}

TEST_CASE("a stroke of 100 mm measures 100 mm, across and down, on both papers") {
  for (const Paper& paper : {a4, letter}) {
    Page page{.paper = paper, .items = {stroke(20, 40, 120, 40, 0.5 * mm)}, .label = {}};
    const Extent across = black_extent(printed(pdf(page))).value();
    CHECK(std::abs(black_mm(across.left, across.right) - 100) <= 0.1);
    CHECK(std::abs(across.left * 25.4 / 300 - 20) <= 0.1);
    CHECK(std::abs((across.top + across.bottom + 1) / 2.0 * 25.4 / 300 - 40) <= 0.1);
    CHECK(std::abs(black_mm(across.top, across.bottom) - 0.5) <= 0.1);

    page.items = {stroke(20, 40, 20, 140, 0.5 * mm)};
    const Extent down = black_extent(printed(pdf(page))).value();
    CHECK(std::abs(black_mm(down.top, down.bottom) - 100) <= 0.1);
    CHECK(std::abs(down.top * 25.4 / 300 - 40) <= 0.1);
  }
}

TEST_CASE("dashes have the lengths of the drawing standard") {
  // ISO 128-2, lines 02 and 04, from memory: hidden 12d 3d; centre long dash 24d, gap 3d, dot at most 0.5d, gap 3d.
  // At d = 0.5 mm: 6.0 and 1.5; 12.0, 1.5, 0.25, 1.5. Tear line 3 and 1.5 mm (common practice, no source).
  struct Row {
    Dash dash;
    std::vector<double> lengths;
  };
  const Row rows[] = {
      {Dash::hidden, {6, 1.5, 6, 1.5}}, {Dash::centre, {12, 1.5, 0.25, 1.5, 12}}, {Dash::tear, {3, 1.5, 3, 1.5}}};
  for (const Row& row : rows) {
    const Page page{.paper = a4, .items = {stroke(10, 40, 110, 40, 0.5 * mm, row.dash)}, .label = {}};
    const Picture picture = printed(pdf(page));
    const int y = static_cast<int>(std::lround(40 / 25.4 * 300));
    int x = static_cast<int>(std::lround(10 / 25.4 * 300)) - 2;
    while (picture.at(x, y) >= 128) ++x;
    bool black = true;
    for (const double length : row.lengths) {
      const int first = x;
      while ((picture.at(x, y) < 128) == black) ++x;
      CAPTURE(static_cast<int>(row.dash));
      CHECK(std::abs((x - first) * 25.4 / 300 - length) <= 0.085);  // a dot
      black = !black;
    }
  }
}

TEST_CASE("white clears what lies below, and what follows is black again") {
  const Page page{.paper = a4,
                  .items = {{Fill{.paths = {rectangle(20, 20, 40, 40)}}, Role::rule},
                            {Fill{.paths = {rectangle(30, 30, 20, 20)}, .ink = Ink::white}, Role::rule},
                            {Fill{.paths = {rectangle(35, 35, 10, 10)}}, Role::rule}},
                  .label = {}};
  const Picture picture = printed(pdf(page));
  const auto at = [&](double x, double y) {
    return picture.at(static_cast<int>(x / 25.4 * 300), static_cast<int>(y / 25.4 * 300));
  };
  CHECK(at(25, 25) == 0);
  CHECK(at(32, 32) == 255);
  CHECK(at(40, 40) == 0);
  CHECK(at(10, 10) == 255);
}

TEST_CASE("an ellipse fills its box, and a ring has its line on the edges of its box") {
  const Box disc{20 * mm, 20 * mm, 60 * mm, 40 * mm}, ring{100 * mm, 20 * mm, 60 * mm, 40 * mm};
  const Page page{
      .paper = a4, .items = {{Ellipse{disc, {}}, Role::rule}, {Ellipse{ring, 2 * mm}, Role::rule}}, .label = {}};
  const Picture picture = printed(pdf(page));
  const double dot = 25.4 / 300;               // mm
  const auto black_in = [&](const Box& box) {  // mm²
    const Picture part = picture.part(box);
    double dark = 0;
    for (int y = 0; y < part.height; ++y) {
      for (int x = 0; x < part.width; ++x) dark += 255 - part.at(x, y);
    }
    return dark / 255 * dot * dot;
  };
  CHECK(black_in({10 * mm, 10 * mm, 80 * mm, 60 * mm}) == doctest::Approx(3.14159265 * 30 * 20).epsilon(0.001));
  // Through the centre, across and down: the line's two crossings, each as wide as the line, about the box's edges.
  for (const Spot edge : {Spot{100 * mm, 40 * mm}, {160 * mm, 40 * mm}, {130 * mm, 20 * mm}, {130 * mm, 60 * mm}}) {
    const bool across = edge.y == 40 * mm;
    const int x = static_cast<int>(edge.x / mm / dot), y = static_cast<int>(edge.y / mm / dot);
    double dark = 0, moment = 0;
    for (int i = -20; i <= 20; ++i) {
      const double ink = 255 - (across ? picture.at(x + i, y) : picture.at(x, y + i));
      dark += ink;
      moment += ink * ((across ? x : y) + i + 0.5);
    }
    CAPTURE(edge.x / mm);
    CHECK(std::abs(dark / 255 * dot - 2) < 0.05);
    CHECK(std::abs(moment / dark * dot - (across ? edge.x : edge.y) / mm) < 0.05);
  }
}

TEST_CASE("every code of a printed sheet of 24 tags is read by two readers") {
  const std::vector<std::string> ids = ids_of_a_sheet();
  const Picture sheet = printed(pdf(tag_sheet(ids)));
  for (std::size_t n = 0; n < ids.size(); ++n) {
    const double x = 70.0 * static_cast<double>(n % 3), y = 0.5 + 37.0 * static_cast<double>(n / 3);
    CAPTURE(ids.at(n));
    const Picture tag = sheet.part({x * mm, y * mm, 33 * mm, 37 * mm});  // of whole sheets both readers miss some
    CHECK(read_by_zxing(tag) == std::vector{ids.at(n)});
    CHECK(read_by_zbar(tag) == std::vector{ids.at(n)});
  }
}

TEST_CASE("every module of a printed code is the same whole number of dots") {
  const QrSymbol symbol = qr_symbol({.text = "K7T4X54"}).value();
  const QrPlacing placing = placed_qr(symbol.side, {20.3 * mm, 31.7 * mm, 20 * mm, 20 * mm}).value();
  const Page page{.paper = a4,
                  .items = {{Matrix{placing.at, placing.module, symbol.side, symbol.black}, Role::code}},
                  .label = {}};
  const Picture picture = printed(pdf(page));
  const int dots = static_cast<int>(std::lround(placing.module / printer_dot));
  const int left = static_cast<int>(std::lround(placing.at.x / printer_dot));
  const int top = static_cast<int>(std::lround(placing.at.y / printer_dot));
  int wrong = 0;
  for (int y = 0; y < symbol.side * dots; ++y) {
    for (int x = 0; x < symbol.side * dots; ++x) {
      const std::size_t module = static_cast<std::size_t>(y / dots * symbol.side + x / dots);
      if ((picture.at(left + x, top + y) < 128) != symbol.black.at(module)) ++wrong;
    }
  }
  CHECK(wrong == 0);
  CHECK(read_by_zxing(picture) == std::vector<std::string>{"K7T4X54"});
}
