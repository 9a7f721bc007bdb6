// Orders as nobody thought of them, on paper, as independent programs read it: Poppler's pdftotext and pdftoppm.
// RANDOM_ORDERS=1000 makes that many instead of a sample.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <set>
#include <string_view>

#include "found_words.h"
#include "page_fill.h"
#include "program.h"
#include "random_orders.h"

using namespace blankwright;

namespace {

constexpr int sample = 50;
int orders_wanted() {
  const char* said = std::getenv("RANDOM_ORDERS");
  if (said == nullptr) return sample;
  const std::string_view digits{said};
  int wanted = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), wanted);
  return wanted;
}

void check_margins(const Picture& p) {
  const int edge = dots(template_margin_mm - 0.6);  // a line's half and a dot
  CHECK(is_white(p, 0, 0, p.width, edge));
  CHECK(is_white(p, 0, p.height - edge, p.width, p.height));
  CHECK(is_white(p, 0, 0, edge, p.height));
  CHECK(is_white(p, p.width - edge, 0, p.width, p.height));
}

void check_words(const std::vector<FoundWord>& words, bool letter) {
  for (const std::string& fault : misplaced(words, letter ? 612 : 595.276, letter ? 792 : 841.89)) FAIL_CHECK(fault);
}

/// No edge of a box runs through a word, but that numbers of cuts stand in a gap of their line on the cutting plan.
void check_boxes(const std::vector<FoundBox>& boxes, const std::vector<FoundWord>& words) {
  const double slack = 0.6;
  std::set<int> cutting_plans;
  for (const FoundWord& word : words) {
    if (word.text == "Cutting" && word.bottom - word.top > 14) cutting_plans.insert(word.page);  // a title
    const bool is_number = word.text.find_first_not_of("0123456789") == std::string::npos;
    if (is_number && cutting_plans.contains(word.page)) continue;
    const FoundWord ink = ink_of(word);
    for (const FoundBox& box : boxes) {
      if (box.page != word.page) continue;
      const bool beside = ink.right < box.left + slack || ink.left > box.right - slack ||
                          ink.bottom < box.top + slack || ink.top > box.bottom - slack;
      const bool inside = ink.left > box.left - slack && ink.right < box.right + slack && ink.top > box.top - slack &&
                          ink.bottom < box.bottom + slack;
      if (!beside && !inside) FAIL_CHECK("page " << word.page << ": a line runs through " << word.text);
    }
  }
}

FoundPages checked_pages(const std::string& file, bool letter, std::size_t least_boxes) {
  FoundPages pages = found_pages(file);
  const auto& [words, pictures] = pages;
  check_words(words, letter);
  const auto boxes = found_boxes(file);
  CHECK(boxes.size() > least_boxes);
  check_boxes(boxes, words);
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    CAPTURE(i + 1);
    if (is_white(pictures.at(i), 0, 0, pictures.at(i).width, pictures.at(i).height)) continue;  // behind a card
    check_margins(pictures.at(i));
    CHECK(used(pictures.at(i)) > 0.01);  // more than its head
  }
  return pages;
}

std::string own_template(const RandomOrder& order) {
  const bool letter = order.paper == "letter";
  return fmt::format("format = 1\npaper = \"{}\"\ntag_sheet = \"{}\"\nlettering = \"{} %\"\n",
                     letter ? "Letter" : "A4", letter ? "letter-2x5-101.6x50.8" : "a4-3x7-63.5x38.1",
                     order.lettering);
}

void check_order(const RandomOrder& order, int& refused) {
  const SampleJobs jobs;
  const std::string shop = jobs / (order.shop + "/shop.toml"), job = jobs / (order.shop + "/random.toml");
  std::string shop_text = bytes_of(shop);
  const std::string own = order.shop == "metric" ? "template = \"a4\"" : "template = \"letter\"";
  shop_text.replace(shop_text.find(own), own.size(), "template = \"random_sheets.toml\"");
  put_bytes(shop, shop_text);
  put_bytes(jobs / (order.shop + "/random_sheets.toml"), own_template(order));
  put_bytes(job, order.text);
  const ProgramRun run = run_program({"compile", "--quiet", "--week", "--out", jobs.out(), job});
  CAPTURE(order.id);
  REQUIRE_MESSAGE((run.exit == Exit::done || run.exit == Exit::mistakes), run.errors);
  if (run.exit == Exit::mistakes) {
    ++refused;
    CHECK_FALSE(std::filesystem::exists(jobs.out() + "/" + order.id));
    return;
  }
  const bool letter = order.paper == "letter";
  const FoundPages traveller = checked_pages(jobs.out() + "/" + order.id + "/traveller.pdf", letter, 50);
  CHECK(traveller.pictures.size() > 3);
  CHECK(hardly_used(traveller) == std::vector<int>{});
  CHECK_FALSE(checked_pages(jobs.out() + "/week.pdf", letter, 10).pictures.empty());
  check_words(found_words(jobs.out() + "/" + order.id + "/tags.pdf"), letter);
}

}  // namespace

TEST_CASE("random orders come out on paper with nothing over anything else, nor over the edge") {
  const int wanted = orders_wanted();
  int refused = 0;
  for (int seed = 1; seed <= wanted; ++seed) check_order(RandomOrder{static_cast<std::uint64_t>(seed)}, refused);
  MESSAGE(refused << " of " << wanted << " orders were refused");
  CHECK(2 * refused < wanted);
}
