// How much paper an order takes, as it is asked for: printed sides, counted by pdftotext on the PDF.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <map>
#include <regex>
#include <string>
#include <vector>

#include "page_fill.h"
#include "program.h"

using namespace blankwright;

namespace {

/// Pages with something on them; what is behind a card, or behind a hand's last page, is a page without anything.
int printed_sides(const std::string& pdf) {
  const std::string text = copied_text(bytes_of(pdf));
  int sides = 0;
  bool printed = false;
  for (const char c : text) {
    if (c == '\f') {
      sides += printed ? 1 : 0;
      printed = false;
    } else {
      printed = printed || static_cast<unsigned char>(c) > ' ';
    }
  }
  return sides;
}

struct Counted {
  int traveller = 0, tags = 0;
};

/// Compiles a sample job, changed, on that paper.
Counted counted(const std::string& folder, const std::string& name, const std::string& paper, std::string id,
                const std::vector<std::pair<std::regex, std::string>>& changes = {}) {
  const SampleJobs jobs;
  const std::string shop = jobs / (folder + "/shop.toml"), job = jobs / (folder + "/" + name + ".toml");
  put_bytes(shop, std::regex_replace(bytes_of(shop), std::regex{"\ntemplate = \"[a-z0-9]+\""},
                                     "\ntemplate = \"" + paper + "\""));
  std::string text = bytes_of(job);
  for (const auto& [from, to] : changes) text = std::regex_replace(text, from, to);
  put_bytes(job, text);
  const ProgramRun run =
      run_program({"compile", "--quiet", "--at", "2027-05-03T08:00:00+02:00", "--out", jobs.out(), job});
  REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
  const std::string at = jobs.out() + "/" + id;
  CHECK(hardly_used(found_pages(at + "/traveller.pdf")) == std::vector<int>{});
  return {printed_sides(at + "/traveller.pdf"), printed_sides(at + "/tags.pdf")};
}

}  // namespace

TEST_CASE("an order takes no more paper than is asked for, on A4 and on Letter") {
  const std::vector<std::pair<std::regex, std::string>> sixty{
      {std::regex{"\nquantity = 6"}, "\nquantity = 60"},
      {std::regex{"\nboards = \\[[^=]*(\n  \\{[^\n]*|\n    \\{[^\n]*|\n  \\]\\},?)*\n\\]"}, ""}};
  const std::vector<std::pair<std::regex, std::string>> two_untreated{
      {std::regex{"\nquantity = 20"}, "\nquantity = 2"},
      {std::regex{"\n\\[treatment\\](\n[^\\[\n]+)*"}, ""},
      {std::regex{"\nnotes = [^\n]*"}, ""},
      {std::regex{", dyed blue"}, ""}};
  for (const std::string paper : {"a4", "letter"}) {
    CAPTURE(paper);
    const Counted metric = counted("metric", "burnisher", paper, "TA-0147");
    CHECK(metric.traveller <= 9);
    CHECK(metric.tags == 1);
    CHECK(counted("inch", "file-handle", paper, "CC-2026.1").traveller <= 13);
    CHECK(counted("metric", "burnisher", paper, "TA-0147", sixty).traveller <= 24);
    CHECK(counted("inch", "knob", paper, "CC-2026.2", two_untreated).traveller <= 4);
  }
}

TEST_CASE("two knobs of any usual thickness without treatment take four sides, on A4 and on Letter") {
  struct Knob {
    int diameter, length;
  };
  for (const Knob& knob : {Knob{36, 46}, {50, 90}, {60, 60}, {70, 60}}) {
    for (const std::string paper : {"a4", "letter"}) {
      CAPTURE(knob.diameter);
      CAPTURE(paper);
      const SampleJobs jobs;
      const std::string shop = jobs / "metric/shop.toml", job = jobs / "metric/knobs.toml";
      put_bytes(shop, std::regex_replace(bytes_of(shop), std::regex{"\ntemplate = \"a4\""},
                                         "\ntemplate = \"" + paper + "\""));
      put_bytes(
          job,
          fmt::format("format = 1\nid = \"C-3\"\nclient = \"Bram Odell\"\nitem = \"knob\"\nquantity = 2\n"
                      "[handle]\nstations = [{{at = \"0 mm\", diameter = \"{} mm\"}}, "
                      "{{at = \"{} mm\", diameter = \"{} mm\"}}, {{at = \"{} mm\", diameter = \"{} mm\"}}]\n"
                      "[stud]\nthread = \"M8\"\nenters = \"12 mm\"\n"
                      "[wood]\nspecies = \"European beech\"\nmoisture = \"9 %\"\n",
                      knob.diameter * 7 / 10, knob.length / 3, knob.diameter, knob.length, knob.diameter * 7 / 10));
      const ProgramRun run = run_program({"compile", "--quiet", "--out", jobs.out(), job});
      REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
      CHECK(printed_sides(jobs.out() + "/C-3/traveller.pdf") <= 4);
      const std::string words = copied_text(bytes_of(jobs.out() + "/C-3/traveller.pdf")) +
                                copied_text(bytes_of(jobs.out() + "/C-3/tags.pdf"));
      // Heads of columns and fields that ask for what nobody weighs or dries.
      for (const char* head : {"\ndry\n", "dry, g", "wet, g", "Wet mass", "Cured"}) {
        CAPTURE(head);
        CHECK(words.find(head) == std::string::npos);
      }
    }
  }
}

