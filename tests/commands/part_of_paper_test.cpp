// Parts of an order's paper, held against whole prints of the same register at the same moment: pages as pdftoppm
// draws them, dot by dot, and the words that pdftotext finds.

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include "bench_of_work.h"
#include "found_words.h"
#include "register/register.h"

using namespace blankwright;

namespace {

constexpr std::int64_t begin = 1809345600;          // noon of 3 May 2027 UTC
constexpr std::int64_t evening = begin + 8 * 3600;  // nobody is there, so that a plan stands until the morning

/// A shop whose state can be doubled, so that one half prints a part and the other all.
class Doubled {
 public:
  explicit Doubled(std::int64_t at = begin) {
    compile(part_, {}, at);
    compile(whole_, {}, at);
  }

  ProgramRun part(const std::vector<std::string>& flags, std::int64_t now) { return compile(part_, flags, now); }
  ProgramRun whole(std::int64_t now) { return compile(whole_, {}, now); }
  std::string file(const std::string& name) const { return part_.out() + "/TA-0147/" + name; }
  std::string whole_out(const std::string& name) const { return whole_.out() + "/TA-0147/" + name; }
  std::string whole_file() const { return whole_out("traveller.pdf"); }
  void enter(const std::vector<std::string>& words, std::int64_t now) {
    for (const SampleJobs* jobs : {&part_, &whole_}) {
      std::vector<std::string> all{"enter"};
      all.insert(all.end(), words.begin(), words.end());
      all.insert(all.end(), {"--shop", *jobs / "metric/shop.toml"});
      const ProgramRun run = run_program(all, now);
      REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
    }
  }
  void change_job(const std::string& from, const std::string& to) { change("metric/burnisher.toml", from, to); }
  /// Wherever it stands.
  void change(const std::string& file, const std::string& from, const std::string& to) {
    for (const SampleJobs* jobs : {&part_, &whole_}) {
      std::string text = bytes_of(*jobs / file);
      REQUIRE(has(text, from));
      for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
      put_bytes(*jobs / file, text);
    }
  }
  std::string register_file() const { return part_ / "metric/shop.register"; }
  std::int64_t prints() const { return Register::open_to_read(register_file())->print_count(); }
  ProgramRun ask(const std::vector<std::string>& words, std::int64_t now, const std::string& typed = {}) const {
    std::vector<std::string> all = words;
    all.insert(all.end(), {"--shop", part_ / "metric/shop.toml"});
    return run_program(all, now, typed);
  }

 private:
  static ProgramRun compile(const SampleJobs& jobs, const std::vector<std::string>& flags, std::int64_t now) {
    std::vector<std::string> all{"compile", "--out", jobs.out(), jobs / "metric/burnisher.toml"};
    all.insert(all.end(), flags.begin(), flags.end());
    return run_program(all, now);
  }
  SampleJobs part_, whole_;
};

/// The text of each page.
std::vector<std::string> page_texts(const std::string& file) {
  std::vector<std::string> pages;
  std::istringstream text{copied_text(bytes_of(file))};
  for (std::string page; std::getline(text, page, '\f');) pages.push_back(page);
  return pages;
}

/// "Sheet 3 / 8" of a page's foot; 0 on an empty side.
int number_of(const std::string& page) {
  static const std::regex foot{R"(Sheet (\d+) / \d+)"};
  std::smatch found;
  return std::regex_search(page, found, foot) ? std::stoi(found[1]) : 0;
}

/// What a page says but issue, moment and foot. The number of an issue, 1 or 2, is a line of its own in its head, or
/// stands behind the day that the order is due.
std::string figures_of(const std::string& page) {
  static const std::regex left_out{R"(1|2|18 Jun 2027 \d|.* · Issue \d+|.* Planned .*|Sheet \d+ / \d+)"};
  std::istringstream lines{page};
  std::string out;
  for (std::string line; std::getline(lines, line);) {
    if (!std::regex_match(line, left_out)) out += line + "\n";
  }
  return out;
}

bool is_same(const Picture& a, const Picture& b) {
  return a.width == b.width && a.height == b.height && a.grey == b.grey;
}

/// The numbers of a part's pages, each of which has to be the whole's page of that number, dot by dot.
std::vector<int> pages_of_whole(const std::string& part, const std::string& whole) {
  const auto texts = page_texts(part), all_texts = page_texts(whole);
  const auto pictures = all_printed(part, 72), all_pictures = all_printed(whole, 72);
  REQUIRE(texts.size() == pictures.size());
  std::vector<int> numbers;
  for (std::size_t n = 0; n < texts.size(); ++n) {
    const int number = number_of(texts.at(n));
    if (number == 0) continue;
    numbers.push_back(number);
    const auto same = std::ranges::find(all_texts, number, number_of);
    REQUIRE(same != all_texts.end());
    CAPTURE(number);
    CHECK(*same == texts.at(n));
    CHECK(is_same(all_pictures.at(static_cast<std::size_t>(same - all_texts.begin())), pictures.at(n)));
  }
  return numbers;
}

}  // namespace

