// Printing that is left to Ninja, held against what a compile of the same register prints at once.

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "bench_of_work.h"
#include "child_process.h"
#include "program.h"

using namespace blankwright;

namespace {

constexpr std::int64_t noon_of_print = 1809345600;  // noon of 3 May 2027 UTC

/// All files below a folder that have one of these endings, by their paths from there.
std::map<std::string, std::string> files_below(const std::string& folder, const std::vector<std::string>& endings) {
  std::map<std::string, std::string> out;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{folder}) {
    const std::string path = entry.path().lexically_relative(folder).generic_string();
    if (std::ranges::find(endings, entry.path().extension().string()) != endings.end())
      out.emplace(path, bytes_of(entry.path().string()));
  }
  return out;
}

std::map<std::string, std::string> documents_below(const std::string& folder) {
  return files_below(folder, {".pdf", ".png"});
}

/// Everything that a compile writes when it prints at once.
std::map<std::string, std::string> outputs_below(const std::string& folder) {
  return files_below(folder, {".pdf", ".png", ".json", ".ics", ".csv"});
}

/// What Ninja tells of the printing.
std::string printed_by_ninja(const std::string& folder, int jobs) {
  return run_tool("ninja -j " + std::to_string(jobs) + " -C " + shell_quoted(folder) + " -f print.ninja 2>&1").out;
}

const std::vector<std::string> all_documents{"--week", "--worksheet", "--pictures", "36"};

/// Orders of a shop of its own, compiled with what else is said.
ProgramRun compiled_for_ninja(const SampleJobs& jobs, const std::string& out, std::vector<std::string> more,
                              std::int64_t now = noon_of_print) {
  std::vector<std::string> all{"compile", "--out", out, jobs / "inch/file-handle.toml", jobs / "inch/knob.toml"};
  all.insert(all.end(), more.begin(), more.end());
  return run_program(all, now);
}

std::vector<std::string> with_print_later(std::vector<std::string> all) {
  all.emplace_back("--print-later");
  return all;
}

}  // namespace

TEST_CASE("what Ninja prints later is what a compile prints at once, with any number of jobs") {
  const SampleJobs at_once, one, two;
  REQUIRE(compiled_for_ninja(at_once, at_once.out(), all_documents).exit == Exit::done);
  const auto expected = outputs_below(at_once.out());
  CHECK(expected.size() > 20);
  int jobs = 0;
  for (const SampleJobs* later : {&one, &two}) {
    const ProgramRun run = compiled_for_ninja(*later, later->out(), with_print_later(all_documents));
    REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
    CHECK(has(run.out, "traveller.pages, worksheet.pages, tags.pages, plan.json, schedule.ics, blanks.csv\n"));
    CHECK(has(run.out, "run `ninja -C " + later->out() + " -f print.ninja`\n"));
    CHECK(documents_below(later->out()).empty());
    const std::string told = printed_by_ninja(later->out(), ++jobs);
    CHECK_MESSAGE(has(told, "[7/7]"), told);
    CHECK(outputs_below(later->out()) == expected);
    CHECK(has(printed_by_ninja(later->out(), jobs), "no work to do"));
  }
}

TEST_CASE("what has not changed is not printed again, and what has is") {
  const SampleJobs jobs;
  const std::string out = jobs.out();
  REQUIRE(compiled_for_ninja(jobs, out, {"--print-later"}).exit == Exit::done);
  REQUIRE(has(printed_by_ninja(out, 2), "[4/4]"));
  const auto first = documents_below(out);

  // Texts alone, of job, shop and template, are not what was issued.
  change(jobs / "inch/knob.toml", "quantity = ", "quantity = 1");
  CHECK(has(printed_by_ninja(out, 2), "no work to do"));
  change(jobs / "inch/knob.toml", "quantity = 1", "quantity = ");

  // The same issues once more: their pages are what they were.
  REQUIRE(run_program({"compile", "--again", "last", "--print-later", "--out", out, jobs / "inch/knob.toml"}).exit ==
          Exit::done);
  CHECK(has(printed_by_ninja(out, 2), "no work to do"));

  // One order has another item, on its own pages and tags; what is told of the other one stands.
  change(jobs / "inch/knob.toml", "item = \"", "item = \"new ");
  REQUIRE(compiled_for_ninja(jobs, out, {"--print-later", "--changed"}, noon_of_print + 60).exit == Exit::done);
  const std::string told = printed_by_ninja(out, 2);
  CHECK_MESSAGE(has(told, "CC-2026.2/traveller-changed.pages"), told);
  CHECK_FALSE(has(told, "CC-2026.1/t"));
  const auto second = documents_below(out);
  CHECK(second.contains("CC-2026.2/traveller-changed.pdf"));
  for (const auto& [path, bytes] : first) {
    CAPTURE(path);
    CHECK(second.at(path) == bytes);
  }
}

