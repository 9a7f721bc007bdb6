// The first quarter of an hour: files to fill in, and what they may name.

#include <doctest/doctest.h>

#include <regex>
#include <sstream>

#include "program.h"

using namespace blankwright;

namespace {

struct Asked {
  Exit exit{};
  std::string out, errors;
  std::map<std::string, std::string> files;
};

/// At a terminal, where somebody types these lines.
Asked at_terminal(std::vector<std::string> arguments, const std::string& typed) {
  arguments.insert(arguments.begin(), "blankwright");
  MemoryFiles disk;
  const FixedClock noon{1809345600};
  FixedChance chance{0};
  std::istringstream in{typed};
  std::ostringstream out, errors;
  Surroundings around{disk, noon, chance, in, out, errors, Terminal{}, Terminal{}, true, "Europe/Vienna"};
  const Exit exit = run(arguments, around);
  return {exit, out.str(), errors.str(), disk.files};
}

std::vector<std::string> begun(const std::string& folder, const char* units, const char* treatment) {
  return {"begin", folder, "--units", units, "--treatment", treatment, "--zone", "America/Detroit"};
}

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

}  // namespace

TEST_CASE(
    "what begin makes compiles as it is, to a draft and for real, in either units, with treatment and without") {
  for (const char* units : {"metric", "inch"}) {
    for (const char* treatment : {"yes", "no"}) {
      CAPTURE(units);
      CAPTURE(treatment);
      const TemporaryFolder folder;
      const std::string job = folder / "first-job.toml";
      const ProgramRun made = run_program(begun(folder.path(), units, treatment));
      CHECK_MESSAGE(made.exit == Exit::done, made.errors);
      const ProgramRun draft = run_program({"compile", "--draft", "--out", folder / "drafts", job});
      CHECK_MESSAGE(draft.exit == Exit::done, draft.errors);
      const ProgramRun real = run_program({"compile", "--out", folder / "sheets", job});
      CHECK_MESSAGE(real.exit == Exit::done, real.errors);
      CHECK(times(real.errors, ": error: ") == 0);
      // That a bond is assumed until a stud was pulled is true of every new shop, and said of each.
      CHECK_MESSAGE(times(real.errors, ": warning: ") == times(real.errors, "[bond-untested]"), real.errors);
      const std::string told = run_tool("pdfinfo " + shell_quoted(folder / "sheets/FIRST-1/traveller.pdf")).out;
      const bool inch = std::string{units} == "inch";
      CHECK_MESSAGE(told.find(inch ? "612 x 792" : "595.276 x 841.89") != std::string::npos, told);
      const std::string shop = bytes_of(folder / "shop.toml"), order = bytes_of(job);
      CHECK(times(shop, " mm\"") == (inch ? 0 : times(shop, " mm\"")));
      CHECK(times(shop + order, " in\"") + times(shop + order, "lbf") ==
            (inch ? times(shop + order, " in\"") + 1 : 0));
      CHECK((shop.find("planned = \"vacuum\"") != std::string::npos) == (std::string{treatment} == "yes"));
      CHECK(shop.find('<') == std::string::npos);
      CHECK(shop.find("#+") == std::string::npos);
    }
  }
}

TEST_CASE("a begun shop is planned on whatever day it begins") {
  const TemporaryFolder folder;
  CHECK(run_program(begun(folder.path(), "metric", "yes")).exit == Exit::done);
  for (const char* moment : {"2027-05-03 7:30", "2027-05-05 12:10", "2027-05-07 16:29", "2027-05-08 10:00",
                             "2027-12-24 9:00", "2027-03-27 23:00"}) {
    CAPTURE(moment);
    const ProgramRun draft =
        run_program({"compile", "--draft", "--at", moment, "--out", folder / "drafts", folder / "first-job.toml"});
    CHECK_MESSAGE(draft.exit == Exit::done, draft.errors);
  }
}

TEST_CASE("begin lets no operation of a treatment out: the routing plans all that the bath asks for") {
  const TemporaryFolder folder;
  CHECK(run_program(begun(folder.path(), "metric", "yes")).exit == Exit::done);
  const std::string shop = bytes_of(folder / "shop.toml");
  // What the compiler warns of where it is missing (routing-incomplete), and what its gates ask for.
  for (const char* planned : {"drying", "cooling", "vacuum", "soak", "cure", "glue-setting"})
    CHECK(shop.find(std::string{"planned = \""} + planned) != std::string::npos);
  for (const char* entry : {"sawn", "moisture", "measured", "weighed", "graded", "squared", "bored", "glued",
                            "stud-measured", "turned", "inspected"})
    CHECK(shop.find(std::string{"ended_by = \""} + entry) != std::string::npos);
  CHECK(times(shop, "\nhold = ") >= 8);
}

