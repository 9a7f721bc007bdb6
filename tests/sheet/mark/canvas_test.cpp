#include "sheet/mark/canvas.h"

#include <doctest/doctest.h>

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