TEST_CASE("a part of a traveller is those pages of the whole, and takes the place of no other file") {
  Doubled shop;
  const std::int64_t later = begin + 3600;
  const std::string before = bytes_of(shop.file("traveller.pdf"));
  std::map<std::string, std::vector<int>> numbers;
  REQUIRE(shop.whole(later).exit == Exit::done);
  // Each of these at one moment, so that each is issue 2 of a register of its own.
  const std::map<std::string, std::string> files{{"turner", "traveller-turner.pdf"},
                                                 {"Bath 1", "traveller-bath-1.pdf"},
                                                 {"Turner's sheet", "traveller-turners-sheet.pdf"},
                                                 {"desk", "traveller-desk.pdf"}};
  for (const auto& entry : files) {
    const std::string& what = entry.first;
    Doubled one;
    CAPTURE(what);
    put_bytes(one.file("tags.pdf"), "left as it is");
    const ProgramRun run = one.part({"--pages", what}, later);
    REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
    CHECK(bytes_of(one.file("tags.pdf")) == "left as it is");
    CHECK(has(run.out, "  left out: tags, since every blank has one\n"));
    CHECK(bytes_of(one.file("traveller.pdf")) == before);
    numbers[what] = pages_of_whole(one.file(entry.second), shop.whole_file());
    CHECK_FALSE(numbers[what].empty());
    CHECK(has(run.out, "  pages of issue 2: "));
    CHECK(has(run.out, "  keep: issue 1: "));
  }
  CHECK(numbers["Turner's sheet"].size() == 1);
  CHECK(numbers["turner"].size() > 1);
  CHECK(numbers["Bath 1"].size() == 1);
  CHECK(std::ranges::includes(numbers["turner"], numbers["Turner's sheet"]));
}

TEST_CASE("a part that there is not is refused with those that there are, and nothing is issued") {
  Doubled shop;
  const std::int64_t prints = shop.prints();
  const ProgramRun run = shop.part({"--pages", "bath 7"}, begin + 60);
  CHECK(run.exit == Exit::mistakes);
  CHECK(has(run.errors, "there is no \"bath 7\"; there is "));
  for (const char* one : {"turner", "bath", "desk", "routing", "oven", "\"Bath card\"", "\"bath 1\"", "\"load 1\""})
    CHECK(has(run.errors, one));
  CHECK(shop.prints() == prints);
  for (const std::vector<std::string>& flags : {std::vector<std::string>{"--pages", "turner", "--changed"},
                                                {"--changed", "--draft"},
                                                {"--changed", "--again", "1"},
                                                {"--pages", "turner", "--only", "plan"},
                                                {"--changed", "--only", "plan"},
                                                {"--pages", ""}}) {
    CHECK(shop.part(flags, begin + 60).exit == Exit::command_line);
  }
}

