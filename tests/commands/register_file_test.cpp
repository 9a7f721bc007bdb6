// What the program does with a register whose file is damaged, gone, or older than the sheets that are out.

#include <doctest/doctest.h>

#include <chrono>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include "program.h"
#include "register/database.h"
#include "register/register.h"

using namespace blankwright;

namespace {

constexpr std::int64_t noon = 1809345600;  // 2027-05-03T12:00:00Z

/// The metric sample; its register's series begins with NG7-32GX, as its shop file names it.
struct Workshop {
  SampleJobs jobs;

  std::string shop() const { return jobs / "metric/shop.toml"; }
  std::string file() const { return jobs / "metric/shop.register"; }
  std::string table(const std::string& order) const { return jobs.out() + "/" + order + "/blanks.csv"; }

  /// Takes the series out of the shop file.
  void name_none() const {
    const std::string named = "[register]\nseries = \"NG7-32GX\"\n";
    std::string text = bytes_of(shop());
    REQUIRE(text.find(named) != std::string::npos);
    put_bytes(shop(), text.erase(text.find(named), named.size()));
  }
  /// A job of its own for another order.
  std::string job(const std::string& order) const {
    std::string text = bytes_of(jobs / "metric/burnisher.toml");
    text.replace(text.find("TA-0147"), 7, order);
    put_bytes(jobs / ("metric/" + order + ".toml"), text);
    return jobs / ("metric/" + order + ".toml");
  }
  ProgramRun compile(const std::string& order = "TA-0147", const std::vector<std::string>& more = {},
                     std::uint32_t drawn = 0) const {
    std::vector<std::string> arguments{"compile", "--only", "plan,blanks", "--out", jobs.out(), job(order)};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run_program(std::move(arguments), noon, {}, drawn);
  }
  ProgramRun run(std::vector<std::string> arguments) const {
    arguments.insert(arguments.end(), {"--shop", shop()});
    return run_program(std::move(arguments), noon);
  }
  /// The series as a new register's announcement tells it; empty where none was made.
  static std::string announced(const ProgramRun& ran) {
    const std::string before = "a new register, whose IDs begin with ";
    const auto at = ran.errors.find(before);
    return at == std::string::npos ? "" : ran.errors.substr(at + before.size(), 8);
  }
};

/// What the program says where the output folder has IDs that the register does not know; nothing else is done.
void check_refused(const Workshop& w, const std::string& order, const std::string& says) {
  const std::string before = std::filesystem::exists(w.file()) ? bytes_of(w.file()) : "absent";
  const ProgramRun ran = w.compile(order, {}, 77);
  CAPTURE(ran.errors);
  CHECK(ran.exit == Exit::world);
  CHECK(ran.errors.find(w.file() + ": " + says) != std::string::npos);
  CHECK(ran.errors.find("restore the newest copy of the register, or name another folder with --out") !=
        std::string::npos);
  CHECK(Workshop::announced(ran).empty());
  CHECK((std::filesystem::exists(w.file()) ? bytes_of(w.file()) : "absent") == before);
}

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

TEST_CASE("a new register draws its series, is announced by the run that makes it, and goes on from there") {
  const Workshop w;
  w.name_none();
  const ProgramRun first = w.compile("TA-0147", {"--quiet"}, 51'000'000);
  REQUIRE(first.exit == Exit::done);
  CHECK(first.out.empty());
  CHECK(first.errors.find("blankwright: " + w.file() +
                          ": a new register, whose IDs begin with FSB-HV9G; it alone "
                          "knows whose a blank is: keep a copy\n") != std::string::npos);
  // nth(51,000,000) and the next, worked out from the rule in blank_id.h by another program.
  const std::string table = bytes_of(w.table("TA-0147"));
  CHECK(table.find("\nFSB-HV9G,TA-0147,1,") != std::string::npos);
  CHECK(table.find("\nTKN-6CDC,TA-0147,2,") != std::string::npos);

  const ProgramRun second = w.compile("TA-0148", {}, 104'000'000);  // nothing is drawn any more
  CHECK(second.exit == Exit::done);
  CHECK(Workshop::announced(second).empty());
  CHECK(Register::open_to_read(w.file())->series().shown() == "FSB-HV9G");
  const std::string other = bytes_of(w.table("TA-0148"));
  CHECK(other.find("\n" + BlankId::nth(51'000'010).shown() + ",TA-0148,1,") != std::string::npos);
}

TEST_CASE("the last IDs of all are followed by the first") {
  const Workshop w;
  w.name_none();
  REQUIRE(w.compile("TA-0147", {}, 148'035'888).exit == Exit::done);  // 23^6 - 1
  const std::string table = bytes_of(w.table("TA-0147"));
  CHECK(table.find("\n89J-6NBJ,TA-0147,1,") != std::string::npos);
  CHECK(table.find("\nNG7-32GX,TA-0147,2,") != std::string::npos);
}

TEST_CASE("the program itself draws another series for each register") {
  std::set<std::string> series;
  for (int k = 0; k < 3; ++k) {
    const Workshop w;
    w.name_none();
    const auto ran = run_tool(shell_quoted(BLANKWRIGHT_PROGRAM) + " compile --only plan --out " +
                              shell_quoted(w.jobs.out()) + " " + shell_quoted(w.jobs / "metric/burnisher.toml"));
    REQUIRE(ran.status == 0);
    series.insert(Register::open_to_read(w.file())->series().shown());
  }
  CHECK(series.size() == 3);  // by chance fewer once in fifty million times
}

TEST_CASE("the three sample shops share no ID") {
  std::set<std::string> series;
  for (const char* shop : {"metric", "inch", "german"}) {
    const std::string text = bytes_of(std::string{BLANKWRIGHT_SOURCE_DIR} + "/sample-jobs/" + shop + "/shop.toml");
    const auto at = text.find("series = \"");
    REQUIRE(at != std::string::npos);
    series.insert(text.substr(at, 18));
  }
  CHECK(series.size() == 3);
}

TEST_CASE("a register that is gone gives out no ID beside those that lie in the output folder") {
  const Workshop w;
  bool named = true;
  SUBCASE("with a series that the shop file names") {}
  SUBCASE("with a series that would be drawn") { named = false; }
  if (!named) w.name_none();
  REQUIRE(w.compile("TA-0147").exit == Exit::done);
  REQUIRE(w.compile("TA-0148").exit == Exit::done);
  const std::string sound = bytes_of(w.file());
  const std::string table = bytes_of(w.table("TA-0147"));
  const auto of_absent =
      "there is no register here, yet " + w.table("TA-0147") + " has 10 IDs, of one that is gone or of another shop;";

  std::filesystem::remove(w.file());
  check_refused(w, "TA-0147", of_absent);
  check_refused(w, "TA-0149", of_absent);  // a new order too: its folder lies beside the others
  put_bytes(w.file(), "");
  check_refused(w, "TA-0149", of_absent);
  CHECK(bytes_of(w.table("TA-0147")) == table);
  CHECK_FALSE(std::filesystem::exists(w.table("TA-0149")));

  put_bytes(w.file(), sound);
  CHECK(w.compile("TA-0149").exit == Exit::done);
  std::filesystem::remove(w.file());
  CHECK(w.compile("TA-0149", {"--draft"}).exit == Exit::done);  // gives out none
}

TEST_CASE("a register restored from an older copy gives out no ID that is on other wood") {
  const Workshop w;
  REQUIRE(w.compile("TA-0147").exit == Exit::done);
  const std::string older = bytes_of(w.file());
  REQUIRE(w.compile("TA-0148").exit == Exit::done);
  REQUIRE(w.compile("TA-0149").exit == Exit::done);
  const std::string newest = bytes_of(w.file());
  REQUIRE(w.run({"export", w.jobs / "all.jsonl"}).exit == Exit::done);
  const std::string of_older = "this register never issued any of 10 IDs in " + w.table("TA-0148") + " (" +
                               BlankId::nth(10).shown() + ", …), nor those in 1 other table;";
  put_bytes(w.file(), older);

  SUBCASE("a new order") { check_refused(w, "TA-0150", of_older); }
  SUBCASE("an order that it has, whose table would be written anew") { check_refused(w, "TA-0147", of_older); }
  SUBCASE("an order's folder was given another name") {
    std::filesystem::rename(w.jobs.out() + "/TA-0148", w.jobs.out() + "/done");
    std::filesystem::remove_all(w.jobs.out() + "/TA-0149");
    check_refused(w, "TA-0150", "this register never issued any of 10 IDs in " + w.table("done"));
  }
  SUBCASE("a spreadsheet wrote the table") {
    std::filesystem::remove_all(w.jobs.out() + "/TA-0149");
    put_bytes(w.table("TA-0148"), "\xEF\xBB\xBF\"blank\";\"order\"\r\n\"NG7-32GX\";\"TA-0148\"\r\n\r\n\"" +
                                      BlankId::nth(12).shown() + "\";\"TA-0148\"\r\nno ID;x");
    check_refused(
        w, "TA-0150",
        "this register never issued 1 of 2 IDs in " + w.table("TA-0148") + " (" + BlankId::nth(12).shown() + ");");
  }
  SUBCASE("the newest one is put back") {
    put_bytes(w.file(), newest);
    CHECK(w.compile("TA-0150").exit == Exit::done);
  }
  SUBCASE("a fresh one is filled with what was exported") {
    std::filesystem::remove(w.file());
    REQUIRE(w.run({"import", w.jobs / "all.jsonl"}).exit == Exit::done);
    CHECK(w.compile("TA-0150").exit == Exit::done);
    CHECK(bytes_of(w.table("TA-0150")).find("\n" + BlankId::nth(30).shown() + ",") != std::string::npos);
  }
  SUBCASE("other places are named for what comes out") {
    CHECK(run_program({"compile", "--only", "plan", "--out", w.jobs / "elsewhere", w.job("TA-0150")}).exit ==
          Exit::done);
  }
}

TEST_CASE("a table of blanks that cannot be read is told, and nothing is issued") {
  const Workshop w;
  std::filesystem::create_directories(w.table("TA-0001"));  // a folder of that name
  const ProgramRun ran = w.compile();
  CHECK(ran.exit == Exit::world);
  CHECK(ran.errors.find(w.table("TA-0001") + ": is a folder") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(w.file()));
}

TEST_CASE("a shop file that names another series than its register has is refused with both named") {
  const Workshop w;
  REQUIRE(w.compile().exit == Exit::done);
  REQUIRE(w.run({"export", w.jobs / "all.jsonl"}).exit == Exit::done);
  const std::string reg = bytes_of(w.file());
  std::string text = bytes_of(w.shop());
  text.replace(text.find("NG7-32GX"), 8, "k7t 4x54");
  put_bytes(w.shop(), text);
  const auto refused = [&](const ProgramRun& ran) {
    CAPTURE(ran.errors);
    CHECK(ran.exit == Exit::mistakes);
    CHECK(ran.errors.find("error: `series`: the register's IDs begin with NG7-32GX, and not with K7T-4X54 "
                          "[series-differs]\n") != std::string::npos);
    CHECK(bytes_of(w.file()) == reg);
  };
  refused(w.compile());
  refused(w.run({"ask", "stock"}));
  refused(w.run({"enter", "weighed", "NG7-32GX", "mass=131 g"}));
  refused(w.run({"export", w.jobs / "again.jsonl"}));
  std::filesystem::rename(w.file(), w.jobs / "kept");
  std::filesystem::remove_all(w.jobs.out());
  const ProgramRun filled = w.run({"import", w.jobs / "all.jsonl"});
  CHECK(filled.exit == Exit::mistakes);
  CHECK(filled.errors.find("[series-differs]") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(w.file()));
  // What is named is what a new register begins with.
  CHECK(Workshop::announced(w.compile()) == "K7T-4X54");
}

TEST_CASE("only compile and import make a register") {
  const Workshop w;
  for (const std::vector<std::string>& arguments :
       {std::vector<std::string>{"enter", "weighed", "NG7-32GX", "mass=131 g"}, {"bench"}, {"ask", "stock"}}) {
    const ProgramRun ran = w.run(arguments);
    CHECK(ran.exit == Exit::mistakes);
    CHECK(ran.errors.ends_with(w.file() + ": there is no register yet; compile makes one\n"));
    CHECK_FALSE(std::filesystem::exists(w.file()));
  }
}
