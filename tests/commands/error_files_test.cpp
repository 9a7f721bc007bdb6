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
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "commands/run.h"
#include "diagnose/problem.h"
#include "memory_files.h"
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

/// What a problem is that no single file provokes: it has a test of its own below, or, of many orders, in
/// tests/plan/shop_plan_shared_test.cpp.
const std::set<Problem>& provoked_otherwise() {
  static const std::set<Problem> problems{Problem::file_unreadable, Problem::file_too_large,
                                          Problem::same_order_id,   Problem::order_in_register_differs, Problem::blanks_do_not_fit, Problem::ids_not_needed,
                                          Problem::series_differs,  Problem::calendar_too_full};
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

TEST_CASE("every problem is provoked by a file of its own, and said at the marked line") {
  for (const Problem problem : all_problems()) {
    if (provoked_otherwise().contains(problem)) continue;
    const std::string name{problem_name(problem)};
    CAPTURE(name);
    const Case ready = case_of(name);
    CHECK_MESSAGE(!ready.marked.empty(), "no file in tests/errors/ provokes ", name, ", or it has no mark");
    if (ready.marked.empty()) continue;
    MemoryFiles disk{ready.files};
    const Ran ran = run_on(disk, command_for(problem));
    CAPTURE(ran.errors);

    const auto lines = first_lines(ran.errors);
    const auto said =
        std::find_if(lines.begin(), lines.end(), [&](const std::string& l) { return l.ends_with("[" + name + "]"); });
    REQUIRE(said != lines.end());
    const std::regex alone{ready.marked + R"(:[0-9]+: (error|warning|note): [^A-Z ].*[^.] \[)" + name + "\\]"};
    CHECK_MESSAGE(std::regex_match(*said, alone), *said, " is not at ", ready.marked);
    for (const std::string& other : without_notes(lines))
      CHECK(other.ends_with("[" + name + "]"));  // one mistake a file
    CHECK(ran.exit == (said->find(": error: ") != std::string::npos ? Exit::mistakes : Exit::done));
    CHECK(ran.errors.find("\n      | ") != std::string::npos);                    // the line is shown with its mark
    if (problem != Problem::text_does_not_fit) CHECK(disk.files == ready.files);  // check writes nothing
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
