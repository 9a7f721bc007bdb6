// One file in tests/errors/ for every problem: the program is run on it in memory, and has to say so at the marked
// line.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <regex>
#include <set>
#include <source_location>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "commands/run.h"
#include "diagnose/diagnostics.h"
#include "diagnose/problem.h"
#include "memory_files.h"
#include "newcomers.h"
#include "read/document.h"
#include "temporary_folder.h"
#include "write/real_files.h"

using namespace blankwright;

namespace {

constexpr std::string_view mark = "<- here";

struct Ran {
  Exit exit = Exit::done;
  std::string out, errors;
};

Ran run_on(Files& disk, const std::vector<std::string>& arguments) {
  const FixedClock monday{1800860400};  // 2027-01-25 08:00 in Vienna
  FixedChance chance{0};
  std::istringstream in;
  std::ostringstream out, errors;
  Surroundings around{disk, monday, chance, in, out, errors, Terminal{}};
  Ran ran;
  ran.exit = run(arguments, around);
  ran.out = out.str();
  ran.errors = errors.str();
  return ran;
}

std::string folder() { return BLANKWRIGHT_SOURCE_DIR "/tests/errors/"; }

std::optional<std::string> text_of(const std::string& name) {
  std::ifstream in{folder() + name, std::ios::binary};
  if (!in) return std::nullopt;
  return std::string{std::istreambuf_iterator<char>{in}, {}};
}

/// What stands ready for one problem: its own files, the others from tests/errors/base/.
struct Case {
  std::map<std::string, std::string> files;
  std::string marked;  ///< "job.toml:7" where the mark stands
};

Case case_of(const std::string& name) {
  Case out;
  const std::pair<std::string, std::string> own[] = {
      {"job.toml", name + ".toml"}, {"shop.toml", name + ".shop.toml"}, {"sheets.toml", name + ".template.toml"}};
  for (const auto& [called, file] : own) {
    const auto text = text_of(file);
    if (text) out.files[called] = *text;
    const auto at = text ? text->find(mark) : std::string::npos;
    if (at == std::string::npos) continue;
    CHECK_MESSAGE(out.marked.empty(), name, " is marked twice");
    CHECK_MESSAGE(text->find(mark, at + 1) == std::string::npos, name, " is marked twice");
    out.marked = fmt::format("{}:{}", called,
                             1 + std::count(text->begin(), text->begin() + static_cast<std::ptrdiff_t>(at), '\n'));
  }
  for (const char* called : {"job.toml", "shop.toml"}) {
    if (!out.files.contains(called)) out.files[called] = text_of(std::string{"base/"} + called).value();
  }
  if (out.files.contains("sheets.toml")) {
    const std::string standard = "template = \"a4\"";
    std::string& shop = out.files["shop.toml"];
    shop.replace(shop.find(standard), standard.size(), "template = \"sheets.toml\"");
  }
  return out;
}

/// The names of the cases: of the problem "bad-date" bad-date.toml, then bad-date.2.toml and so on, each of which
/// provokes it at another place of the source, or with another way on.
std::map<std::string, std::vector<std::string>> cases_by_problem() {
  std::map<std::string, std::vector<std::string>> cases;
  const std::regex ending{R"((\.shop|\.template)?\.toml$)"};
  for (const auto& entry : std::filesystem::directory_iterator{folder()}) {
    if (entry.is_directory()) continue;
    const std::string name = std::regex_replace(entry.path().filename().string(), ending, "");
    auto& known = cases[name.substr(0, name.find('.'))];
    if (std::ranges::find(known, name) == known.end()) known.push_back(name);
  }
  return cases;
}

/// What a problem is that no single file provokes: it has a test of its own below, or, of many orders, in
/// tests/plan/shop_plan_shared_test.cpp.
const std::set<Problem>& provoked_otherwise() {
  static const std::set<Problem> problems{Problem::file_unreadable,        Problem::file_too_large,
                                          Problem::same_order_id,          Problem::order_in_register_differs,
                                          Problem::blanks_do_not_fit,      Problem::ids_not_needed,
                                          Problem::series_differs,         Problem::calendar_too_full,
                                          Problem::open_order_not_planned, Problem::wait_broken,
                                          Problem::runs_too_long,          Problem::runs_alone,
                                          Problem::runs_into_outage,       Problem::entries_later};
  return problems;
}

/// A problem that shows only when sheets are laid out. A draft does so without a register.
std::vector<std::string> command_for(Problem problem) {
  if (problem == Problem::text_does_not_fit) return {"blankwright", "compile", "--draft", "job.toml"};
  return {"blankwright", "check", "job.toml"};
}

/// The first lines of everything that was said: those with a place, a severity and a name in brackets.
std::vector<std::string> first_lines(const std::string& errors) {
  std::vector<std::string> lines;
  const std::regex first{R"(^[^ ].*(error|warning|note): .*\[[a-z0-9-]+\]$)"};
  std::istringstream in{errors};
  for (std::string line; std::getline(in, line);) {
    if (std::regex_match(line, first)) lines.push_back(line);
  }
  return lines;
}

std::vector<std::string> without_notes(std::vector<std::string> lines) {
  std::erase_if(lines, [](const std::string& line) { return line.find(": note: ") != std::string::npos; });
  return lines;
}

}  // namespace

