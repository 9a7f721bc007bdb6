#include <doctest/doctest.h>
#include <fstream>

#include <charconv>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "entries/blank_id.h"
#include "found_words.h"
#include "program.h"
#include "read/order.h"
#include "read/shop.h"
#include "read/template.h"
#include "register/register.h"

using namespace blankwright;

namespace {

/// The samples, compiled once for all cases of this file.
struct CompiledSamples {
  SampleJobs jobs;
  CompiledSamples() {
    for (const Sample& sample : samples()) {
      const auto run = run_program({"compile", "--out", jobs.out(sample.job), jobs / sample.job});
      if (run.exit != Exit::done) throw std::runtime_error{run.errors};
    }
  }
  std::string file(const Sample& sample, const std::string& name) const {
    return jobs.out(sample.job) + "/" + sample.id + "/" + name;
  }
};

const CompiledSamples& compiled() {
  static const CompiledSamples once;
  return once;
}

const std::vector<std::string> documents{"traveller.pdf", "tags.pdf"};

}  // namespace

TEST_CASE("independent tools open every document of every sample without a word of complaint") {
  for (const Sample& sample : samples()) {
    for (const std::string& name : documents) {
      CAPTURE(sample.id);
      CAPTURE(name);
      const std::string file = shell_quoted(compiled().file(sample, name));
      const auto checked = run_tool("qpdf --check " + file);
      CHECK(checked.status == 0);
      CHECK(checked.err == "");
      const auto info = run_tool("pdfinfo " + file);
      CHECK(info.err == "");
      CHECK(info.out.find(sample.paper) != std::string::npos);
      const auto plan = nlohmann::json::parse(bytes_of(compiled().file(sample, "plan.json")));
      const std::size_t a_page = sample.id.starts_with("TA") ? 21 : 10;  // labels: 3 x 7 on A4, 2 x 5 on Letter
      const std::size_t tag_pages = (plan["blanks"].size() + a_page - 1) / a_page;
      const std::regex pages{"Pages: +([0-9]+)"};
      std::smatch count;
      REQUIRE(std::regex_search(info.out, count, pages));
      if (name == "tags.pdf") CHECK(std::stoul(count[1]) == tag_pages);
      if (name == "traveller.pdf") CHECK(std::stoul(count[1]) >= 4);
      CHECK(info.out.find("Title:           Order " + sample.id) != std::string::npos);
      const auto drawn =
          run_tool("pdftoppm -r 30 -gray " + file + " /dev/null/none 2>&1 | grep -v 'could not open' ; pdftotext " +
                   file + " /dev/null");
      CHECK(drawn.err == "");
      const auto by_mupdf = run_tool("mutool draw -N -q -r 20 -F pnm -o /dev/null " + file);
      CHECK(by_mupdf.status == 0);
      CHECK(by_mupdf.err == "");
    }
  }
}

TEST_CASE("a whole traveller is set in five sizes, which the template's lettering scales") {
  // ISO 3098-1: capitals of 2.5, 3.5, 5 and 7 mm; 2 mm for notes alone (common practice, no source). Those of the
  // face are 1409 of 2048 units high (its table OS/2).
  const std::regex size{R"(/[A-Z]+ ([0-9.]+) Tf)"};
  for (const Sample& sample : samples()) {
    CAPTURE(sample.id);
    const auto plain = run_tool("qpdf --qdf --object-streams=disable " +
                                shell_quoted(compiled().file(sample, "traveller.pdf")) + " -");
    REQUIRE(plain.status == 0);
    const double lettering = sample.id.starts_with("HG") ? 0.95 : 1;  // as its sheets.toml has it
    std::set<double> found;
    for (std::sregex_iterator it{plain.out.begin(), plain.out.end(), size}, end; it != end; ++it) {
      const double capitals = std::stod((*it)[1]) * 1409 / 2048 / lettering;
      double nearest = 2;
      for (const double one : {2.5, 3.5, 5.0, 7.0}) {
        if (std::abs(one - capitals) < std::abs(nearest - capitals)) nearest = one;
      }
      CHECK(capitals == doctest::Approx(nearest).epsilon(0.001));
      found.insert(nearest);
    }
    CHECK(found.size() >= 4);
  }
}