TEST_CASE("an order without such a part is issued with the others, since they are planned with it") {
  const SampleJobs jobs;
  std::string small = bytes_of(jobs / "metric/burnisher.toml"), large = small;
  small.replace(small.find("TA-0147"), 7, "TA-0148");
  put_bytes(jobs / "metric/small.toml", small);
  put_bytes(jobs / "metric/burnisher.toml", large.replace(large.find("quantity = 6"), 12, "quantity = 20"));
  const ProgramRun run = run_program({"compile", "--pages", "bath 2", "--out", jobs.out(), jobs / "metric/small.toml",
                                      jobs / "metric/burnisher.toml"},
                                     evening);
  REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
  CHECK(has(run.out, "  pages of issue 1: none\n"));
  CHECK(has(run.out, "2 of 2 orders compiled"));
  auto known = Register::open_to_read(jobs / "metric/shop.register");
  CHECK_FALSE(known->issued_to("TA-0148").empty());
  CHECK_FALSE(std::filesystem::exists(jobs.out() + "/TA-0148/traveller-bath-2.pdf"));
  CHECK(std::filesystem::exists(jobs.out() + "/TA-0147/traveller-bath-2.pdf"));
}

TEST_CASE("where nothing on paper changed nothing is written or issued") {
  Doubled shop{evening};
  const std::string before = bytes_of(shop.file("traveller.pdf"));
  const std::int64_t prints = shop.prints();
  const ProgramRun run = shop.part({"--changed"}, evening + 60);
  CHECK(run.exit == Exit::done);
  CHECK(has(run.out, "TA-0147: nothing changed since issue 1; nothing was written\n0 of 1 order compiled"));
  CHECK(shop.prints() == prints);
  CHECK_FALSE(std::filesystem::exists(shop.file("traveller-changed.pdf")));
  CHECK(bytes_of(shop.file("traveller.pdf")) == before);
}

TEST_CASE("what changed is printed, as it is in the whole, and what is left out says the same in both") {
  Doubled shop;
  const auto old_pages = page_texts(shop.file("traveller.pdf"));
  std::vector<std::string> old_figures;
  for (const std::string& page : old_pages) old_figures.push_back(figures_of(page));
  const std::string first = "NG7-32GX";
  for (const char* hours : {"", "later"}) {
    const std::int64_t at = begin + (*hours == '\0' ? 3600 : 4 * 3600);
    shop.enter({"weighed", first, "mass=140 g"}, at);
  }
  const std::int64_t now = begin + 5 * 3600;
  const ProgramRun run = shop.part({"--changed"}, now);
  REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
  REQUIRE(shop.whole(now).exit == Exit::done);
  const auto printed = pages_of_whole(shop.file("traveller-changed.pdf"), shop.whole_file());
  CHECK_FALSE(printed.empty());
  CHECK_FALSE(std::filesystem::exists(shop.file("tags-new.pdf")));
  int left_out = 0;
  for (const std::string& page : page_texts(shop.whole_file())) {
    const int number = number_of(page);
    if (number == 0) continue;
    const bool is_old = std::ranges::find(old_figures, figures_of(page)) != old_figures.end();
    const bool is_printed = std::ranges::find(printed, number) != printed.end();
    CAPTURE(number);
    CHECK((is_old || is_printed));
    left_out += is_printed ? 0 : 1;
  }
  CHECK(left_out > 0);
  CHECK(has(run.out, "  throw away: issue 1: "));
  CHECK(has(shop.part({"--changed"}, now + 60).out, "nothing changed since issue 2; nothing was written"));

  const ProgramRun page = shop.ask({"ask", "page", "TA-0147/1", "--as", "csv"}, now);
  CHECK(page.exit == Exit::done);
  int wrong = 0;
  std::istringstream rows{page.out};
  for (std::string row; std::getline(rows, row);) wrong += has(row, ",no,") ? 1 : 0;
  CHECK(wrong == static_cast<int>(printed.size()));
  CHECK(has(shop.ask({"ask", "order", "TA-0147"}, now).out, "newest issue"));
  const std::string bench = shop.ask({"bench"}, now, "TA-0147/1\nTA-0147/2\nTA-0147/9\nend\n").out;
  CHECK(has(bench, "NO TA-0147/1: the newest is issue 2; no longer right: "));
  CHECK(has(bench, "OK TA-0147/2 is the newest issue"));
  CHECK(has(bench, "NO order TA-0147 has no issue 9; its newest is 2"));
  CHECK(shop.ask({"ask", "page", "TA-0147"}, now).exit == Exit::mistakes);
}

