#include "sheet/mark/canvas.h"

#include <doctest/doctest.h>

#include "sheet/mark/fitted.h"
#include "table_pages_fixture.h"

using namespace blankwright;
using blankwright::table_pages::shared_fonts;

namespace {

using LinesOfText = std::vector<std::string>;

/// The words broken where a line has just room for `widest`.
LinesOfText broken_at(const std::string& words, const std::string& widest) {
  Page page;
  const Canvas canvas{page, shared_fonts()};
  const TextStyle style{};
  return canvas.broken(words, canvas.width_of(widest, style) + 0.001 * mm, style).lines;
}

}  // namespace

TEST_CASE("a word wider than its line is hyphenated, two letters at least on each side") {
  CHECK(broken_at("Probewürfel", "Probew-") == LinesOfText{"Probew-", "ürfel"});
  CHECK(broken_at("Probewürfel", "Probewürfe") == LinesOfText{"Probewürf-", "el"});
  CHECK(broken_at("der Probewürfel", "Probew-") == LinesOfText{"der", "Probew-", "ürfel"});
  CHECK(broken_at("δοκιμή", "δοκ-") == LinesOfText{"δοκ-", "ιμή"});
}

TEST_CASE("an ID or a number that is cut takes no hyphen, which would be read as a part of it") {
  CHECK(broken_at("TA-0147", "TA-01") == LinesOfText{"TA-01", "47"});
  CHECK(broken_at("NG732GX", "NG73") == LinesOfText{"NG73", "2GX"});
  CHECK(broken_at("TAKATAKA", "TAKA") == LinesOfText{"TAKA", "TAKA"});
  CHECK(broken_at("12345678", "1234") == LinesOfText{"1234", "5678"});
}

TEST_CASE("a word stays whole where it fits, and words part at spaces first") {
  CHECK(broken_at("Probe ab", "Probe ab") == LinesOfText{"Probe ab"});
  CHECK(broken_at("Probe ab", "Probe") == LinesOfText{"Probe", "ab"});
}

TEST_CASE("no line ends between a number and its unit") {
  // ISO 80000-1:2009, 7.1.4: a space stands between them; that they share a line is common practice, no source.
  CHECK(broken_at("at most 8 h", "at most 8") == LinesOfText{"at most", "8 h"});
  CHECK(broken_at("at 87 °C, 3 h", "at 87 °C,") == LinesOfText{"at 87 °C,", "3 h"});
  CHECK(broken_at("at most 1.16 N m", "at most 1.16 N") == LinesOfText{"at most", "1.16 N m"});
  CHECK(broken_at("it is 7.90 g/cm³", "7.90 g/cm³") == LinesOfText{"it is", "7.90 g/cm³"});
  CHECK(broken_at("15 min", "min") == LinesOfText{"15", "min"});  // there is no room for both
  CHECK(broken_at("no more, ≤ 5 mm", "no more, ≤ 5") == LinesOfText{"no more,", "≤ 5 mm"});
  CHECK(broken_at("strip 1 2", "strip 1") == LinesOfText{"strip 1", "2"});
}

TEST_CASE("what finds no room enlarged is set as without, and no figure loses its end") {
  Page page;
  const TextStyle style{.size = Lettering::note};
  const Length width = Canvas{page, shared_fonts()}.width_of("152.8", narrowed(style)) + 0.001 * mm;
  const Box box{0 * mm, 0 * mm, width, 3 * mm};
  Canvas enlarged{page, shared_fonts(), 1.3};
  enlarged.text_fitted(box, "152.8", style);
  fitted(enlarged, box, "152.8", style);
  REQUIRE(page.items.size() == 2);
  for (const Item& item : page.items) CHECK(std::get<Text>(item.mark).words == "152.8");
}
