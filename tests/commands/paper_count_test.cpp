// How much paper an order takes, as it is asked for: printed sides, counted by pdftotext on the PDF.

#include <doctest/doctest.h>

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
    if (words.at(i).text == "Signed" && words.at(i + 1).text == "on:") ++elsewhere;
  }
  int all = 0;
  for (const auto& [title, count] : signatures) all += count;
  CHECK(all == 8);
  CHECK(signatures["Inspection"] == 3);
  CHECK(signatures["Bath"] == 2);  // its card and the oven's are on one page
  CHECK(elsewhere == 5);
}