TEST_CASE("the cards of a bath stay in use while its blanks are in it, though no new ones are printed") {
  Doubled shop;
  shop.enter({"into-bath", "NG7-32GX", "JF2-T4JV", "SG8-CRCT", "8CC-F3G3", "87R-728F", "BBB-647V", "5BC-S2K7",
              "2TK-F5K2", "JH6-4X38", "NXX-C6F6", "bath=K2", "vessel=trough"},
             begin + 3600);
  shop.enter({"vacuum-on", "bath=K2"}, begin + 5400);
  const ProgramRun run = shop.part({"--changed"}, begin + 7200);
  REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
  std::istringstream lines{run.out};
  for (std::string line; std::getline(lines, line);) {
    if (has(line, "throw away")) CHECK_FALSE(has(line, "Bath card"));
    if (has(line, "still right")) CHECK(has(line, "Bath card 1, Oven card 1"));
  }
  CHECK(has(run.out, "Bath card 1, Oven card 1"));
  const std::string page = shop.ask({"ask", "page", "TA-0147/1", "--as", "csv"}, begin + 7200).out;
  CHECK(has(page, "\"Bath card 1, Oven card 1\",in use,"));
  CHECK(has(shop.part({"--changed"}, begin + 7260).out, "nothing changed since issue 2; nothing was written"));
}

TEST_CASE("a card in use whose bath holds other blanks than it says is to be corrected by hand") {
  Doubled shop;
  const std::vector<std::string> all_but_one{"NG7-32GX", "JF2-T4JV", "SG8-CRCT", "8CC-F3G3", "87R-728F",
                                             "BBB-647V", "5BC-S2K7", "2TK-F5K2", "NXX-C6F6"};
  std::vector<std::string> words{"into-bath"};
  words.insert(words.end(), all_but_one.begin(), all_but_one.end());
  words.insert(words.end(), {"bath=K2", "vessel=trough"});
  shop.enter(words, begin + 3600);
  shop.enter({"vacuum-on", "bath=K2"}, begin + 5400);
  const ProgramRun run = shop.whole(begin + 7200);
  CHECK(has(run.out, "correct the blanks by hand, as `ask bath` has them: issue 1: "));
  CHECK(has(run.out, "(Bath card 1, Oven card 1)"));
  std::istringstream changed{shop.part({"--changed"}, begin + 7200).out};
  for (std::string line; std::getline(changed, line);)
    if (has(line, "  keep:")) CHECK_FALSE(has(line, "Bath card"));
  const std::string page = shop.ask({"ask", "page", "TA-0147/1", "--as", "csv"}, begin + 7200).out;
  CHECK(has(page, "in use, other blanks in the bath: ask bath"));
}

TEST_CASE("the due date stands whole on every page") {
  Doubled shop;
  for (const auto& [date, shown] : {std::pair{"2027-05-17", "17 May 2027"}, {"2027-09-30", "30 Sep 2027"}}) {
    shop.change_job("due = 2027-06-18", std::string{"due = "} + date);
    REQUIRE(shop.whole(begin).exit != Exit::mistakes);
    for (const std::string& page : page_texts(shop.whole_file())) CHECK((!has(page, "To deliver") || has(page, shown)));
    shop.change_job(std::string{"due = "} + date, "due = 2027-06-18");
  }
}

TEST_CASE("times that no page shows change no paper; they come into the calendar, and are known as handed out") {
  Doubled shop{evening};
  const std::string calendar = bytes_of(shop.file("schedule.ics"));
  shop.change("metric/shop.toml", "\"07:30-", "\"07:40-");
  shop.change("metric/shop.toml", "-16:30\"", "-16:40\"");
  shop.change("metric/shop.toml", "-13:30\"", "-13:40\"");
  const ProgramRun run = shop.part({"--changed"}, evening + 3600);
  REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
  CHECK(has(run.out, "  pages of issue 2: none\n"));
  CHECK(has(run.out, "; old times on: none\n"));
  CHECK_FALSE(has(run.out, "throw away"));
  CHECK_FALSE(std::filesystem::exists(shop.file("traveller-changed.pdf")));
  CHECK(shop.prints() == 2);
  REQUIRE(shop.whole(evening + 3600).exit == Exit::done);
  CHECK(bytes_of(shop.file("schedule.ics")) != calendar);
  CHECK(bytes_of(shop.file("schedule.ics")) == bytes_of(shop.whole_out("schedule.ics")));
  CHECK(has(shop.part({"--changed"}, evening + 7200).out, "nothing changed since issue 2; nothing was written"));
  CHECK(has(shop.ask({"bench"}, evening + 7200, "TA-0147/1\nend\n").out,
            "OK TA-0147/1: the newest is issue 2; all of its pages are still right"));
}

