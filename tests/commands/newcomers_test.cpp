// What people get wrong who write their first files, and whether what is said to it mends it: tests/errors/newcomers.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "newcomers.h"
#include "typed.h"

using namespace blankwright;

namespace {

using NewcomersFiles = std::map<std::string, std::string>;

/// What was typed in the shell, or at the bench where it begins with "typed ".
ProgramRun typed_by_newcomer(const NewcomersFiles& files, const NewcomersMistake& mistake,
                             const std::string& command) {
  const TemporaryFolder folder;
  const bool at_bench = command.starts_with("typed ");
  const bool in_register =
      at_bench || command.starts_with("enter") || command.starts_with("ask") || command.starts_with("today");
  std::filesystem::create_directories(folder / "orders");
  std::filesystem::create_directories(folder / "here");
  for (const auto& [name, text] : files) {
    const std::string series = in_register && name == "shop.toml" ? "\n[register]\nseries = \"K7T-4X54\"\n" : "";
    put_bytes(folder / ("orders/" + name), text);
    // One looks for them in a folder that has none.
    if (!mistake.what.starts_with("082")) put_bytes(folder / ("here/" + name), text + series);
  }
  if (in_register) typed_in_folder(folder / "here", "compile --quiet " + first_job);
  const std::string line = at_bench ? command.substr(std::string_view{"typed "}.size()) + "\n" : "";
  return typed_in_folder(folder / "here", at_bench ? "bench" : command, line);
}

bool says_all(const std::string& text, const std::vector<std::string>& words) {
  return std::ranges::all_of(words, [&](const std::string& one) { return text.find(one) != std::string::npos; });
}

void check_typed(const NewcomersMistake& mistake) {
  const ProgramRun told = typed_by_newcomer(files_with(mistake.wrong), mistake, mistake.args);
  CHECK_MESSAGE(says_all(told.out + told.errors, mistake.says), told.out, told.errors);
  NewcomersFiles files = files_with(mistake.wrong);
  if (!mistake.mended.empty()) {
    for (const auto& [name, text] : files_with(mistake.mended)) files[name] = text;
  }
  const ProgramRun mended = typed_by_newcomer(files, mistake, mistake.then);
  CHECK_MESSAGE(mended.exit == Exit::done, mended.out, mended.errors);
  if (mistake.then.starts_with("typed ")) CHECK_MESSAGE(mended.out.find("\nOK") != std::string::npos, mended.out);
}

}  // namespace

TEST_CASE("of a hundred newcomers' mistakes at least 95 are mended by doing what is said, and nothing else") {
  int mended = 0, all = 0;
  for (const NewcomersMistake& mistake : newcomers_mistakes()) {
    CAPTURE(mistake.what);
    ++all;
    if (mistake.is_unseen) continue;
    ++mended;
    if (!mistake.args.empty()) {
      check_typed(mistake);
      continue;
    }
    const ProgramRun told = typed_by_newcomer(files_with(mistake.wrong), mistake, "check " + first_job);
    if (mistake.is_read) {
      CHECK_MESSAGE(told.exit == Exit::done, told.errors);
      continue;
    }
    CHECK_FALSE(mistake.says.empty());
    CHECK_MESSAGE(says_all(told.errors, mistake.says), told.errors);
    const ProgramRun then = typed_by_newcomer(files_with(mistake.mended), mistake, "check " + first_job);
    CHECK_MESSAGE(then.exit == Exit::done, then.errors);
  }
  CHECK(all == 100);
  CHECK(mended >= 95);
}
