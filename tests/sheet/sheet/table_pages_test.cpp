#include <array>
#include <random>

#include "plan/figure/figure.h"
#include "sheet/frame/frame.h"
#include "sheet/sheet/sheets.h"
#include "table_pages_fixture.h"

namespace blankwright::table_pages {
namespace {

const std::vector<std::string> letters{"a", "e", "n", "i", "t", "W", "M", "l", "g",
                                       "ß", "Ä", "ő", "č", "θ", "½", "Ø", "-", "8"};

/// Words of random length, some too long for any cell; at most `most` characters.
std::string random_name(std::mt19937& random, std::size_t most) {
  const std::size_t length = 1 + random() % most;
  std::string name;
  std::size_t word = 1 + random() % 20;
  for (std::size_t n = 0; n < length; ++n) {
    const bool space = --word == 0 && n > 0 && n + 1 < length;
    if (word == 0) word = 1 + random() % 20;
    name += space ? " " : letters.at(random() % letters.size());
  }
  return name;
}

Job random_job(std::mt19937& random) {
  Job job{.client = random_name(random, 80), .item = random_name(random, 80)};
  job.quantity = static_cast<int>(1 + random() % 300);
  job.blanks = static_cast<int>(1 + random() % 400);
  job.due = random() % 3 != 0;
  job.inches = random() % 2 == 0;
  job.letter = random() % 2 == 0;
  job.margin = std::array{8, 12, 30}.at(random() % 3);  // the template takes 8 to 30
  job.steps.resize(1 + random() % 60);
  for (table_pages::Step& step : job.steps) {
    step = {random_name(random, 60), random_name(random, 30), {}, {}};
    if (random() % 2 == 0) step.limit = random_name(random, 120);
    if (random() % 3 == 0) step.hold = random_name(random, 120);
  }
  return job;
}

std::vector<Page> table_pages_of(const Dossier& d) {
  std::vector<Page> pages;
  using Kind = std::vector<Page> (*)(const Dossier&, const FontMetrics&);
  for (const Kind kind : {Kind{routing_sheets}, Kind{blank_lists}, Kind{worksheets}}) {
    for (Page& page : kind(d, shared_fonts())) pages.push_back(std::move(page));
  }
  number_sheets(pages, d.sheet_template, shared_fonts(), foot_text(d));
  return pages;
}

void check_inside(const Page& page, const std::vector<Text>& texts, Length margin) {
  const Length slack = 0.01 * mm;
  for (const Text& text : texts) {
    CAPTURE(text.words);
    const Box box = ink(text);
    CHECK(box.x >= margin - slack);
    CHECK(box.y >= margin - slack);
    CHECK(box.right() <= page.paper.width - margin + slack);
    CHECK(box.bottom() <= page.paper.height - margin + slack);
  }
}

std::vector<Box> inks_of(const std::vector<Text>& texts) {
  std::vector<Box> inks;
  for (const Text& text : texts) inks.push_back(ink(text));
  return inks;
}

void check_apart(const std::vector<Text>& texts) {
  const std::vector<Box> inks = inks_of(texts);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    for (std::size_t j = i + 1; j < texts.size(); ++j) {
      if (!overlap(inks.at(i), inks.at(j))) continue;
      FAIL_CHECK("\"" << texts.at(i).words << "\" lies over \"" << texts.at(j).words << "\"");
    }
  }
}

/// Every straight piece of the page's strokes as a box without breadth.
std::vector<Box> rules_of(const Page& page) {
  std::vector<Box> rules;
  for (const Item& item : page.items) {
    const auto* stroke = std::get_if<Stroke>(&item.mark);
    if (stroke == nullptr) continue;
    for (Path path : stroke->paths) {
      if (stroke->closed) path.push_back(path.front());
      for (std::size_t i = 1; i < path.size(); ++i) {
        const Spot a = path.at(i - 1), b = path.at(i);
        rules.push_back({std::min(a.x, b.x), std::min(a.y, b.y), abs(a.x - b.x), abs(a.y - b.y)});
      }
    }
  }
  return rules;
}

void check_no_rule_through(const Page& page, const std::vector<Text>& texts) {
  const std::vector<Box> rules = rules_of(page);
  for (const Text& text : texts) {
    const Box box = ink(text);
    const bool crossed = std::any_of(rules.begin(), rules.end(), [&](const Box& r) { return overlap(r, box); });
    CAPTURE(text.words);
    CHECK(!crossed);
  }
}

/// From the top of the paper down to the lowest text that is not the foot.
Length used(const Page& page, Length margin) {
  Length lowest{};
  for (const Text& text : texts_of(page)) {
    const Length bottom = ink(text).bottom();
    if (bottom < page.paper.height - margin - 5 * mm) lowest = std::max(lowest, bottom);
  }
  return lowest;
}

}  // namespace