TEST_CASE("new IDs have their tags printed, and no others") {
  Doubled shop;
  const auto ids = [&] {
    std::vector<std::string> out;
    std::istringstream rows{bytes_of(shop.file("blanks.csv"))};
    for (std::string row; std::getline(rows, row);) out.push_back(row.substr(0, 8));
    out.erase(out.begin());
    return out;
  };
  const auto before = ids();
  const std::string tags = bytes_of(shop.file("tags.pdf"));
  shop.change_job("quantity = 6", "quantity = 8");
  const ProgramRun run = shop.part({"--changed"}, begin + 3600);
  REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
  CHECK(bytes_of(shop.file("tags.pdf")) == tags);
  const std::string words = copied_text(bytes_of(shop.file("tags-new.pdf")));
  const auto now = ids();
  REQUIRE(now.size() > before.size());
  for (const std::string& id : now) {
    CAPTURE(id);
    CHECK(has(words, id) == (std::ranges::find(before, id) == before.end()));
  }
  // How many are to be delivered stands on every page.
  CHECK(has(shop.ask({"bench"}, begin + 7200, "TA-0147/1\nend\n").out,
            "NO TA-0147/1: the newest is issue 2; none of its pages is right any more"));
}

TEST_CASE("pages that a part left out are printed with what changed next, though no figure moved since") {
  Doubled shop;
  shop.change_job("quantity = 6", "quantity = 8");
  const ProgramRun turner = shop.part({"--pages", "turner"}, begin + 3600);
  CHECK(has(turner.out, "  left out, though changed: 1"));
  CHECK(has(turner.out, "  throw away: issue 1: 1"));
  // Of a part those pages alone are in somebody's hands.
  const std::string asked = shop.ask({"ask", "page", "TA-0147/2"}, begin + 3660).out;
  CHECK(has(asked, "Turner's sheet"));
  CHECK_FALSE(has(asked, "Routing"));
  const ProgramRun rest = shop.part({"--changed"}, begin + 3660);
  REQUIRE(shop.whole(begin + 3600).exit == Exit::done);
  REQUIRE(shop.whole(begin + 3660).exit == Exit::done);
  const auto numbers = pages_of_whole(shop.file("traveller-changed.pdf"), shop.whole_file());
  CHECK(std::ranges::find(numbers, 1) != numbers.end());
  CHECK(has(rest.out, "  keep: "));
  CHECK(has(rest.out, "issue 2: "));
}

TEST_CASE("tags that a part left out are named, and come with what changed next") {
  const SampleJobs jobs;
  const auto compile = [&](const std::string& flag, std::int64_t at) {
    std::vector<std::string> all{"compile", "--out", jobs.out(), jobs / "metric/burnisher.toml", flag};
    if (flag == "--pages") all.emplace_back("turner");
    return run_program(all, at);
  };
  const std::string tags = jobs.out() + "/TA-0147/tags";
  CHECK(has(compile("--pages", evening).out, "  left out: tags, of 10 blanks without one\n"));
  CHECK_FALSE(std::filesystem::exists(tags + ".pdf"));
  CHECK(has(compile("--changed", evening + 60).out, "  tags: of 10 blanks without one\n"));
  CHECK(has(copied_text(bytes_of(tags + "-new.pdf")), "NG7-32GX"));
  CHECK(has(compile("--changed", evening + 120).out, "nothing was written"));
}