TEST_CASE("the job and the shop that the mistakes are made in have none of their own") {
  MemoryFiles disk{case_of("nothing").files};
  const Ran ran = run_on(disk, {"blankwright", "check", "job.toml"});
  CHECK_MESSAGE(ran.exit == Exit::done, ran.errors);
  CHECK_MESSAGE(without_notes(first_lines(ran.errors)).empty(), ran.errors);
}

namespace {

void check_case(Problem problem, const std::string& name) {
  CAPTURE(name);
  const Case ready = case_of(name);
  CHECK_MESSAGE(!ready.marked.empty(), name, " has no mark");
  MemoryFiles disk{ready.files};
  const Ran ran = run_on(disk, command_for(problem));
  CAPTURE(ran.errors);

  const std::string problem_in_words{problem_name(problem)};
  const auto lines = first_lines(ran.errors);
  const auto said = std::find_if(lines.begin(), lines.end(),
                                 [&](const std::string& l) { return l.ends_with("[" + problem_in_words + "]"); });
  REQUIRE(said != lines.end());
  const std::regex alone{ready.marked + R"(:[0-9]+: (error|warning|note): [^A-Z ].*[^.] \[)" + problem_in_words +
                         "\\]"};
  CHECK_MESSAGE(std::regex_match(*said, alone), *said, " is not at ", ready.marked);
  for (const std::string& other : without_notes(lines))
    CHECK(other.ends_with("[" + problem_in_words + "]"));  // one mistake a file
  CHECK(ran.exit == (ran.errors.find(": error: ") != std::string::npos ? Exit::mistakes : Exit::done));
  CHECK(ran.errors.find("\n      | ") != std::string::npos);                    // the line is shown with its mark
  if (problem != Problem::text_does_not_fit) CHECK(disk.files == ready.files);  // check writes nothing
}

}  // namespace

TEST_CASE("every problem is provoked by files of its own, and said at the marked line") {
  const auto cases = cases_by_problem();
  for (const Problem problem : all_problems()) {
    if (provoked_otherwise().contains(problem)) continue;
    const std::string name{problem_name(problem)};
    CHECK_MESSAGE(cases.contains(name), "no file in tests/errors/ provokes ", name);
    if (!cases.contains(name)) continue;
    for (const std::string& one : cases.at(name)) check_case(problem, one);
  }
}

