#include "sheet/sheet/code_sheet.h"

#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <set>

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

TEST_CASE("every action code is printed once, and both readers read what stands beside it") {
  for (const char* paper : {"A4", "Letter"}) {
    CAPTURE(paper);
    std::set<std::string> expected{std::string{undo_code}};
    for (const KindFacts& kind : kind_list()) {
      if (!kind.code.empty()) expected.insert(std::string{kind.code});
    }
    const std::string pdf = pdf_of(pages(paper), {}, font_files_for_test());
    std::multiset<std::string> zxing, zbar;
    for (std::size_t n = 0; n < pages(paper).size(); ++n) {
      const Picture picture = printed(pdf, static_cast<int>(n) + 1);
      for (const Item& item : pages(paper).at(n).items) {  // of whole sheets both readers miss some
        const auto* code = std::get_if<Matrix>(&item.mark);
        if (code == nullptr) continue;
        const Length border = quiet_modules * code->module;
        const Length side = code->side * code->module + 2 * border;
        const Picture alone = picture.part({code->at.x - border, code->at.y - border, side, side});
        for (const std::string& read : read_by_zxing(alone)) zxing.insert(read);
        for (const std::string& read : read_by_zbar(alone)) zbar.insert(read);
      }
    }
    CHECK(zxing == std::multiset<std::string>{expected.begin(), expected.end()});
    CHECK(zbar == zxing);
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