TEST_CASE("each person's pages begin on a leaf of their own") {
  const SampleJobs jobs;
  const std::string job = jobs / "inch/file-handle.toml", shop = jobs / "inch/shop.toml";
  put_bytes(shop, std::regex_replace(bytes_of(shop), std::regex{"template = \"letter\""}, "template = \"a4\""));
  REQUIRE(run_program({"compile", "--quiet", "--out", jobs.out(), job}).exit == Exit::done);
  // Whose a sheet is: --pages.
  const std::map<std::string, std::string> hands{{"Routing", "desk"}, {"Cutting", "bath"}, {"Bath", "bath"},
                                                 {"Oven", "bath"},    {"List", "bath"},    {"Turner's", "turner"}};
  std::map<int, std::string> hand_of;
  for (const FoundWord& word : found_words(jobs.out() + "/CC-2026.1/traveller.pdf")) {
    const auto found = hands.find(word.text.substr(0, word.text.find(',')));
    if (found == hands.end() || word.bottom - word.top < 15) continue;  // a title's letters
    const auto [entry, is_new] = hand_of.try_emplace(word.page, found->second);
    CAPTURE(word.text);
    CHECK((is_new || entry->second == found->second));
  }
  std::string before;
  for (const auto& [page, hand] : hand_of) {
    if (hand != before) CHECK(page % 2 == 1);
    before = hand;
  }
  CHECK(hand_of.size() >= 5);
}

TEST_CASE("an order that no resin is drawn into has no word of it on its traveller") {
  const SampleJobs jobs;
  const std::string job = jobs / "inch/knob.toml";
  std::string text = std::regex_replace(bytes_of(job), std::regex{"\n\\[treatment\\](\n[^\\[\n]+)*"}, "");
  text = std::regex_replace(text, std::regex{"\nnotes = [^\n]*"}, "");
  put_bytes(job, text);
  REQUIRE(run_program({"compile", "--quiet", "--out", jobs.out(), job}).exit == Exit::done);
  const std::string words = copied_text(bytes_of(jobs.out() + "/CC-2026.2/traveller.pdf"));
  for (const char* word :
       {"esin", "bath", "Bath", "acuum", "cured", "Cured", "cure", "Cure", "Wet mass", "ctivator"}) {
    CAPTURE(word);
    CHECK(words.find(word) == std::string::npos);
  }
}

TEST_CASE("each HOLD of the sample is signed in one place, where the work is done") {
  const SampleJobs jobs;
  const std::string job = jobs / "metric/burnisher.toml";
  REQUIRE(run_program({"compile", "--quiet", "--out", jobs.out(), job}).exit == Exit::done);
  const std::string file = jobs.out() + "/TA-0147/traveller.pdf";
  // Its shop's routing has eight: stamped, dry, bubbles, cured, witness; carried over, bored, glued.
  std::map<std::string, int> signatures;
  int elsewhere = 0;
  const std::vector<FoundWord> words = found_words(file);
  std::map<int, std::string> titles;
  for (const FoundWord& word : words) titles.try_emplace(word.page, word.text);
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    if (words.at(i).text == "Released" && words.at(i + 1).text == "by") ++signatures[titles[words.at(i).page]];
    if (words.at(i).text == "Sign" && words.at(i + 1).text == "on:") ++elsewhere;
  }
  int all = 0;
  for (const auto& [title, count] : signatures) all += count;
  CHECK(all == 8);
  CHECK(signatures["Inspection"] == 3);
  CHECK(signatures["Bath"] == 2);  // its card and the oven's are on one page
  CHECK(elsewhere == 5);
}
