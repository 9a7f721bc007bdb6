#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <fstream>
#include <functional>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>
#include <system_error>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "program.h"

using namespace blankwright;

TEST_CASE("help tells a newcomer how to get a first order on paper") {
  const auto run = run_program({"--help"});
  CHECK(run.exit == Exit::done);
  for (const char* word : {"begin", "compile --draft", "explain", "schema"}) {
    CHECK(run.out.find(word) != std::string::npos);
  }
  CHECK(run_program({"compile", "--help"}).out.find("--draft") != std::string::npos);
  CHECK(run_program({"--version"}).out == "Blankwright 0.2.0\n");
}

TEST_CASE("a mistake on the command line ends with 2 and a way on") {
  for (const std::vector<std::string>& arguments : {std::vector<std::string>{},
                                                    {"print-pages"},
                                                    {"check"},
                                                    {"compile", "--colour", "x.toml"},
                                                    {"schema", "client"},
                                                    {"compile", "--only", "poster", "x.toml"}}) {
    const auto run = run_program(arguments);
    CHECK(run.exit == Exit::command_line);
    CHECK(run.errors.starts_with("blankwright: "));
  }
}

TEST_CASE("what a library could not work out is our fault, what the machine lacks is not") {
  class BrokenClock final : public Clock {
   public:
    explicit BrokenClock(std::function<void()> fault) : fault_{std::move(fault)} {}
    std::int64_t now_unix() const override {
      fault_();
      return 0;
    }

   private:
    std::function<void()> fault_;
  };
  struct Row {
    std::function<void()> fault;
    Exit exit;
    std::string words;
  };
  const std::vector<Row> rows{
      {[] { throw std::runtime_error{"no root was found"}; }, Exit::ours, "no root was found"},
      {[] { throw std::system_error{std::make_error_code(std::errc::resource_unavailable_try_again)}; }, Exit::world,
       "temporarily unavailable"},
      {[] {
         throw WorldError{"sheets", "no room"};
       },
       Exit::world, "sheets: no room"},
  };
  const SampleJobs jobs;
  for (const Row& row : rows) {
    CAPTURE(row.words);
    RealFiles disk;
    const BrokenClock clock{row.fault};
    FixedChance chance{0};
    std::istringstream in;
    std::ostringstream out, errors;
    Surroundings around{disk, clock, chance, in, out, errors, Terminal{}};
    CHECK(run({"blankwright", "check", jobs / "metric/burnisher.toml"}, around) == row.exit);
    CHECK(errors.str().find(row.words) != std::string::npos);
    CHECK((errors.str().find("a fault of the program") != std::string::npos) == (row.exit == Exit::ours));
  }
}

TEST_CASE("explain tells all figures, and the whole way to one") {
  const SampleJobs jobs;
  const auto all = run_program({"explain", jobs / "metric/burnisher.toml"});
  CHECK(all.exit == Exit::done);
  for (const FigureInfo& figure : figure_infos()) CHECK(all.out.find(figure.path) != std::string::npos);
  const auto one = run_program({"explain", jobs / "metric/burnisher.toml", "bore.depth_mm"});
  CHECK(one.exit == Exit::done);
  CHECK(one.out.find("embedded + reservoir") != std::string::npos);
  CHECK(one.out.find("reservoir = 6.00 mm (shop)") != std::string::npos);
  const auto none = run_program({"explain", jobs / "metric/burnisher.toml", "bore.dept_mm"});
  CHECK(none.exit == Exit::command_line);
  CHECK(none.errors.find("bore.depth_mm") != std::string::npos);
}

