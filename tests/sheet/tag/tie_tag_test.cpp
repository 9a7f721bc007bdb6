#include "sheet/tag/tie_tag.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "paper.h"
#include "sheet/tag/tags.h"
#include "template_for_test.h"

using namespace blankwright;

namespace {

const std::string shop =
    "format = 1\nname = \"Three Alders Handle Workshop\"\nzone = \"Europe/Vienna\"\nunits = \"metric\"\n"
    "[hours]\nmonday = [\"07:30-16:30\"]\n[glue]\nleast_edge = \"100 %\"\n[yield]\nexpected = \"17 of 20\"\n"
    "[[routing]]\nname = \"Bore\"\nwho = \"turner\"\nfixed = \"20 min\"\n";
const std::string job =
    "format = 1\nid = \"TA-0147\"\nclient = \"Osric Lamm\"\nitem = \"burnisher handle\"\nquantity = 9\n[handle]\n"
    "stations = [{at = \"0 mm\", diameter = \"26 mm\"}, {at = \"100 mm\", diameter = \"30 mm\"}]\n[stud]\n"
    "thread = \"M8\"\nenters = \"14 mm\"\n[bore]\ndrill = \"9 mm\"\n[wood]\nspecies = \"European beech\"\n";

std::vector<Page> tags_on(const std::string& paper, bool draft = false) {
  const TestOrder order{job, shop, "format = 1\ntag_form = \"tie_tags\"\npaper = \"" + paper + "\"\n", draft};
  Diagnostics out;
  auto pages = tag_pages(order.dossier(), fonts_for_test(), {}, out);
  CHECK_FALSE(out.has_errors());
  return pages;
}

template <class M>
std::vector<M> marks(const Page& page) {
  std::vector<M> out;
  for (const Item& item : page.items) {
    if (const auto* mark = std::get_if<M>(&item.mark)) out.push_back(*mark);
  }
  return out;
}

bool meets(Length a, Length b) { return std::abs((a - b) / mm) < 1e-6; }

}  // namespace

TEST_CASE("a tie tag is 90 by 45 mm with a flap over its eye and a stub, cut, folded and torn where lines say so") {
  for (const char* paper : {"A4", "Letter"}) {
    const auto pages = tags_on(paper);
    const Page& page = pages.front();
    std::vector<Stroke> outlines, folds, tears;
    const std::vector<Ellipse> eyes = marks<Ellipse>(page);
    for (const Stroke& s : marks<Stroke>(page)) {
      if (s.closed && s.paths.front().size() == 6) outlines.push_back(s);
      if (s.dash == Dash::centre) folds.push_back(s);
      if (s.dash == Dash::tear) tears.push_back(s);
    }
    REQUIRE(outlines.size() >= 5);
    REQUIRE(folds.size() == outlines.size());
    REQUIRE(tears.size() == outlines.size());
    REQUIRE(eyes.size() == 2 * outlines.size());
    for (std::size_t i = 0; i < outlines.size(); ++i) {
      Length left = 1 * metre, right = 0 * mm, top = 1 * metre, bottom = 0 * mm;
      for (const Spot& s : outlines.at(i).paths.front()) {
        left = std::min(left, s.x), right = std::max(right, s.x);
        top = std::min(top, s.y), bottom = std::max(bottom, s.y);
      }
      CHECK(left >= 12 * mm);
      CHECK(right <= page.paper.width - 12 * mm);
      CHECK(bottom <= page.paper.height - 12 * mm);
      CHECK(meets(bottom - top, 45 * mm));
      const Length fold = folds.at(i).paths.front().front().x, tear = tears.at(i).paths.front().front().x;
      CHECK(meets(tear - fold, 90 * mm));
      CHECK(meets(right - tear, 30 * mm));
      CHECK(meets(fold - left, 20 * mm));
      // Eyes of Ø5 lie 10 mm to either side of the fold, so that they meet when it is folded; Ø20 about them is free.
      for (const std::size_t k : {2 * i, 2 * i + 1}) {
        const Box& eye = eyes.at(k).box;
        CHECK(meets(eye.width, 5 * mm));
        CHECK(meets(eye.height, 5 * mm));
        CHECK(meets((eye.x + eye.right()) / 2, k % 2 == 0 ? fold - 10 * mm : fold + 10 * mm));
        CHECK(meets((eye.y + eye.bottom()) / 2, (top + bottom) / 2));
      }
      for (const Text& text : marks<Text>(page)) {
        if (text.at.y < top || text.at.y > bottom) continue;
        CHECK(text.at.x >= fold + 20 * mm);
      }
    }
  }
}

TEST_CASE("tag and stub both carry the ID in letters and as a code that both readers read") {
  const auto pages = tags_on("A4");
  CHECK(pages.size() == 3);  // 14 blanks at five a page (297 - 24 + 2 over 47)
  const std::string pdf = pdf_of(pages, {}, font_files_for_test());
  std::vector<std::string> expected;
  for (std::uint32_t n = 0; n < 5; ++n) expected.insert(expected.end(), 2, BlankId::nth(n).encoded());
  std::ranges::sort(expected);
  const Picture picture = printed(pdf, 1, 300);
  CHECK(read_by_zxing(picture) == expected);
  CHECK(read_by_zbar(picture) == expected);
  const std::string words = copied_text(pdf);
  for (std::uint32_t n = 0; n < 5; ++n) {
    const std::string id = BlankId::nth(n).shown();
    const auto first = words.find(id);
    CHECK(first != std::string::npos);
    CHECK(words.find(id, first + 1) != std::string::npos);
  }
}

TEST_CASE("a draft's tie tags have neither ID nor code") {
  for (const Page& page : tags_on("Letter", true)) {
    CHECK(marks<Matrix>(page).empty());
    for (const Text& text : marks<Text>(page)) CHECK_FALSE(BlankId::read(text.words).has_value());
  }
}