TEST_CASE("a part is printed again as it was handed out, whatever was printed since") {
  Doubled shop;
  shop.change_job("quantity = 6", "quantity = 8");
  REQUIRE(shop.part({"--pages", "turner"}, begin + 3600).exit == Exit::done);
  REQUIRE(shop.part({"--changed", "--used-places", "1-3"}, begin + 7200).exit == Exit::done);
  const std::vector<std::string> files{"traveller-turner.pdf", "traveller-changed.pdf", "tags-new.pdf"};
  std::map<std::string, std::string> handed_out;
  for (const std::string& name : files) handed_out[name] = bytes_of(shop.file(name));
  shop.change_job("quantity = 8", "quantity = 12");
  REQUIRE(shop.part({}, begin + 3 * 3600).exit == Exit::done);
  const std::string all = bytes_of(shop.file("traveller.pdf")), tags = bytes_of(shop.file("tags.pdf"));
  for (const std::string& name : files) std::filesystem::remove(shop.file(name));
  for (const char* print : {"2", "3"}) {
    const ProgramRun run = shop.part({"--again", print}, begin + 4 * 3600);
    REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
  }
  for (const std::string& name : files) {
    CAPTURE(name);
    CHECK(bytes_of(shop.file(name)) == handed_out.at(name));
  }
  CHECK(bytes_of(shop.file("traveller.pdf")) == all);
  CHECK(bytes_of(shop.file("tags.pdf")) == tags);
  CHECK(shop.part({"--again", "2", "--replace"}, begin + 4 * 3600).exit == Exit::command_line);
}

TEST_CASE("a print that started blanks in the place of others is known as that one") {
  Doubled shop;
  const std::int64_t day = 86400;
  shop.enter({"sawn", "NG7-32GX", "board=T4"}, begin + 3600);
  shop.change_job("diameter = \"34 mm\"", "diameter = \"44 mm\"");
  REQUIRE(shop.part({"--replace"}, evening).exit == Exit::done);
  const std::string printed = bytes_of(shop.file("traveller.pdf"));
  CHECK(has(shop.part({"--changed", "--replace"}, evening + 60).out, "nothing was written"));
  CHECK_FALSE(has(shop.ask({"ask", "page", "TA-0147/2"}, evening + day).out, "cannot be laid out"));
  REQUIRE(shop.part({}, evening + day).exit == Exit::done);
  REQUIRE(shop.part({"--again", "2"}, evening + day).exit == Exit::done);
  CHECK(bytes_of(shop.file("traveller.pdf")) == printed);
}

TEST_CASE("what was never printed is printed whole by --changed, which says so") {
  const SampleJobs jobs;
  const ProgramRun run =
      run_program({"compile", "--changed", "--out", jobs.out(), jobs / "metric/burnisher.toml"}, begin);
  REQUIRE(run.exit == Exit::done);
  CHECK(has(run.out, "all pages: nothing was printed before"));
  CHECK(std::filesystem::exists(jobs.out() + "/TA-0147/traveller.pdf"));
  CHECK(std::filesystem::exists(jobs.out() + "/TA-0147/tags.pdf"));
}

TEST_CASE("what another version printed is never taken for right: it may have computed otherwise") {
  Doubled shop{evening};
  const std::string file = shop.register_file();
  auto contents = Register::open_to_read(file)->contents();
  for (Print& print : contents.prints) print.program_version = "Blankwright 0.1.0";
  std::filesystem::remove(file);
  Register{file, contents.series}.fill(contents, Instant{std::chrono::seconds{evening}});
  const std::string before = bytes_of(shop.file("traveller.pdf"));
  const ProgramRun run = shop.part({"--changed"}, evening + 60);
  CHECK(has(run.out, "  issue 1 cannot be laid out as it was: which of its pages are right is not known\n"));
  CHECK(bytes_of(shop.file("traveller.pdf")) != before);
  CHECK(has(shop.part({"--changed"}, evening + 120).out, "nothing changed since issue 2; nothing was written"));
  const std::string bench = shop.ask({"bench"}, evening + 120, "TA-0147/1\nTA-0147/2\nend\n").out;
  CHECK(has(bench, "NO order TA-0147: issue 1 cannot be laid out as it was; its newest is 2"));
  CHECK(has(bench, "OK TA-0147/2 is the newest issue"));
}