TEST_CASE("explain tells the baths as their cards have them, shared with the shop's other open orders") {
  const SampleJobs jobs;
  const std::string job = jobs / "metric/burnisher.toml", second = jobs / "metric/second.toml";
  std::string text = bytes_of(job);
  text.replace(text.find("quantity = 6"), 12, "quantity = 2");  // few enough for both to find room in one bath
  put_bytes(job, text);
  text.replace(text.find("TA-0147"), 7, "TA-0148");
  put_bytes(second, text);
  const auto alone = run_program({"explain", second, "baths[].pour_ml"});
  CHECK(run_program({"compile", job, second, "--only", "plan", "--out", jobs / "out"}).exit == Exit::done);
  const auto plan = nlohmann::json::parse(bytes_of(jobs / "out/TA-0148/plan.json"));
  const auto& baths = plan.at("baths");
  REQUIRE(baths.size() == 1);
  const auto explained = run_program({"explain", second, "baths[].pour_ml"}).out;
  CAPTURE(explained);
  const double liters = std::ceil(baths.at(0).at("pour_ml").get<double>() / 10) / 100;  // up
  CHECK(explained.find(fmt::format("baths[].pour_ml: pour\n  baths[].pour_ml = {:.2f} l\n", liters)) !=
        std::string::npos);
  CHECK(explained != alone.out);
}

TEST_CASE("check leaves orders in the baths in which they were printed, as the next compile does") {
  const SampleJobs jobs;
  const std::string job = jobs / "metric/burnisher.toml", second = jobs / "metric/second.toml";
  std::string text = bytes_of(job);
  text.replace(text.find("TA-0147"), 7, "TA-0148");
  text.replace(text.find("quantity = 6"), 12, "quantity = 14");
  put_bytes(second, text);
  const std::vector<std::string> compile{"compile", job, second, "--only", "plan", "--out", jobs / "out"};
  CHECK(run_program(compile).exit == Exit::done);
  const auto again = run_program(compile);
  CHECK(again.errors.find("[load-waits-too-long]") != std::string::npos);  // of one of the baths
  CHECK(run_program({"check", job, second}).errors == again.errors);
}

TEST_CASE("check writes nothing and counts") {
  const SampleJobs jobs;
  const auto run = run_program({"check", jobs / "inch/knob.toml", jobs / "inch/file-handle.toml"});
  CHECK(run.exit == Exit::done);
  CAPTURE(run.errors);
  CHECK(run.out == "2 of 2 jobs can be compiled; 0 errors, 1 warning\n");
  CHECK_FALSE(std::filesystem::exists(jobs / "inch/shop.register"));
  CHECK(run_program({"check", "--quiet", jobs / "inch/knob.toml"}).out.empty());
}

TEST_CASE("the mistakes sample is answered with every one of its mistakes in one run") {
  const SampleJobs jobs;
  const auto run = run_program({"check", jobs / "mistakes/job.toml"});
  CHECK(run.exit == Exit::mistakes);
  std::size_t errors = 0;
  for (auto at = run.errors.find(": error: "); at != std::string::npos; at = run.errors.find(": error: ", at + 1))
    ++errors;
  CHECK(errors >= 17);
}

TEST_CASE("nothing is said in a pipe but what is wrong") {
  const SampleJobs jobs;
  const auto run = run_tool(shell_quoted(BLANKWRIGHT_PROGRAM) + " compile --quiet --out " + shell_quoted(jobs.out()) +
                            " " + shell_quoted(jobs / "inch/knob.toml"));
  CHECK(run.status == 0);
  CHECK(run.out.empty());
  CHECK(run.err.find('\x1b') == std::string::npos);
  CHECK(run.err.find('\r') == std::string::npos);
}

TEST_CASE("what an option takes is told once, behind its name") {
  const auto told = [](std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), {"compile", "job.toml"});
    const ProgramRun ran = run_program(std::move(arguments));
    CHECK(ran.exit == Exit::command_line);
    return ran.errors.substr(0, ran.errors.find('\n'));
  };
  CHECK(told({"--again", "x"}) == "blankwright: --again: takes \"last\" or the number of an issue");
  CHECK(told({"--out", ""}) == "blankwright: --out: needs a folder");
  CHECK(told({"--pages", ""}) == "blankwright: --pages: needs a person, a sheet or a card");
}
