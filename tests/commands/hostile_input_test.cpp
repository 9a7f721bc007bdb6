#include <doctest/doctest.h>

#include <sys/stat.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "workshop.h"

using namespace blankwright;

namespace {

/// Nothing that steers a terminal, but line ends.
bool is_plain(const std::string& text) {
  return text.find_first_of("\x1b\x07\x08\r\x7f") == std::string::npos &&
         text.find("\xc2\x9b") == std::string::npos && text.find("\xe2\x80\xae") == std::string::npos;
}

std::string sample_with(const Workshop& w, const std::string& was, const std::string& is) {
  std::string text = bytes_of(w.jobs / "metric/burnisher.toml");
  text.replace(text.find(was), was.size(), is);
  const std::string path = w.jobs / "metric/changed.toml";
  std::ofstream{path, std::ios::binary} << text;
  return path;
}

}  // namespace

TEST_CASE("whatever is typed, no control character reaches the terminal") {
  Workshop w;
  const std::string evil =
      "X\x1b[31m\x1b]0;title\x07\x08\xc2\x9b"
      "2J\xe2\x80\xae\r";
  const std::string table = w.jobs / "metric/t.csv";
  std::ofstream{table} << "kind,blank,mass\n" << evil << ",NG7-32GX,1 g\nweighed," << evil << ",1 g\n";
  const std::string lines = w.jobs / "metric/x.jsonl";
  std::ofstream{lines} << R"({"format":"blankwright-register/1"})"
                          "\n"
                       << R"({"entry":1,"kind":"a\u001b[2J\u0007","at":"2027-01-15T13:00:00Z","says":{}})"
                          "\n";
  const std::vector<std::vector<std::string>> all{
      {"enter", evil},
      {"enter", "weighed", evil, "mass=1 g"},
      {"enter", "weighed", "NG7-32GX", evil + "=1"},
      {"enter", "weighed", "NG7-32GX", "mass=" + evil},
      {"enter", "weighed", "NG7-32GX", "mass=1 g", "--at", evil},
      {"enter", "--csv", evil},
      {"enter", "--csv", table},
      {"import", evil},
      {"import", lines},
      {"ask", evil},
      {"ask", "blank", evil},
      {"ask", "bath", evil},
      {"cards", evil},
      {"explain", w.jobs / "metric/burnisher.toml", evil},
      {"export", evil + "/no/such/folder"},
      {evil},
  };
  for (const auto& arguments : all) {
    CAPTURE(arguments.at(0));
    CAPTURE(arguments.at(arguments.size() - 1));
    const ProgramRun run = w.run(arguments);
    CHECK(run.exit != Exit::done);
    CHECK(is_plain(run.out));
    CHECK(is_plain(run.errors));
    CHECK(run.errors.find('\n') != std::string::npos);
  }
  const ProgramRun bench = w.run({"bench"}, evil + "\nweighed\n" + evil + "\n");
  std::string heard = bench.out;
  std::erase(heard, '\a');
  CHECK(is_plain(heard));
  CHECK(std::count(bench.out.begin(), bench.out.end(), '\a') == 2);  // one an answer, ours
}

TEST_CASE("a line at the bench that is longer than any that can be said is refused at once") {
  Workshop w;
  std::string words = "weighed NG7-32GX";
  for (int k = 0; k < 200'000; ++k) words += " word";
  const auto begun = std::chrono::steady_clock::now();
  const auto answers = w.bench(words + "\nweighed NG7-32GX 131\n");
  CHECK(std::chrono::steady_clock::now() - begun < std::chrono::seconds{5});
  REQUIRE(answers.size() == 2);
  CHECK(answers.at(0) == "NO this line is longer than any that can be said\a");
  CHECK(answers.at(1).starts_with("OK NG7-32GX weighed: mass 131.0 g"));
}

TEST_CASE("a semicolon in a table's cell is quoted, since some spreadsheets part cells at it") {
  Workshop w;
  REQUIRE(w.run({"enter", "weighed", "NG7-32GX", "mass=131 g", "remark=dry; cold"}).exit == Exit::done);
  const ProgramRun run = w.run({"ask", "blank", "NG7-32GX", "--as", "csv"});
  CHECK(run.out.find("\"mass 131.0 g, remark dry; cold\"") != std::string::npos);
}

TEST_CASE("an order id that begins with a hyphen is refused, as commands take it for a flag") {
  Workshop w;
  for (const std::string id : {"-rf", "--help"}) {
    const ProgramRun run = w.run({"check", sample_with(w, "\"TA-0147\"", "\"" + id + "\"")});
    CHECK(run.exit == Exit::mistakes);
    CHECK(run.errors.find("an order id cannot begin with a hyphen") != std::string::npos);
    CHECK(run.errors.find("hint: ") != std::string::npos);
  }
}

TEST_CASE("places that no sheet of labels has are refused") {
  Workshop w;
  const auto compiled = [&](const std::string& places) {
    return w.run({"compile", "--draft", "--only", "tags", "--out", w.jobs.out(), "--used-places", places,
                  w.jobs / "metric/burnisher.toml"});
  };
  CHECK(compiled("1-20").exit == Exit::done);
  const ProgramRun beyond = compiled("1,22");
  CHECK(beyond.exit == Exit::mistakes);
  CHECK(beyond.errors.find("--used-places: there is no place 22 on a sheet of ") != std::string::npos);
  CHECK(compiled("1-21").errors.find("no place is left") != std::string::npos);
}

TEST_CASE("a pipe or a device where a file belongs is an error and not waited for") {
  Workshop w;
  const std::string pipe = w.jobs / "metric/pipe.toml";
  REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
  const std::string says = "is a pipe or a device, not a file";
  for (const std::string& path : {pipe, std::string{"/dev/zero"}}) {
    CAPTURE(path);
    const ProgramRun job = w.run({"check", path});
    CHECK(job.exit == Exit::mistakes);
    CHECK(job.errors.find(says) != std::string::npos);
    const ProgramRun shop = run_program({"check", "--shop", path, w.jobs / "metric/burnisher.toml"}, w.now);
    CHECK(shop.exit == Exit::mistakes);
    CHECK(shop.errors.find(says) != std::string::npos);
    const ProgramRun sheets =
        w.run({"check", sample_with(w, "format = 1", "format = 1\ntemplate = \"" + path + "\"")});
    CHECK(sheets.exit == Exit::mistakes);
    CHECK(sheets.errors.find(says) != std::string::npos);
  }
}

TEST_CASE("a register and its copies are their owner's alone, whatever new files are") {
  const ::mode_t before = ::umask(0);
  Workshop w;
  const std::string reg = w.jobs / "metric/shop.register";
  const auto mode = [](const std::string& path) {
    return static_cast<unsigned>(std::filesystem::status(path).permissions()) & 0777U;
  };
  CHECK(mode(reg) == 0600U);
  CHECK(w.run({"enter", "weighed", "NG7-32GX", "mass=131 g"}).exit == Exit::done);
  CHECK(mode(reg) == 0600U);
  // What its owner allows a group is kept.
  std::filesystem::permissions(reg, std::filesystem::perms{0660});
  CHECK(w.run({"enter", "weighed", "NG7-32GX", "mass=131 g"}).exit == Exit::done);
  CHECK(mode(reg) == 0660U);
  // One of an earlier version, and the copy that is kept of it.
  std::filesystem::copy_file(std::string{BLANKWRIGHT_SOURCE_DIR} + "/tests/register/formats/format-3.register", reg,
                             std::filesystem::copy_options::overwrite_existing);
  std::filesystem::permissions(reg, std::filesystem::perms{0644});
  CHECK(w.run({"ask", "stock"}).exit == Exit::done);
  CHECK(mode(reg) == 0600U);
  CHECK(mode(reg + ".format-3") == 0600U);
  ::umask(before);
}

TEST_CASE("a machine without time zones is told so, and the shop file is not blamed") {
  const SampleJobs jobs;
  const TemporaryFolder empty;
  const std::string out = empty / "said";
  // Another /usr/share/zoneinfo needs a mount of our own, which not every place where tests run allows.
  const std::string none = empty / "none";
  std::filesystem::create_directory(none);
  const std::string in_it = "unshare -rm sh -c 'mount --bind " + none + " /usr/share/zoneinfo && ";
  if (std::system((in_it + "true' 2>/dev/null").c_str()) != 0) {
    MESSAGE("no mounts here");
    return;
  }
  const std::string job = jobs / "metric/burnisher.toml";
  const int status =
      std::system((in_it + "exec " BLANKWRIGHT_PROGRAM " check " + job + "' > " + out + " 2>&1").c_str());
  CHECK(WEXITSTATUS(status) == 3);
  CHECK(bytes_of(out) ==
        "blankwright: this machine has no time zone data: install tzdata (it belongs in "
        "/usr/share/zoneinfo)\n");
}