TEST_CASE("whatever the order, words lie inside the margins and clear of each other and of every rule") {
  std::mt19937 random{20270503};
  for (int round = 0; round < 24; ++round) {
    CAPTURE(round);
    const Prepared order{random_job(random)};
    const Dossier d = order.dossier();
    const Length margin = d.sheet_template.margin.value;
    for (const Page& page : table_pages_of(d)) {
      CAPTURE(page.label);
      const auto texts = texts_of(page);
      check_inside(page, texts, margin);
      check_apart(texts);
      check_no_rule_through(page, texts);
    }
  }
}

TEST_CASE("no page is empty, and none but the last of its kind is less than a quarter used") {
  std::mt19937 random{7};
  for (int round = 0; round < 12; ++round) {
    CAPTURE(round);
    const Prepared order{random_job(random)};
    const Dossier d = order.dossier();
    const auto pages = table_pages_of(d);
    for (std::size_t n = 0; n < pages.size(); ++n) {
      const bool last_of_kind = n + 1 == pages.size() || pages.at(n).label != pages.at(n + 1).label;
      const Length head = d.sheet_template.margin.value + d.sheet_template.head_height.value;
      const Length least = last_of_kind ? head + 5 * mm : pages.at(n).paper.height / 4;
      CHECK(used(pages.at(n), d.sheet_template.margin.value) > least);
    }
  }
}

TEST_CASE("without resin every blank stands once in the list of blanks, and nothing is weighed") {
  for (const int blanks : {1, 24, 400}) {
    CAPTURE(blanks);
    const Prepared order{Job{.quantity = 200, .blanks = blanks}};
    const auto texts = texts_of(blank_lists(order.dossier(), shared_fonts()));
    for (int n = 0; n < blanks; ++n) {
      const std::string id = BlankId::nth(static_cast<std::uint32_t>(n)).shown();
      CAPTURE(id);
      CHECK(count_of(texts, id) == 1);
    }
    for (const char* word : {"esin", "ass", "ath", "cured", "(g)"}) {
      CAPTURE(word);
      CHECK(std::none_of(texts.begin(), texts.end(),
                         [&](const Text& t) { return t.words.find(word) != std::string::npos; }));
    }
  }
}

TEST_CASE("a draft's list has no ID") {
  const Prepared order{Job{.draft = true}};
  for (const Text& text : texts_of(blank_lists(order.dossier(), shared_fonts()))) CHECK(!BlankId::read(text.words));
}

TEST_CASE("every operation stands once, numbered in tens, under heads that repeat") {
  Job job;
  job.steps.clear();
  for (int n = 1; n <= 60; ++n)
    job.steps.push_back({fmt::format("Step {:02}x", n), "turner", "", n % 4 == 0 ? "true" : ""});
  const Prepared order{job};
  const auto pages = routing_sheets(order.dossier(), shared_fonts());
  const auto texts = texts_of(pages);
  for (int n = 1; n <= 60; ++n) {
    CHECK(count_of(texts, fmt::format("Step {:02}x", n)) == 1);
    CHECK(count_of(texts, fmt::format("{}", 10 * n)) >= 1);
  }
  CHECK(count_of(texts, "HOLD: true") == 15);
  CHECK(count_of(texts, "Released by") == 15);
  for (const Page& page : pages) CHECK(count_of(texts_of(page), "Operation") == 1);
}

TEST_CASE("a hold is signed in the row of its operation, and nowhere else") {
  Job job;
  job.steps.clear();
  for (int n = 1; n <= 40; ++n)
    job.steps.push_back(
        {fmt::format("Step {:02}x", n), "turner", "", n % 2 == 0 ? fmt::format("hold {:02}x", n) : ""});
  const Prepared order{job};
  const auto pages = routing_sheets(order.dossier(), shared_fonts());
  CHECK(count_of(texts_of(pages), "Released by") == 20);
  for (const Page& page : pages) {
    const auto texts = texts_of(page);
    for (int n = 2; n <= 40; n += 2) {
      const auto has = [](const std::string& words) { return [words](const Text& t) { return t.words == words; }; };
      const auto operation = std::ranges::find_if(texts, has(fmt::format("Step {:02}x", n)));
      if (operation == texts.end()) continue;
      const auto hold = std::ranges::find_if(texts, has(fmt::format("HOLD: hold {:02}x", n)));
      REQUIRE(hold != texts.end());
      CHECK(abs(hold->at.y - operation->at.y) < 6 * mm);  // rows are 10 mm high
    }
  }
}

