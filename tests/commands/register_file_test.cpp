// What the program does with a register whose file is damaged.

#include <doctest/doctest.h>

#include <chrono>
#include <string>
#include <vector>

#include "program.h"
#include "register/sqlite.h"

using namespace blankwright;

namespace {

/// The metric sample; its first blanks are NG7-32GX and JF2-T4JV.
struct Workshop {
  SampleJobs jobs;

  std::string file() const { return jobs / "metric/shop.register"; }
  ProgramRun compile() const {
    return run_program({"compile", "--only", "plan", "--out", jobs.out(), jobs / "metric/burnisher.toml"});
  }
  ProgramRun run(std::vector<std::string> arguments) const {
    arguments.insert(arguments.end(), {"--shop", jobs / "metric/shop.toml"});
    return run_program(std::move(arguments));
  }
};

}  // namespace

TEST_CASE("whichever bit of an index is flipped, no question is answered wrongly") {
  const Workshop w;
  REQUIRE(w.compile().exit == Exit::done);
  std::string table = "kind,blank,mass\n";
  for (int k = 0; k < 40; ++k) table += "weighed,NG7-32GX,131 g\nweighed,JF2-T4JV,130 g\n";
  put_bytes(w.jobs / "weighed.csv", table);
  REQUIRE(w.run({"enter", "--csv", w.jobs / "weighed.csv"}).exit == Exit::done);
  const auto ask = [&] { return w.run({"ask", "blank", "NG7-32GX"}); };
  const ProgramRun whole = ask();
  REQUIRE(whole.exit == Exit::done);

  const auto number = [&](const std::string& sql) {
    return static_cast<std::size_t>(Database{w.file(), Database::Mode::read, std::chrono::seconds{1}}.number(sql));
  };
  const std::size_t size = number("PRAGMA page_size");
  const std::size_t page = number("SELECT rootpage FROM sqlite_schema WHERE name = 'entries_of_blank'");
  const std::string sound = bytes_of(w.file());
  int found = 0;
  for (std::size_t at = (page - 1) * size; at < page * size; at += 17) {
    CAPTURE(at);
    std::string flipped = sound;
    flipped.at(at) = static_cast<char>(flipped.at(at) ^ 1);
    put_bytes(w.file(), flipped);
    const ProgramRun ran = ask();
    if (ran.exit == Exit::done) {
      CHECK(ran.out == whole.out);  // a byte that nothing stands in
    } else {
      CHECK(ran.exit == Exit::world);
      CHECK(ran.errors.find("the register is damaged") != std::string::npos);
      ++found;
    }
  }
  CHECK(found >= 20);
}
