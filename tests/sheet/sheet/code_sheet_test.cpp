#include "sheet/sheet/code_sheet.h"

#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <set>

#include "damage.h"
#include "entries/entry_kind.h"
#include "paper.h"
#include "sheet/mark/qr.h"
#include "template_for_test.h"
#include "write/pdf.h"

using namespace blankwright;

namespace {

const std::vector<Page>& pages(const char* paper) {
  static std::map<std::string, std::vector<Page>> made;
  auto& out = made[paper];
  if (out.empty()) out = code_sheets(template_for_test(paper), fonts_for_test());
  return out;
}

}  // namespace

namespace {

std::set<std::string> all_codes() {
  std::set<std::string> out{std::string{undo_code}};
  for (const KindFacts& kind : kind_list()) {
    if (!kind.code.empty()) out.insert(std::string{kind.code});
  }
  return out;
}

/// The pictures of all symbols of a page, each alone with its quiet zone.
std::vector<Picture> symbols_of(const Page& page, const Picture& picture) {
  std::vector<Picture> out;
  for (const Item& item : page.items) {
    const auto* code = std::get_if<Matrix>(&item.mark);
    if (code == nullptr) continue;
    CHECK(code->side == 25);  // ISO/IEC 18004: version 2 has 25 modules a side
    CHECK(code->side * code->module >=
          20 * mm);  // read at 200 mm, by ten times its width: common practice, no source
    const Length border = quiet_modules * code->module, side = code->side * code->module + 2 * border;
    out.push_back(picture.part({code->at.x - border, code->at.y - border, side, side}));
  }
  return out;
}

}  // namespace

TEST_CASE(
    "every action code is printed once, and each reader reads all of a page, coarse, and each code at a tilt of "
    "50°") {
  for (const char* paper : {"A4", "Letter"}) {
    CAPTURE(paper);
    const std::set<std::string> expected = all_codes();
    const std::string pdf = pdf_of(pages(paper), {}, font_files_for_test());
    std::multiset<std::string> zxing, zbar, tilted_zxing, tilted_zbar;
    std::multiset<std::string> zxing_of_pages, zbar_of_pages;
    const auto add = [](auto& to, const std::vector<std::string>& texts) { to.insert(texts.begin(), texts.end()); };
    for (std::size_t n = 0; n < pages(paper).size(); ++n) {
      const int page = static_cast<int>(n) + 1;
      const Picture coarse = printed(pdf, page, 150);
      add(zxing_of_pages, read_by_zxing(coarse));
      add(zbar_of_pages, read_by_zbar(coarse));
      for (const Picture& alone : symbols_of(pages(paper).at(n), coarse)) {
        add(zxing, read_by_zxing(alone));
        add(zbar, read_by_zbar(alone));
      }
      for (const Picture& alone : symbols_of(pages(paper).at(n), printed(pdf, page))) {
        const Picture seen = tilted(alone, 50, 300);
        add(tilted_zxing, read_by_zxing(seen));
        add(tilted_zbar, read_by_zbar(seen));
      }
    }
    const std::multiset<std::string> each_once{expected.begin(), expected.end()};
    CHECK(zxing_of_pages == each_once);
    CHECK(zbar_of_pages == each_once);
    CHECK(zxing == each_once);
    CHECK(zbar == each_once);
    CHECK(tilted_zxing == each_once);
    CHECK(tilted_zbar == each_once);
    const std::string text = copied_text(pdf);
    for (const std::string& code : expected) CHECK(text.find(code) != std::string::npos);
  }
}

TEST_CASE("symbols stand far enough apart for a scanner to see one at a time") {
  // Common practice, no source: 25 mm from middle to middle.
  for (const Page& page : pages("A4")) {
    std::vector<Spot> middles;
    for (const Item& item : page.items) {
      if (const auto* code = std::get_if<Matrix>(&item.mark)) {
        const Length half = code->side * code->module / 2;
        middles.push_back({code->at.x + half, code->at.y + half});
      }
    }
    for (std::size_t a = 0; a < middles.size(); ++a) {
      for (std::size_t b = 0; b < a; ++b) {
        const double dx = (middles.at(a).x - middles.at(b).x) / mm, dy = (middles.at(a).y - middles.at(b).y) / mm;
        CHECK(std::hypot(dx, dy) >= 25);
      }
    }
  }
}

TEST_CASE("the code that takes an entry back is no kind's and differs from each in two symbols") {
  CHECK(find_code(undo_code) == nullptr);
  CHECK_FALSE(BlankId::read(undo_code).has_value());
  for (const KindFacts& kind : kind_list()) {
    if (kind.code.empty()) continue;
    int differ = 0;
    for (std::size_t i = 0; i < 4; ++i) differ += kind.code.at(i) != undo_code.at(i) ? 1 : 0;
    CAPTURE(kind.code);
    CHECK(differ >= 2);
  }
}