TEST_CASE("a traveller for 24 blanks takes no more than 120 kB") {
  struct Sample {
    const char *file, *id, *quantity, *for_24_blanks;
  };
  for (const Sample& sample : {Sample{"inch/knob.toml", "CC-2026.2", "quantity = 20", "quantity = 18"},
                               Sample{"metric/burnisher.toml", "TA-0147", "quantity = 6", "quantity = 15"},
                               Sample{"german/awl.toml", "HG-58", "quantity = 8", "quantity = 15"}}) {
    const SampleJobs jobs;
    const std::string path = jobs / sample.file, folder = jobs.out() + "/" + sample.id;
    std::string job = bytes_of(path);
    const std::string quantity = sample.quantity;
    job.replace(job.find(quantity), quantity.size(), sample.for_24_blanks);
    std::ofstream{path} << job;
    REQUIRE(run_program({"compile", "--quiet", "--out", jobs.out(), path}).exit == Exit::done);
    CAPTURE(sample.id);
    CHECK(nlohmann::json::parse(bytes_of(folder + "/plan.json"))["blanks"].size() == 24);
    CHECK(std::filesystem::file_size(folder + "/traveller.pdf") <= 120'000);
  }
}

TEST_CASE("a seat with hardly any wood round its bore, and many words, is drawn in detail too") {
  const SampleJobs jobs;
  const auto change = [](std::string& text, const std::string& what, const std::string& by) {
    REQUIRE(text.find(what) != std::string::npos);
    text.replace(text.find(what), what.size(), by);
  };
  std::string shop = bytes_of(jobs / "metric/shop.toml"), job = bytes_of(jobs / "metric/burnisher.toml");
  shop = std::regex_replace(shop, std::regex{"least_wall = .*"}, "least_wall = \"0.25 mm\"");
  shop = std::regex_replace(shop, std::regex{"least_edge = .*"}, "least_edge = \"50 %\"");
  change(job, "diameter = \"25 mm\"", "diameter = \"9.6 mm\"");
  change(job, "[seat]\n", "[seat]\nform = \"recess\"\ndiameter = \"9.5 mm\"\nheight = \"0.5 mm\"\n");
  put_bytes(jobs / "metric/shop.toml", shop);
  put_bytes(jobs / "metric/burnisher.toml", job);
  const auto run = run_program({"compile", "--quiet", "--out", jobs.out(), jobs / "metric/burnisher.toml"});
  REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
  const auto words = found_words(jobs.out() + "/TA-0147/traveller.pdf");
  const auto detail = std::ranges::find(words, std::string{"Detail"}, &FoundWord::text);
  REQUIRE(detail != words.end());
  for (const FoundWord& word : words) {
    if (word.page != detail->page || word.top < detail->bottom) continue;
    if (word.text == "recess") CHECK(word.left > detail->left);  // right of the half-profile
    for (const FoundWord& other : words) CHECK_FALSE((&word != &other && overlap(word, other)));
  }
}

TEST_CASE("the routing's operations lead to the cards that belong to them") {
  // Drying, vacuum, soak and cure of the metric sample; a link names its page (ISO 32000-1, 12.5.6.5).
  const auto plain = run_tool("qpdf --qdf --object-streams=disable " +
                              shell_quoted(compiled().file(samples().front(), "traveller.pdf")) + " -");
  REQUIRE(plain.status == 0);
  std::map<std::string, int> pages;
  const std::regex link{R"re(/Dest \[\s+([0-9]+) 0 R[^>]*/Subtype /Link)re"};
  for (std::sregex_iterator it{plain.out.begin(), plain.out.end(), link}, end; it != end; ++it) ++pages[(*it)[1]];
  std::multiset<int> links;
  for (const auto& [page, count] : pages) links.insert(count);
  // Drying is on the list of blanks; the cards of bath and oven are on one page.
  CHECK(links == std::multiset<int>{1, 3});
}

TEST_CASE("all fonts are embedded, subset and can be copied from") {
  for (const Sample& sample : samples()) {
    for (const std::string& name : documents) {
      const auto fonts = run_tool("pdffonts " + shell_quoted(compiled().file(sample, name)) + " | tail -n +3");
      const std::regex row{R"(yes yes yes)"};
      CAPTURE(fonts.out);
      const auto rows = std::count(fonts.out.begin(), fonts.out.end(), '\n');
      CHECK(rows >= 1);
      CHECK(std::distance(std::sregex_iterator{fonts.out.begin(), fonts.out.end(), row}, {}) == rows);
    }
  }
}

TEST_CASE("the words of an order are found on its sheets") {
  for (const Sample& sample : samples()) {
    const std::string traveller = copied_text(bytes_of(compiled().file(sample, "traveller.pdf")));
    const auto plan = nlohmann::json::parse(bytes_of(compiled().file(sample, "plan.json")));
    for (const std::string& word :
         {sample.id, plan["order"]["client"].get<std::string>().substr(0, 5),
          plan["stud"]["thread"].get<std::string>(), plan["bore"]["drill"].get<std::string>()}) {
      CAPTURE(word);
      CHECK(traveller.find(word) != std::string::npos);
    }
    const std::string tags = copied_text(bytes_of(compiled().file(sample, "tags.pdf")));
    for (const auto& blank : plan["blanks"]) {
      const std::string id = blank["id"];
      CHECK(tags.find(id) != std::string::npos);
      CHECK(traveller.find(id) != std::string::npos);
    }
  }
}

TEST_CASE("no two words of a sheet overlap and none leaves the paper") {
  for (const Sample& sample : samples()) {
    for (const std::string& name : documents) {
      const auto words = found_words(compiled().file(sample, name));
      REQUIRE(words.size() > 50);
      const double width = sample.paper.starts_with("612") ? 612 : 595.276;
      const double height = sample.paper.starts_with("612") ? 792 : 841.89;
      for (const std::string& fault : misplaced(words, width, height)) {
        FAIL_CHECK(sample.id << " " << name << ": " << fault);
      }
    }
  }
}

TEST_CASE("every tag's code is read from a 300 dpi picture by both readers as the register's ID") {
  for (const Sample& sample : samples()) {
    const bool metric = sample.id.starts_with("TA");
    auto kept = Register::open_to_read(compiled().jobs / (metric ? "metric/shop.register" : "inch/shop.register"));
    const auto issued = kept->issued_to(sample.id);
    const std::string pdf = bytes_of(compiled().file(sample, "tags.pdf"));
    // The label sheets of the two sample shops: A4 3 x 7 and Letter 2 x 5, as their boxes state them.
    const int columns = metric ? 3 : 2;
    const int rows = metric ? 7 : 5;
    const Box first =
        metric ? Box{7.21 * mm, 15.15 * mm, 63.5 * mm, 38.1 * mm} : Box{3.97 * mm, 12.7 * mm, 101.6 * mm, 50.8 * mm};
    const Length pitch_x = metric ? 66.04 * mm : 106.36 * mm;
    const Length pitch_y = metric ? 38.1 * mm : 50.8 * mm;
    for (std::size_t i = 0; i < issued.size(); ++i) {
      const int place = static_cast<int>(i) % (columns * rows);
      static Picture page;
      if (place == 0) page = printed(pdf, static_cast<int>(i) / (columns * rows) + 1, 300);
      const Picture label = page.part(
          {first.x + place % columns * pitch_x, first.y + place / columns * pitch_y, first.width, first.height});
      const std::vector<std::string> wanted{issued.at(i).encoded()};
      CAPTURE(i);
      CHECK(read_by_zxing(label) == wanted);
      CHECK(read_by_zbar(label) == wanted);
    }
  }
}

TEST_CASE("the card of a piece tells the client how hard it may be tightened") {
  // burnisher.toml, M8 with 50 mm in the wood and 600 N: 2 (π 8 50 2 − 3 × 600) × 1.42892 mm = 2038.5 N mm, rounded
  // down; the lever by hand in tests/plan/tightening_test.cpp.
  const SampleJobs jobs;
  const std::string shop = jobs / "metric/shop.toml";
  REQUIRE(run_program({"compile", "--only", "blanks", "--out", jobs.out(), jobs / "metric/burnisher.toml"}).exit ==
          Exit::done);
  const std::string blanks = bytes_of(jobs.out() + "/TA-0147/blanks.csv");
  const std::string id = blanks.substr(blanks.find('\n') + 1, 8);
  const auto sent = run_program({"enter", "sent", id, "--override", "from the shelf", "--shop", shop});
  REQUIRE_MESSAGE(sent.exit == Exit::done, sent.errors);
  const auto cards = run_program({"cards", "TA-0147", "--shop", shop, "--out", jobs.out()});
  REQUIRE_MESSAGE(cards.exit == Exit::done, cards.errors);
  const std::string card = copied_text(bytes_of(jobs.out() + "/TA-0147/cards.pdf"));
  CHECK(card.find("Tighten to at most") != std::string::npos);
  CHECK(card.find("2.03 N m") != std::string::npos);
}