TEST_CASE("a document that is gone is printed again, and so is all with another program") {
  const SampleJobs jobs;
  const TemporaryFolder elsewhere;
  const std::string out = jobs.out();
  REQUIRE(compiled_for_ninja(jobs, out, {"--print-later"}).exit == Exit::done);
  // The program lies where Ninja and the shell have to be told what stands in the path.
  const std::string folder = elsewhere / "it's $5: a b";
  std::filesystem::create_directory(folder);
  std::filesystem::copy_file(BLANKWRIGHT_PROGRAM, folder + "/blank wright");
  const std::string run = shell_quoted(folder + "/blank wright") +
                          " compile --again last --print-later --only tags --out " + shell_quoted(out) + " " +
                          shell_quoted(jobs / "inch/knob.toml") + " 2>&1";
  REQUIRE(has(run_tool(run).out, "1 of 1 order compiled"));
  REQUIRE(has(printed_by_ninja(out, 2), "[4/4]"));
  const auto first = documents_below(out);
  std::filesystem::remove(out + "/CC-2026.2/tags.pdf");
  CHECK(has(printed_by_ninja(out, 1), "[1/1] print CC-2026.2/tags.pages"));
  std::filesystem::last_write_time(folder + "/blank wright", std::filesystem::file_time_type::clock::now());
  CHECK(has(printed_by_ninja(out, 1), "[4/4]"));
  CHECK(documents_below(out) == first);
}

TEST_CASE("pages of before do not take the place of what was printed at once since") {
  const SampleJobs jobs;
  const std::string out = jobs.out();
  REQUIRE(compiled_for_ninja(jobs, out, {"--print-later"}).exit == Exit::done);
  REQUIRE(compiled_for_ninja(jobs, out, {"--only", "tags,plan"}, noon_of_print + 60).exit == Exit::done);
  const auto tags = documents_below(out);
  CHECK(tags.size() == 2);
  CHECK(has(printed_by_ninja(out, 2), "[2/2]"));  // the travellers
  for (const auto& [path, bytes] : tags) CHECK(documents_below(out).at(path) == bytes);
}

TEST_CASE("what cannot be read or written when pages are printed is told, with its path") {
  const SampleJobs jobs;
  const std::string out = jobs.out();
  REQUIRE(compiled_for_ninja(jobs, out, {"--print-later", "--draft"}).exit == Exit::done);
  const std::string tags = out + "/CC-2026.1/tags.pages";
  const ProgramRun good = run_program({"print-pages", tags});
  CHECK(good.exit == Exit::done);
  CHECK(has(good.out, "CC-2026.1/tags.pdf: "));
  const ProgramRun none = run_program({"print-pages", out + "/none.pages"});
  CHECK(none.exit == Exit::world);
  CHECK(none.errors == "blankwright: " + out + "/none.pages: no such file\n");
  const ProgramRun plan = run_program({"print-pages", out + "/CC-2026.1/plan.json"});
  CHECK(plan.exit == Exit::world);
  CHECK(has(plan.errors, "plan.json: holds no pages that `compile --print-later` laid out\n"));

  // Ninja's file cannot be put in its place: the orders were laid out all the same.
  std::filesystem::remove(out + "/print.ninja");
  std::filesystem::create_directory(out + "/print.ninja");
  const ProgramRun no_file = compiled_for_ninja(jobs, out, {"--print-later", "--draft"}, noon_of_print + 60);
  CHECK(no_file.exit == Exit::world);
  CHECK(has(no_file.errors, "blankwright: " + out + "/print.ninja: is a folder\n"));
  CHECK(has(no_file.out, "2 of 2 orders compiled as drafts"));

  const TemporaryFolder closed;
  ::chmod(closed.path().c_str(), 0555);
  const auto refused = [&] {
    become_ordinary_user();
    const ProgramRun run = run_program({"compile", "--draft", "--print-later", "--out", closed / "sheets",
                                        BLANKWRIGHT_SOURCE_DIR "/sample-jobs/inch/knob.toml"});
    return run.exit == Exit::world && has(run.errors, "sheets/CC-2026.2: Permission denied\n") ? 0 : 1;
  };
  CHECK(in_child(refused) == 0);
}
