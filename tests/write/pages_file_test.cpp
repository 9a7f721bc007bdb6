#include "write/pages_file.h"

#include <doctest/doctest.h>

#include "sample_pages.h"
#include "write/ninja_file.h"
#include "write/picture.h"

#include "diagnose/failure.h"

using namespace blankwright;

namespace {

/// Every kind of mark, with lengths that no decimal number has.
LaidOut all_marks() {
  Page page{.paper = letter, .items = {}, .label = "Turner's sheet \"1\"", .links = {}};
  const auto logo = std::make_shared<const GreyPixels>(GreyPixels{2, 3, {0, 10, 200, 255, 127, 1}});
  const Length third = 100.0 / 3 * mm;
  page.items = {
      text(10, 20, "Räuchereiche ≥ 5 µm", Face::bold, third / 7),
      {Text{.at = {third, third}, .words = "turned", .face = Face::narrow, .size = 3 * mm, .turn = 1.0 / 3 * radian}},
      stroke(1, 2, 30.0 / 7, 40, 0.1 * mm, Dash::centre),
      {Stroke{.paths = {rectangle(1, 1, 5, 5), rectangle(7, 7, 9, 9)}, .width = 0.3 * mm, .closed = true}},
      {Fill{.paths = {rectangle(60, 60, 5, third / mm)}, .ink = Ink::grey}},
      {Ellipse{.box = {third, 50 * mm, third, 20 * mm}, .width = 0.2 * mm, .dash = Dash::phantom}},
      {Image{{150 * mm, 10 * mm, third, third}, logo}}};
  page.links = {{{10 * mm, 10 * mm, third, 5 * mm}, "Tags"},
                {{10 * mm, 20 * mm, third, 5 * mm}, "https://example.org/a"}};
  Page tags = tag_sheet(ids_of_a_sheet());
  tags.items.push_back({Image{{150 * mm, 200 * mm, third, third}, logo}});
  return {{"Order 1: \"sheet\"", "Maro & Co", "handle", "en", 1809345600, true}, 72, {page, tags}};
}

}  // namespace

TEST_CASE("a document that was laid out prints from its file as it would have from memory") {
  const LaidOut document = all_marks();
  const std::string bytes = pages_file(document);
  const auto read = read_pages_file(bytes);
  REQUIRE(read);
  CHECK(read->pictures == 72);
  CHECK(pdf_of(read->pages, read->info, fonts()) == pdf_of(document.pages, document.info, fonts()));
  for (std::size_t n = 0; n < document.pages.size(); ++n)
    CHECK(png_of(read->pages.at(n), 72, fonts()) == png_of(document.pages.at(n), 72, fonts()));
  CHECK(pages_file(*read) == bytes);
}

TEST_CASE("a file of pages that is damaged anywhere is refused, and so is what never was one") {
  const std::string whole = pages_file(all_marks());
  const auto why = [](std::string_view bytes) {
    const auto read = read_pages_file(bytes);
    return read ? std::string{} : read.error();
  };
  REQUIRE(why(whole).empty());
  for (std::size_t at = 0; at < whole.size(); at += at < 80 ? 1 : 97) {
    std::string damaged = whole;
    damaged.at(at) = static_cast<char>(damaged.at(at) ^ 4);
    CAPTURE(at);
    CHECK_FALSE(why(damaged).empty());
    CHECK_FALSE(why(whole.substr(0, at)).empty());
  }
  CHECK(why("") == "holds no pages that `compile --print-later` laid out");
  CHECK(why("%PDF-1.7") == "holds no pages that `compile --print-later` laid out");
  CHECK(why("Blankwright pages, format 2, 5 bytes") ==
        "was written by another version of Blankwright, which has to print it");
  CHECK(why("Blankwright pages, format 1, 99999999999999999999 bytes") == "is damaged: compile its order again");
  CHECK(why("Blankwright pages, format 1, 999999999999 bytes\n") == "is damaged: compile its order again");
}

TEST_CASE("what Ninja takes for its own in a path is written so that it does not") {
  // The Ninja build system, manual 1.11, "Lexical syntax": $ before a dollar, a space, a colon.
  CHECK(ninja_path("a b/c:d$e") == "a$ b/c$:d$$e");
  const std::string file = ninja_file("/opt/it's $5/bin", std::vector<std::string>{"A 1/tags.ninja"});
  CHECK(file.find("\nprogram = /opt/it's $$5/bin\n") != std::string::npos);
  CHECK(file.find("\n  command = '/opt/it'\\''s $$5/bin' print-pages --quiet $in\n") != std::string::npos);
  CHECK(file.ends_with("\nsubninja A$ 1/tags.ninja\n"));
  CHECK_THROWS_AS(ninja_file("/opt/two\nlines", {}), WorldError);
}