namespace {

/// A label or a hint in the source, by file and line.
using Said = std::pair<std::string, unsigned>;

std::set<Said> said_by_now;

std::string source_folder() { return BLANKWRIGHT_SOURCE_DIR "/src/"; }

void note_said(const std::source_location& from) {
  const std::string file = from.file_name();
  const auto at = file.rfind("src/");
  said_by_now.emplace(at == std::string::npos ? file : file.substr(at + 4), from.line());
}

/// Where a call that opens at `open` ends.
std::size_t end_of_call(const std::string& text, std::size_t open) {
  int depth = 0;
  bool in_quotes = false;
  for (std::size_t i = open; i < text.size(); ++i) {
    const char c = text.at(i);
    if (in_quotes && c == '\\') {
      ++i;
    } else if (c == '"') {
      in_quotes = !in_quotes;
    } else if (!in_quotes) {
      depth += c == '(' ? 1 : c == ')' ? -1 : 0;
      if (depth == 0) return i;
    }
  }
  return text.size();
}

/// A call in the source that says a label or a hint.
struct Site {
  std::string file;
  unsigned first = 0, last = 0;  ///< its lines
  std::string text;
};

std::vector<Site> labels_and_hints() {
  std::vector<Site> all;
  const std::regex call{R"((\.|->)(label|hint|hint_last)\()"};
  for (const auto& entry : std::filesystem::recursive_directory_iterator{source_folder()}) {
    if (entry.path().extension() != ".cpp") continue;
    const std::string text = bytes_of(entry.path().string());
    const auto line_of = [&](std::size_t at) {
      return static_cast<unsigned>(1 +
                                   std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
    };
    for (std::sregex_iterator m{text.begin(), text.end(), call}, none; m != none; ++m) {
      const auto open = static_cast<std::size_t>(m->position() + m->length() - 1);
      const std::size_t end = end_of_call(text, open);
      all.push_back({entry.path().string().substr(source_folder().size()), line_of(open), line_of(end),
                     text.substr(open, end - open)});
    }
  }
  return all;
}

/// What belongs to the problems that are provoked otherwise.
bool is_said_otherwise(const Site& site) {
  const std::pair<std::string, std::string> sites[] = {
      {"commands/at_register.cpp", "says::this_shops_series"},
      {"commands/compile_plan.cpp", "says::give_own_id"},
      {"commands/compile_plan.cpp", "says::the_other_one"},
      {"commands/inputs.cpp", "says::where_the_shop_file_is"},
      {"commands/inputs.cpp", "says::name_it_with_its_folder"},
      {"commands/inputs.cpp", "lacks_ending"},
      {"commands/compile_read.cpp", "says::one_name_in_quotes"},
      {"commands/compile_plan.cpp", "says::id_of_its_own"},
      {"plan/gate/fits_no_more.cpp", ""},
      {"commands/compile_plan.cpp", "says::compile_its_job"},
      {"plan/shop/plan_alone.cpp", "says::compile_fewer"},
      {"plan/order/plan_process.cpp", "says::such_as_a_pot"},
      {"plan/shop/against_plan.cpp", ""},
      {"plan/shop/plan_shop.cpp", "says::queues_behind"},
  };
  return std::ranges::any_of(sites, [&](const auto& one) {
    return site.file == one.first && site.text.find(one.second) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("every label and every hint is provoked by a file among the mistakes") {
  said_by_now.clear();
  watch_labels_and_hints(note_said);
  for (const auto& [problem, names] : cases_by_problem()) {
    for (const std::string& name : names) {
      MemoryFiles disk{case_of(name).files};
      run_on(disk, {"blankwright", "check", "job.toml"});
    }
  }
  for (const NewcomersMistake& mistake : newcomers_mistakes()) {
    MemoryFiles disk{files_with(mistake.wrong)};
    run_on(disk, {"blankwright", "check", first_job});
    run_on(disk, {"blankwright", "check", "shop.toml"});
  }
  MemoryFiles unfit{case_of("text-does-not-fit").files};
  run_on(unfit, command_for(Problem::text_does_not_fit));
  watch_labels_and_hints(nullptr);
  const auto sites = labels_and_hints();
  CHECK(sites.size() > 150);
  for (const Site& site : sites) {
    const bool is_said = std::ranges::any_of(said_by_now, [&](const Said& said) {
      return said.first == site.file && said.second >= site.first && said.second <= site.last;
    });
    CHECK_MESSAGE((is_said || is_said_otherwise(site)), site.file, ":", site.first,
                  ": no file in tests/errors/ provokes it");
  }
}

TEST_CASE("every file among the mistakes is named after a problem") {
  std::set<std::string> names;
  for (const Problem problem : all_problems()) names.emplace(problem_name(problem));
  for (const auto& entry : std::filesystem::directory_iterator{folder()}) {
    if (entry.is_directory()) continue;
    const std::string file = entry.path().filename().string();
    CAPTURE(file);
    CHECK(names.contains(file.substr(0, file.find('.'))));
  }
}

TEST_CASE("a file that is not there, is a folder, or may not be read is named") {
  MemoryFiles disk{case_of("nothing").files};
  disk.folders.insert("folder.toml");
  disk.files["secret.toml"] = "";
  disk.not_permitted.insert("secret.toml");
  const Ran ran = run_on(disk, {"blankwright", "check", "gone.toml", "folder.toml", "secret.toml", "job.toml"});
  CHECK(ran.exit == Exit::mistakes);
  CHECK(ran.errors.find("gone.toml: error: no such file [file-unreadable]\n") != std::string::npos);
  CHECK(ran.errors.find("folder.toml: error: is a folder [file-unreadable]\n") != std::string::npos);
  CHECK(ran.errors.find("secret.toml: error: permission to read denied [file-unreadable]\n") != std::string::npos);
  CHECK(ran.out.starts_with("1 of 4 jobs can be compiled"));  // the others are checked all the same
}

TEST_CASE("a shop file that is not there does not hide the mistakes of the job") {
  MemoryFiles disk{{{"job.toml", case_of("bad-date").files.at("job.toml")}}};
  const Ran ran = run_on(disk, {"blankwright", "check", "job.toml"});
  CHECK(ran.exit == Exit::mistakes);
  CHECK(ran.errors.find("shop.toml: error: no such file [file-unreadable]\n") != std::string::npos);
  CHECK(ran.errors.find("[bad-date]") != std::string::npos);
}

TEST_CASE("a file far larger than any order is not read") {
  MemoryFiles disk{case_of("nothing").files};
  disk.files["job.toml"] += "# " + std::string(largest_file, 'x');
  const Ran ran = run_on(disk, {"blankwright", "check", "job.toml"});
  CHECK(ran.exit == Exit::mistakes);
  CHECK(first_lines(ran.errors).at(0).starts_with("job.toml: error: "));
  CHECK(first_lines(ran.errors).at(0).ends_with("[file-too-large]"));
}

TEST_CASE("two orders whose ids differ in case alone are not compiled together") {
  MemoryFiles disk{case_of("nothing").files};
  std::string other = disk.files.at("job.toml");
  other.replace(other.find("E-1"), 3, "e-1");
  disk.files["other.toml"] = other;
  const Ran ran = run_on(disk, {"blankwright", "compile", "--draft", "--only", "plan", "job.toml", "other.toml"});
  CHECK(ran.exit == Exit::mistakes);
  const auto lines = without_notes(first_lines(ran.errors));
  REQUIRE(lines.size() == 1);
  CHECK(lines.front().starts_with("other.toml:3:6: error: "));
  CHECK(lines.front().ends_with("[same-order-id]"));
  CHECK_FALSE(disk.exists("sheets/E-1"));  // both are refused: they would share a folder
  CHECK_FALSE(disk.exists("sheets/e-1"));
}

TEST_CASE("an order whose id differs in case alone from one in the register is refused") {
  const TemporaryFolder here;
  RealFiles disk;
  for (const auto& [name, text] : case_of("nothing").files) put_bytes(here / name, text);
  const std::vector<std::string> compile{"blankwright", "compile",       "--only",         "plan",
                                         "--out",       here / "sheets", here / "job.toml"};
  const Ran first = run_on(disk, compile);
  REQUIRE_MESSAGE(first.exit == Exit::done, first.errors);
  std::string other = bytes_of(here / "job.toml");
  other.replace(other.find("E-1"), 3, "e-1");
  put_bytes(here / "job.toml", other);
  const Ran second = run_on(disk, compile);
  CHECK(second.exit == Exit::mistakes);
  const auto lines = without_notes(first_lines(second.errors));
  REQUIRE(lines.size() == 1);
  CHECK(lines.front().find("job.toml:3:6: error: ") != std::string::npos);
  CHECK(lines.front().ends_with("[order-in-register-differs]"));
  CHECK_FALSE(std::filesystem::exists(here / "sheets/e-1"));
}

TEST_CASE("the sample with deliberate mistakes tells all of them in one run") {
  const TemporaryFolder here;
  RealFiles disk;
  const std::string sample = BLANKWRIGHT_SOURCE_DIR "/sample-jobs/mistakes/";
  const Ran ran = run_on(disk, {"blankwright", "check", sample + "job.toml"});
  CHECK(ran.exit == Exit::mistakes);
  const auto said = first_lines(ran.errors);
  for (const char* name : {"shop.toml", "job.toml"}) {
    std::istringstream in{bytes_of(sample + name)};
    std::vector<std::string> text;
    for (std::string line; std::getline(in, line);) text.push_back(line);
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (!text.at(i).ends_with("is missing") && text.at(i).find("# mistake") != std::string::npos) {
        CAPTURE(text.at(i));
        const std::string place = fmt::format("{}{}:{}:", sample, name, i + 2);  // a remark stands above its mistake
        CHECK(
            std::any_of(said.begin(), said.end(), [&](const std::string& line) { return line.starts_with(place); }));
      }
    }
  }
  CHECK(ran.errors.find("`enters` is missing [missing-key]") != std::string::npos);
}