TEST_CASE("the routing bears days and durations, and no time of a clock") {
  // Asked for: on paper a clock time is stale at the next plan.
  const Prepared order{Job{}};
  for (const Text& text : texts_of(routing_sheets(order.dossier(), shared_fonts()))) {
    CAPTURE(text.words);
    const std::size_t colon = text.words.find(':');
    CHECK((colon == std::string::npos || colon == 0 || colon + 1 >= text.words.size() ||
           std::isdigit(static_cast<unsigned char>(text.words.at(colon - 1))) == 0 ||
           std::isdigit(static_cast<unsigned char>(text.words.at(colon + 1))) == 0));
  }
}

TEST_CASE("what an operation takes is printed up to 5 min, from 2 h on up to a quarter of an hour") {
  // Asked for: what is planned anew is not to make the page stale for a minute.
  const std::pair<int, const char*> rows[] = {{17, "20 min"}, {20, "20 min"},      {61, "1 h 5 min"},
                                              {116, "2 h"},   {121, "2 h 15 min"}, {135, "2 h 15 min"}};
  for (const auto& [minutes, printed] : rows) {
    CAPTURE(minutes);
    Job job;
    job.steps = {{"Saw the blanks", "bath keeper", "", "", minutes}};
    const Prepared order{job};
    CHECK(count_of(texts_of(routing_sheets(order.dossier(), shared_fonts())), printed) == 1);
  }
}

TEST_CASE("a field for initials is at least 18 mm wide, on either paper") {
  // Common practice, no source: initials 18 mm.
  for (const bool letter : {false, true}) {
    const Prepared order{Job{.letter = letter}};
    const Page page = routing_sheets(order.dossier(), shared_fonts()).front();
    Length initials{};
    for (const Text& text : texts_of(page)) {
      if (text.words == "Initials, date") initials = text.at.x;
    }
    REQUIRE(initials > 0 * mm);
    CHECK((page.paper.width - 12 * mm - initials) / mm >= 18 - 0.01);
  }
}

TEST_CASE("capitals are 2.5 mm high on what is read in the hand, and never below 2 mm") {
  // Height at least the viewing distance / 200: 2.5 mm at 0.5 m. Common practice, no source.
  for (const bool inches : {false, true}) {
    const Prepared order{Job{.inches = inches, .letter = inches}};
    const Dossier d = order.dossier();
    for (const Text& text : texts_of(table_pages_of(d))) {
      CAPTURE(text.words);
      const double capitals = shared_fonts().cap_height(text.face, text.size) / mm;
      CHECK(capitals >= 2 - 0.001);
      const bool read = text.words == "Saw the blanks" || text.words == "HOLD: dry mass stable" ||
                        text.words == d.blanks.front().shown();
      if (read) CHECK(capitals >= 2.5 - 0.001);
    }
  }
}

TEST_CASE("the working of every figure stands on the worksheet with its value") {
  for (const bool inches : {false, true}) {
    const Prepared order{Job{.inches = inches}};
    const Dossier d = order.dossier();
    const auto texts = texts_of(worksheets(d, shared_fonts()));
    REQUIRE(!d.plan.working.empty());
    for (const blankwright::Step& step : d.plan.working) {
      const std::string path{info(step.figure).path};
      const std::string value = text(step.figure, d.plan.figures.get(step.figure), d.shop.units.value);
      CAPTURE(path);
      CHECK(std::any_of(texts.begin(), texts.end(), [&](const Text& t) { return t.words.ends_with(path); }));
      CHECK(count_of(texts, value) >= 1);
    }
  }
}

TEST_CASE("an order without a due date says so on its routing") {
  const Prepared order{Job{.due = false}};
  CHECK(count_of(texts_of(routing_sheets(order.dossier(), shared_fonts()).front()), "not stated") >= 1);
}

}  // namespace blankwright::table_pages