TEST_CASE("begin never touches a file that is there") {
  for (const char* there : {"shop.toml", "first-job.toml"}) {
    const TemporaryFolder folder;
    put_bytes(folder / there, "mine");
    const ProgramRun run = run_program(begun(folder.path(), "metric", "no"));
    CHECK(run.exit == Exit::command_line);
    CHECK(run.errors.find("is there already; nothing was written") != std::string::npos);
    CHECK(bytes_of(folder / there) == "mine");
    CHECK(std::distance(std::filesystem::directory_iterator{folder.path()}, {}) == 1);
  }
}

TEST_CASE(
    "begin asks at a terminal for what no option said, again after an answer that cannot be, and not in a pipe") {
  const Asked asked = at_terminal({"begin", "--paper", "A4"}, "Cold Creek\nfeet\ninch\nEurope/Wien\n\nno\n");
  CHECK(asked.exit == Exit::done);
  CHECK(asked.errors ==
        "Name of the shop [My Shop]: Units, metric or inch [metric]: answer metric or inch\n"
        "Units, metric or inch [metric]: Time zone, area and city [Europe/Vienna]: no time zone has the name "
        "\"Europe/Wien\"; write area and city, such as America/Chicago or Europe/Berlin\n"
        "Time zone, area and city [Europe/Vienna]: Is resin drawn into the wood, yes or no [yes]: ");
  const std::string shop = asked.files.at("shop.toml");
  for (const char* line :
       {"name = \"Cold Creek\"", "units = \"inch\"", "template = \"a4\"", "zone = \"Europe/Vienna\""})
    CHECK(shop.find(line) != std::string::npos);

  const Asked left = at_terminal({"begin"}, "Cold Creek\n");
  CHECK(left.exit == Exit::command_line);
  CHECK(left.files.empty());

  const TemporaryFolder folder;
  const ProgramRun piped = run_program({"begin", folder / "shop"});
  CHECK(piped.exit == Exit::done);
  CHECK(piped.errors.empty());
  const ProgramRun nowhere = run_program({"begin", folder / "other", "--zone", "CST"});
  CHECK(nowhere.exit == Exit::command_line);
  CHECK(nowhere.errors.find("no time zone has the name \"CST\"; write area and city") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(folder / "other"));
}

TEST_CASE("a shop's name that TOML or paper cannot hold is answered, and nothing is written") {
  const TemporaryFolder folder;
  CHECK(run_program({"begin", folder / "a", "--name", "The \"Old\" Mill \\ Co"}).exit == Exit::done);
  CHECK(run_program({"compile", "--draft", "--out", folder / "d", folder / "a/first-job.toml"}).exit == Exit::done);
  const ProgramRun unprintable = run_program({"begin", folder / "b", "--name", "木工"});
  CHECK(unprintable.exit == Exit::mistakes);
  CHECK(unprintable.errors.find("[unprintable-text]") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(folder / "b"));
}

TEST_CASE("known lists woods, threads and label sheets, and finds them by a part of any of their names") {
  const auto listed = [](std::vector<std::string> words) {
    words.insert(words.begin(), "known");
    const ProgramRun run = run_program(std::move(words));
    CHECK_MESSAGE(run.exit == Exit::done, run.errors);
    return run.out;
  };
  CHECK(listed({"species", "beech"}).find("\nEuropean beech ") != std::string::npos);
  CHECK(listed({"species", "Walnut", "BLACK"}).find("\nBlack walnut ") != std::string::npos);
  CHECK(times(listed({"species"}), "\n") > 40);
  // ISO 261: M8 has the coarse pitch 1.25; tap drill 6.8 by common charts.
  CHECK(std::regex_search(listed({"threads", "M8"}), std::regex{"\nM8 +coarse +8\\.00 mm +6\\.8 mm"}));
  CHECK(std::regex_search(listed({"threads", "5/16"}), std::regex{"\n5/16-18 +UNC "}));
  CHECK(listed({"labels", "letter", "--as", "csv"}).find("letter-3x10-66.7x25.4,Letter,30,") != std::string::npos);
  const ProgramRun none = run_program({"known", "species", "europen", "beach"});
  CHECK(none.exit == Exit::mistakes);
  CHECK(none.errors.find("did you mean European beech") != std::string::npos);
}

TEST_CASE("a misspelt command or option is answered with the near one") {
  const auto told = [](std::vector<std::string> arguments) {
    const ProgramRun run = run_program(std::move(arguments));
    CHECK(run.exit == Exit::command_line);
    return run.errors.substr(0, run.errors.find('\n'));
  };
  CHECK(told({"complie", "x.toml"}) == "blankwright: there is no command `complie`; did you mean compile?");
  CHECK(told({"print"}).starts_with("blankwright: there is no command `print`"));
  CHECK(told({"compile", "--drafts", "x.toml"}) ==
        "blankwright: `compile` has no option `--drafts`; did you mean --draft?");
  CHECK(told({"compile", "--pictures=", "x.toml"}) != told({"compile", "--picture=150", "x.toml"}));
}
