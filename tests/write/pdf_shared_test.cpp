// Marks that several pages have in common are written once: Poppler has to see the pages as they are alone.

#include "write/pdf_shared.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "paper.h"
#include "write/sample_pages.h"

using namespace blankwright;

namespace {

/// Lines and words that are worth a stream of their own, from `y` down.
std::vector<Item> head(double y) {
  std::vector<Item> items;
  for (int i = 0; i < 12; ++i) {
    const double x = 20 + 14 * i;
    items.push_back(stroke(x, y, x + 10.3, y + 7.1, 0.35 * mm, i % 2 == 0 ? Dash::solid : Dash::hidden));
    items.push_back(text(x, y + 15, "No. " + std::to_string(i), i % 3 == 0 ? Face::bold : Face::regular, 3 * mm));
  }
  return items;
}

void add(Page& page, const std::vector<Item>& items) {
  page.items.insert(page.items.end(), items.begin(), items.end());
}

/// Five pages under one head; two of them share more, one is of other paper, one clears the place of the head first.
std::vector<Page> pages_of_a_sheet() {
  std::vector<Page> pages(5, Page{.paper = a4, .items = {}, .label = "Sheet"});
  pages.at(3).paper = letter;
  for (std::size_t p = 0; p < pages.size(); ++p) {
    Page& page = pages.at(p);
    page.items.push_back(text(20, 12, "page " + std::to_string(p), Face::bold));
    if (p == 4) page.items.push_back({Fill{.paths = {rectangle(10, 18, 190, 20)}, .ink = Ink::white}, Role::rule});
    add(page, head(20));
    if (p == 1 || p == 2) add(page, head(60));
    page.items.push_back(text(20, 200, "own " + std::to_string(p * 7)));
  }
  return pages;
}

}  // namespace

TEST_CASE("pages that share marks look and read as they do alone") {
  const std::vector<Page> pages = pages_of_a_sheet();
  const std::string together = pdf_of(pages, {}, fonts());
  std::string words;
  for (std::size_t p = 0; p < pages.size(); ++p) {
    CAPTURE(p);
    const std::string alone = pdf(pages.at(p));
    const Picture expected = printed(alone, 1, 100), seen = printed(together, static_cast<int>(p) + 1, 100);
    CHECK(seen.width == expected.width);
    CHECK(seen.grey == expected.grey);
    words += copied_text(alone);
  }
  CHECK(copied_text(together) == words);
}

TEST_CASE("what stands on the same pages of one paper is one stream, but for what stands on a mark that covers") {
  const TakenApart apart = taken_apart(pages_of_a_sheet());
  REQUIRE(apart.shared.size() == 2);
  CHECK(apart.shared.at(0).pages == std::vector<std::size_t>{0, 1, 2});
  CHECK(apart.shared.at(0).marks.items.size() == 24);
  CHECK(apart.shared.at(1).pages == std::vector<std::size_t>{1, 2});
  CHECK(apart.rest.at(0).items.size() == 2);
  CHECK(apart.rest.at(3).items.size() == 26);  // no other page of its paper
  CHECK(apart.rest.at(4).items.size() == 27);
}

TEST_CASE("little that pages have in common stays with each") {
  std::vector<Page> pages(3, Page{.paper = a4, .items = {text(20, 20, "alike")}, .label = ""});
  CHECK(taken_apart(pages).shared.empty());
  // A mark that stands twice on a page is drawn twice.
  std::vector<Page> twice(2, Page{.paper = a4, .items = head(20), .label = ""});
  add(twice.front(), head(20));
  CHECK(taken_apart(twice).shared.empty());
  CHECK(taken_apart(twice).rest.front().items.size() == 48);
}
