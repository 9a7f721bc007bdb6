#pragma once

// An order with all that its table pages are made from, built from TOML as a user writes it. The workshops, clients
// and items are invented.

#include <fmt/format.h>

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <functional>
#include <iterator>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "plan/order/plan_order.h"
#include "plan/shop/plan_shop.h"
#include "read/template.h"
#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright::table_pages {

inline std::string bytes_of_file(const std::string& path) {
  std::ifstream file{std::string{BLANKWRIGHT_SOURCE_DIR} + path, std::ios::binary};
  return std::string{std::istreambuf_iterator<char>{file}, {}};
}

inline const FontMetrics& shared_fonts() {
  static const FontMetrics fonts{bytes_of_file("/fonts/BlankwrightSans-Regular.ttf"),
                                 bytes_of_file("/fonts/BlankwrightSans-Bold.ttf")};
  return fonts;
}

struct Step {
  std::string name = "Saw", who = "turner", limit = {}, hold = {};
  int minutes = 20;
};

/// What a test varies.
struct Job {
  std::string id = "TA-0147", client = "Osric Lamm", item = "burnisher handle";
  int quantity = 6;
  bool due = true, inches = false, letter = false, draft = false;
  int margin = 12;      // mm
  int lettering = 100;  // %
  int blanks = 9;
  std::vector<Step> steps = {{"Saw the blanks", "bath keeper", "oversize", ""},
                             {"Oven-dry", "bath keeper", "", "dry mass stable"},
                             {"Turn", "turner", "on the stud", ""}};
};

inline std::string job_text(const Job& job) {
  return fmt::format(R"(format = 1
id = "{}"
client = "{}"
item = "{}"
quantity = {}
{}
[handle]
stations = [{{at = "0 mm", diameter = "26 mm"}}, {{at = "60 mm", diameter = "34 mm"}}, {{at = "108 mm", diameter = "24 mm"}}]
[stud]
thread = "M8"
enters = "14 mm"
hole_depth = "17 mm"
pull = "600 N"
[wood]
species = "European beech"
condition = "spalted"
moisture = "9 %"
)",
                     job.id, job.client, job.item, job.quantity, job.due ? "due = 2027-06-18" : "");
}

inline std::string shop_text(const Job& job) {
  std::string text = fmt::format(R"(format = 1
name = "Three Alders Handle Workshop"
zone = "Europe/Vienna"
units = "{}"
[hours]
monday = ["07:30-16:30"]
tuesday = ["07:30-16:30"]
wednesday = ["07:30-16:30"]
[glue]
least_edge = "150 %"
[yield]
expected = "17 of 20"
)",
                                 job.inches ? "inch" : "metric");
  for (const Step& step : job.steps) {
    text += fmt::format("[[routing]]\nname = \"{}\"\nwho = \"{}\"\nfixed = \"{} min\"\n", step.name, step.who,
                        step.minutes);
    if (!step.limit.empty()) text += fmt::format("limit = \"{}\"\n", step.limit);
    if (!step.hold.empty()) text += fmt::format("hold = \"{}\"\n", step.hold);
  }
  return text;
}

inline std::string template_text(const Job& job) {
  return fmt::format("format = 1\nmargin = \"{} mm\"\nlettering = \"{} %\"\npaper = \"{}\"\n", job.margin,
                     job.lettering, job.letter ? "Letter" : "A4");
}

/// Keeps what a dossier refers to.
class Prepared {
 public:
  explicit Prepared(const Job& job) : draft_{job.draft} {
    Diagnostics out;
    const auto source = [](const std::string& name, const std::string& text) {
      return std::make_shared<SourceText>(SourceText{name, text});
    };
    auto words = read_template(source("standard.toml", bytes_of_file("/templates/standard.toml")), Template{}, out);
    if (words) words = read_template(source("own.toml", template_text(job)), *words, out);
    auto order = read_order(source("job.toml", job_text(job)), out);
    auto shop = read_shop(source("shop.toml", shop_text(job)), out);
    INFO(rendered(out));
    REQUIRE((words && order && shop));
    words_ = std::move(*words);
    order_ = std::move(*order);
    shop_ = std::move(*shop);
    plan_ = plan_order(order_, shop_, Record{}, out);
    INFO(rendered(out));
    REQUIRE(plan_);
    const std::array orders{order_to_make(order_, shop_, *plan_, Record{})};
    const ShopTime time = shop_time(shop_, at_);
    together_ = plan_shop(orders, shop_, time, out);
    INFO(rendered(together_.orders.front().said));
    REQUIRE(together_.orders.front().times);
    times_ = times_in_full(0, together_, orders, shop_, time, out);
    for (int n = 0; n < job.blanks && !draft_; ++n) blanks_.push_back(BlankId::nth(static_cast<std::uint32_t>(n)));
  }

  Dossier dossier() const {
    return {order_, shop_, *plan_, times_, words_, blanks_, draft_, at_, "Blankwright 0.1.0", {}, {}};
  }

 private:
  bool draft_;
  Instant at_{std::chrono::sys_days{std::chrono::year{2027} / 5 / 3} + std::chrono::hours{7}};
  Template words_;
  Order order_;
  Shop shop_;
  std::optional<OrderPlan> plan_;
  ShopPlan together_;
  OrderTimes times_;
  std::vector<BlankId> blanks_;
};

inline std::vector<Text> texts_of(const Page& page) {
  std::vector<Text> texts;
  for (const Item& item : page.items) {
    if (const auto* text = std::get_if<Text>(&item.mark)) texts.push_back(*text);
  }
  return texts;
}

inline std::vector<Text> texts_of(const std::vector<Page>& pages) {
  std::vector<Text> all;
  for (const Page& page : pages) {
    for (Text& text : texts_of(page)) all.push_back(std::move(text));
  }
  return all;
}

/// All words of the pages, one text after the other.
inline std::string words_of(const std::vector<Page>& pages) {
  std::string all;
  for (const Text& text : texts_of(pages)) all += text.words + " ";
  return all;
}

inline bool shows(const std::vector<Page>& pages, const std::string& words) {
  return words_of(pages).find(words) != std::string::npos;
}

/// To what scale something is drawn on a page: "…, 1 : 5   shelf 1: 11" gives 5.
inline int reduction_of(const Page& page) {
  for (const Text& text : texts_of(page)) {
    const std::size_t at = text.words.find(", 1:");
    if (at != std::string::npos) return std::stoi(text.words.substr(at + 4));
  }
  return 0;
}

inline long count_of(const std::vector<Text>& texts, const std::string& words) {
  return std::count_if(texts.begin(), texts.end(), [&](const Text& t) { return t.words == words; });
}

/// What the ink of a line may cover: from the height of the capitals down to below the tail of a g.
inline Box ink(const Text& text) {
  const Length above = shared_fonts().cap_height(text.face, text.size);
  const Length below = 0.21 * text.size;
  return {text.at.x, text.at.y - above, shared_fonts().width(text.words, text.face, text.size), above + below};
}

inline bool overlap(const Box& a, const Box& b) {
  const Length slack = 0.01 * mm;
  return a.x + slack < b.right() && b.x + slack < a.right() && a.y + slack < b.bottom() && b.y + slack < a.bottom();
}

}  // namespace blankwright::table_pages
