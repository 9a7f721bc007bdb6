#include "register/register.h"

#include <doctest/doctest.h>

#include <unistd.h>

#include <array>
#include <chrono>
#include <filesystem>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <thread>
#include <vector>

#include "../child_process.h"
#include "../entries/entries_for_test.h"
#include "../temporary_folder.h"
#include "../test_server.h"
#include "diagnose/failure.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

constexpr std::int64_t monday = 1'700'000'000;
constexpr Instant at_monday{std::chrono::seconds{monday}};
constexpr std::int64_t tuesday = monday + 86'400;

/// The job's text has to live as long as the answer.
OrderToIssue order(const std::string& id, int pieces, std::string_view job = "format = 1\n") {
  return {id, pieces, {job, "shop", "template", "0.1.0"}, {}};
}

std::vector<std::vector<BlankId>> issue(Register& reg, const std::vector<OrderToIssue>& orders,
                                        std::int64_t at = monday) {
  auto issued = reg.issue(orders, at, Instant{std::chrono::seconds{at}});
  REQUIRE(issued.has_value());
  return *issued;
}

std::vector<std::string> shown(const std::vector<BlankId>& blanks) {
  std::vector<std::string> out;
  for (const BlankId& blank : blanks) out.push_back(blank.shown());
  return out;
}

std::string failure_of(const std::function<void()>& work) {
  try {
    work();
  } catch (const WorldError& error) {
    return error.what();
  }
  return {};
}

Database direct(const RegisterPlace& place) { return Database{place, Database::Mode::write, 60s}; }

}  // namespace

TEST_CASE_TEMPLATE("the first compile of an order gives it blanks and a second one keeps them", At, InFile,
                   OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "register");
  std::vector<std::string> first;
  {
    Register reg{place, series_0};
    CHECK(reg.last_entry() == 0);
    CHECK(reg.issued_to("0147").empty());
    const auto issued = issue(reg, {order("0147", 3)});
    first = shown(issued.at(0));
    // The first IDs of the contract in blank_id.h.
    CHECK(first == std::vector<std::string>{"NG7-32GX", "JF2-T4JV", "SG8-CRCT"});
    CHECK(reg.last_entry() == 3);
  }
  Register reg{place, series_0};
  CHECK(shown(reg.issued_to("0147")) == first);
  CHECK(shown(issue(reg, {order("0147", 3)}).at(0)) == first);
  CHECK(reg.last_entry() == 3);
  CHECK(folder.size() == (place.is_on_server ? 0U : 1U));  // one file that can be copied, nothing beside it
}

TEST_CASE_TEMPLATE("an order that needs more blanks gets more, and one that needs fewer keeps what it has", At,
                   InFile, OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "register");
  Register reg{place, series_0};
  issue(reg, {order("0147", 2)});
  issue(reg, {order("0148", 1)});
  const auto more = shown(issue(reg, {order("0147", 4)}).at(0));
  CHECK(more == std::vector<std::string>{"NG7-32GX", "JF2-T4JV", "8CC-F3G3", "87R-728F"});
  CHECK(shown(issue(reg, {order("0147", 1)}).at(0)) == more);
  CHECK(reg.last_entry() == 5);
}

TEST_CASE_TEMPLATE("a register keeps the series that it began with", At, InFile, OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "register");
  const BlankId begin = BlankId::read("K7T-4X54").value();
  {
    Register reg{place, begin};
    CHECK(reg.is_new());
    CHECK(reg.series() == begin);
  }
  Register reg{place, series_0};
  CHECK_FALSE(reg.is_new());
  CHECK(reg.series() == begin);
  const auto issued = issue(reg, {order("0147", 2)}).at(0);
  CHECK(issued == std::vector{begin, begin.after(1)});
  CHECK(reg.never_issued(std::vector{begin, begin.after(2), issued.at(1), series_0}) ==
        std::vector{begin.after(2), series_0});
  CHECK(failure_of([&] { direct(place).run("UPDATE series SET first_id = 'NG732GX'"); }).find(" are never ") !=
        std::string::npos);
  CHECK(failure_of([&] { direct(place).run("DELETE FROM series"); }).find(" are never ") != std::string::npos);
}

TEST_CASE("a register is made only where its series is given") {
  const TemporaryFolder folder;
  const std::string path = folder / "register";
  CHECK_FALSE(Register::is_there(path));
  CHECK(failure_of([&] { Register{path}; }) == path + ": there is no register");
  CHECK(folder.size() == 0);
  put_bytes(path, "");
  CHECK_FALSE(Register::is_there(path));
  CHECK(failure_of([&] { Register{path}; }) == path + ": there is no register");
  CHECK(bytes_of(path).empty());
  Register{path, series_0};
  CHECK(Register::is_there(path));
  CHECK(Register{path}.last_entry() == 0);
}

TEST_CASE_TEMPLATE("several orders get their blanks in the order in which they stand on the command line", At, InFile,
                   OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "register");
  Register reg{place, series_0};
  const auto issued = issue(reg, {order("b", 2), order("a", 1), order("none", 0)});
  CHECK(shown(issued.at(0)) == std::vector<std::string>{"NG7-32GX", "JF2-T4JV"});
  CHECK(shown(issued.at(1)) == std::vector<std::string>{"SG8-CRCT"});
  CHECK(issued.at(2).empty());
}

TEST_CASE_TEMPLATE("a print is kept with its moment, its texts and its plan, once while none of these changed", At,
                   InFile, OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "register");
  Register reg{place, series_0};
  CHECK_FALSE(reg.print_of_order("0147").has_value());
  OrderToIssue wanted = order("0147", 2);
  wanted.plan = "1 2 3 Saw\n";
  issue(reg, {wanted}, monday);
  REQUIRE(reg.print_of_order("0147").has_value());
  CHECK(reg.print_of_order("0147")->print.number == 1);
  CHECK(reg.print_of_order("0147")->print.at == at_monday);
  CHECK(reg.print_of_order("0147")->plan == wanted.plan);
  issue(reg, {wanted}, monday);
  CHECK(reg.print_of_order("0147")->print.number == 1);
  SUBCASE("the plan changed") { wanted.plan = "4 5 3 Saw\n"; }
  SUBCASE("the moment is another one") {}
  SUBCASE("the job changed") { wanted.inputs.job_text = "x"; }
  SUBCASE("the shop changed") { wanted.inputs.shop_text = "x"; }
  SUBCASE("the template changed") { wanted.inputs.template_text = "x"; }
  SUBCASE("the program changed") { wanted.inputs.program_version = "x"; }
  issue(reg, {wanted}, tuesday);
  CHECK(reg.print_of_order("0147")->print.number == 2);
  CHECK(reg.print_of_order("0147", 1)->plan == "1 2 3 Saw\n");
  CHECK_FALSE(reg.print_of_order("0147", 3).has_value());
}

TEST_CASE_TEMPLATE("an order whose id differs from a stored one in case alone is refused and nothing is issued", At,
                   InFile, OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "register");
  Register reg{place, series_0};
  issue(reg, {order("Rev-B", 1)});
  CHECK(reg.other_spelling("rev-b") == "Rev-B");
  CHECK_FALSE(reg.other_spelling("Rev-B").has_value());
  const std::vector<OrderToIssue> orders{order("0148", 2), order("REV-b", 1)};
  const auto refused = reg.issue(orders, monday, at_monday);
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error().asked == "REV-b");
  CHECK(refused.error().stored == "Rev-B");
  CHECK(reg.issued_to("0148").empty());
  CHECK(reg.last_entry() == 1);
  const std::vector<OrderToIssue> both_new{order("x", 1), order("X", 1)};
  CHECK_FALSE(reg.issue(both_new, monday, at_monday).has_value());
  CHECK_THROWS_AS(static_cast<void>(reg.issue(std::vector{order("a/b", 1)}, monday, at_monday)), BrokenPromise);
}

TEST_CASE("an order's text is stored as it is, whatever it holds") {
  const TemporaryFolder folder;
  Register reg{folder / "register", series_0};
  std::string job = "'); DROP TABLE blanks; --\"' ?1 \xC3\xA9";
  job += std::string{"\0after\0", 7};
  issue(reg, {order("0147", 1, job)}, monday);
  CHECK(reg.print_of_order("0147")->job == job);
  CHECK(reg.issued_to("0147").size() == 1);
  CHECK(reg.issued_to("' OR ''='").empty());
}

TEST_CASE_TEMPLATE("what was entered can be neither changed nor removed", At, InFile, OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "register");
  Register reg{place, series_0};
  issue(reg, {order("0147", 2)});
  Database db = direct(place);
  for (const char* sql : {"DELETE FROM entries", "UPDATE entries SET at_unix_s = 0", "DELETE FROM blanks WHERE n = 1",
                          "UPDATE blanks SET order_id = 'x'"}) {
    CAPTURE(sql);
    CHECK(failure_of([&] { db.run(sql); }).find(" are never ") != std::string::npos);
  }
  CHECK(db.number(
            "SELECT count(*) FROM entries WHERE kind = 'issued' AND order_id = '0147' AND at_unix_s = 1700000000") ==
        2);
  CHECK(reg.issued_to("0147").size() == 2);
}

TEST_CASE("looking into a register neither makes nor changes a file") {
  const TemporaryFolder folder;
  const std::string path = folder / "register";
  CHECK_FALSE(Register::open_to_read(path).has_value());
  CHECK(folder.size() == 0);
  put_bytes(path, "");
  CHECK_FALSE(Register::open_to_read(path).has_value());
  CHECK(bytes_of(path).empty());

  Register{path, series_0};
  {
    Register reg{path, series_0};
    issue(reg, {order("0147", 2)});
  }
  const std::string before = bytes_of(path);
  std::optional<Register> reg = Register::open_to_read(path);
  REQUIRE(reg.has_value());
  CHECK(reg->issued_to("0147").size() == 2);
  CHECK(reg->last_entry() == 2);
  CHECK(failure_of([&] { static_cast<void>(reg->issue(std::vector{order("0148", 1)}, monday, at_monday)); }) != "");
  reg.reset();
  CHECK(bytes_of(path) == before);
  CHECK(folder.size() == 1);
}

TEST_CASE("a file that is no register of ours is refused and left as it is") {
  const TemporaryFolder folder;
  const std::string path = folder / "register";
  std::string expected;
  SUBCASE("a text") {
    put_bytes(path, std::string(5000, 'x'));
    expected = "this is not a register";
  }
  SUBCASE("the beginning of a database") {
    put_bytes(path, std::string_view{"SQLite format 3\0", 16});
    expected = "this is not a register";
  }
  SUBCASE("another program's database") {
    direct(path).run("CREATE TABLE a (b); PRAGMA user_version = 1");
    expected = "this is a database of another program, not a register";
  }
  SUBCASE("another program's database with a write-ahead log") {
    direct(path).run("PRAGMA journal_mode = WAL; CREATE TABLE a (b)");
    expected = "this is a database of another program, not a register";
  }
  SUBCASE("a newer format") {
    Register{path, series_0};
    direct(path).run("PRAGMA user_version = 7");
    expected = "this register has format 7, and this program knows formats up to 6; use the newer program";
  }
  SUBCASE("no format") {
    Register{path, series_0};
    direct(path).run("PRAGMA user_version = 0");
    expected = "the register is damaged: its format is 0";
  }
  const std::string before = bytes_of(path);
  const std::size_t files = folder.size();
  CHECK(failure_of([&] { Register{path, series_0}; }) == path + ": " + expected);
  CHECK(failure_of([&] { static_cast<void>(Register::open_to_read(path)); }) == path + ": " + expected);
  CHECK(bytes_of(path) == before);
  CHECK(folder.size() == files);
}

TEST_CASE("a damaged register is refused and left as it is") {
  const TemporaryFolder folder;
  const std::string path = folder / "register";
  {
    Register reg{path, series_0};
    for (int k = 0; k < 40; ++k) issue(reg, {order("0147-" + std::to_string(k), 20, std::string(3000, 'j'))});
  }
  std::string bytes = bytes_of(path);
  REQUIRE(bytes.size() > 100'000);
  SUBCASE("cut short") { bytes.resize(bytes.size() / 2); }
  SUBCASE("cut short within the first page") { bytes.resize(2000); }
  SUBCASE("a page overwritten") { bytes.replace(40'960, 4096, 4096, '\xFF'); }
  SUBCASE("zeros at the end, as after a crash") { bytes.replace(bytes.size() - 20'480, 20'480, 20'480, '\0'); }
  SUBCASE("the page size") { bytes.at(16) = '\x03'; }
  put_bytes(path, bytes);
  CHECK(failure_of([&] { Register{path, series_0}; }).find("the register is damaged") != std::string::npos);
  CHECK(failure_of([&] { static_cast<void>(Register::open_to_read(path)); }).find("damaged") != std::string::npos);
  CHECK(bytes_of(path) == bytes);
  CHECK(folder.size() == 1);
}

TEST_CASE("a register that stands in a wrong place is refused with the reason") {
  const TemporaryFolder folder;
  CHECK(failure_of([&] {
          Register{folder.path(), series_0};
        }) == folder.path() + ": this is a folder, not a register");
  const std::string absent = folder / "absent/register";
  CHECK(failure_of([&] { Register{absent, series_0}; }).find("No such file or directory") != std::string::npos);
  CHECK_FALSE(Register::open_to_read(absent).has_value());
  CHECK(failure_of([&] { Register{"/dev/null", series_0}; }) == "/dev/null: this is not a file");
}

TEST_CASE("where nothing can be written the register says so and can still be read") {
  const TemporaryFolder folder;
  std::filesystem::create_directory(folder / "shop");
  const std::string path = folder / "shop/register";
  {
    Register reg{path, series_0};
    issue(reg, {order("0147", 2)});
  }
  bool file_writable = false;
  SUBCASE("read-only file in a read-only folder") {}
  SUBCASE("writable file in a read-only folder") { file_writable = true; }
  std::filesystem::permissions(path, std::filesystem::perms{file_writable ? 0666U : 0444U});
  std::filesystem::permissions(folder / "shop", std::filesystem::perms{0555});
  const std::string before = bytes_of(path);
  const int result = in_child([&] {
    become_ordinary_user();
    if (Register::open_to_read(path)->issued_to("0147").size() != 2) return 1;
    const std::string failure = failure_of([&] {
      Register reg{path, series_0};
      static_cast<void>(reg.issue(std::vector{order("0148", 1)}, monday, at_monday));
    });
    return failure.starts_with(path + ": ") && failure.find("ermission") != std::string::npos ? 0 : 2;
  });
  CHECK(result == 0);
  CHECK(bytes_of(path) == before);
  std::filesystem::permissions(folder / "shop", std::filesystem::perms{0755});
}

TEST_CASE("on a full disk nothing is issued and the register stays readable") {
  const TemporaryFolder folder;
  const std::string path = folder / "register";
  {
    Register reg{path, series_0};
    issue(reg, {order("0147", 2)});
  }
  const std::size_t size = bytes_of(path).size();
  const int result = in_child([&] {
    limit_file_size(size + 8192);
    Register reg{path, series_0};
    const std::string job(50'000, 'x');
    const std::vector<OrderToIssue> orders{order("0148", 5, job), order("0149", 5, job)};
    if (!failure_of([&] { static_cast<void>(reg.issue(orders, monday, at_monday)); }).starts_with(path + ": "))
      return 1;
    if (reg.issued_to("0147").size() != 2 || !reg.issued_to("0148").empty()) return 2;
    return reg.issue(std::vector{order("0150", 1)}, monday, at_monday).has_value() ? 0 : 3;  // a small one still fits
  });
  CHECK(result == 0);
  Register reg{path, series_0};
  CHECK(reg.issued_to("0147").size() == 2);
  CHECK(reg.issued_to("0148").empty());
  CHECK(shown(reg.issued_to("0150")) == std::vector<std::string>{"SG8-CRCT"});
}

TEST_CASE_TEMPLATE("two runs at once wait for each other and no blank is given twice", At, InFile, OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "register");  // not there yet: both also make it
  const auto work = [&](const std::string& name) {
    return start_child([&, name] {
      for (int k = 0; k < 25; ++k) {
        Register reg{place, series_0};
        const std::string id = name + std::to_string(k);
        if (!reg.issue(std::vector{order(id, 1), order(id + "-2", 2)}, monday, at_monday)) return 1;
      }
      return 0;
    });
  };
  const pid_t one = work("a");
  const pid_t other = work("b");
  CHECK(end_of(one) == 0);
  CHECK(end_of(other) == 0);
  Register reg{place, series_0};
  std::set<std::string> all;
  for (const std::string name : {"a", "b"}) {
    for (int k = 0; k < 25; ++k) {
      const std::string id = name + std::to_string(k);
      for (const std::string& blank : shown(reg.issued_to(id))) all.insert(blank);
      for (const std::string& blank : shown(reg.issued_to(id + "-2"))) all.insert(blank);
    }
  }
  CHECK(all.size() == 150);
  CHECK(reg.last_entry() == 150);
}

TEST_CASE("what is asked as it stands is of one moment, and who adds waits for its end") {
  const TemporaryFolder folder;
  const std::string path = folder / "shop.register";
  Register writer{path, series_0, 10ms};
  issue(writer, {order("A", 1)});
  Register asked = *Register::open_to_read(path);
  {
    const auto one_moment = asked.as_it_stands();
    CHECK(asked.issued_to("A").size() == 1);
    CHECK_FALSE(failure_of([&] { issue(writer, {order("A", 2)}); }).empty());
    CHECK(asked.print_of_order("A", std::nullopt).has_value());  // a moment in a moment is part of it
    CHECK_FALSE(failure_of([&] { issue(writer, {order("A", 2)}); }).empty());
  }
  issue(writer, {order("A", 2)});
  CHECK(asked.issued_to("A").size() == 2);
}

TEST_CASE_TEMPLATE("a run waits for another that is writing, but not for ever", At, InFile, OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "register");
  Register reg{place, series_0};
  Register impatient{place, series_0, 20ms};
  Database other = direct(place);
  {
    Transaction writing{other};
    other.run("INSERT INTO texts VALUES (1, '', 0)");
    const std::string failure =
        failure_of([&] { static_cast<void>(impatient.issue(std::vector{order("0147", 1)}, monday, at_monday)); });
    CHECK(failure == place.name + ": it is being written to by another run, which does not end");
    CHECK(Register::open_to_read(place, 20ms)->last_entry() == 0);  // questions can be asked meanwhile
    std::thread ends{[&] {
      std::this_thread::sleep_for(300ms);
      writing.commit();
    }};
    CHECK(issue(reg, {order("0147", 1)}).at(0).size() == 1);
    ends.join();
  }
}

TEST_CASE_TEMPLATE("a run killed at any moment loses no blank that it had answered", At, InFile, OnServer) {
  const TemporaryFolder folder;
  const RegisterPlace place = At::place(folder, "register");
  int answered = 0;
  for (int round = 0; round < 20; ++round) {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = start_child([&] {
      Register reg{place, series_0};
      for (int k = 0;; ++k) {
        const std::string id = std::to_string(round) + "-" + std::to_string(k);
        if (!reg.issue(std::vector{order(id, 2, std::string(20'000, 'j'))}, monday, at_monday)) return 1;
        if (::write(ends[1], "+", 1) != 1) return 2;
      }
    });
    ::close(ends[1]);
    std::this_thread::sleep_for(std::chrono::milliseconds{7 * round + 5});
    ::kill(child, SIGKILL);
    CHECK(end_of(child) == -1);
    Register reg{place, series_0};
    char one = 0;
    for (int k = 0; ::read(ends[0], &one, 1) == 1; ++k) {
      CHECK(reg.issued_to(std::to_string(round) + "-" + std::to_string(k)).size() == 2);
      ++answered;
    }
    ::close(ends[0]);
  }
  CHECK(answered > 0);
  Database db = direct(place);
  CHECK(db.number("SELECT count(*) FROM blanks") == db.number("SELECT count(*) FROM entries"));
  CHECK(db.number("SELECT max(n) + 1 FROM blanks") == db.number("SELECT count(*) FROM blanks"));
}

TEST_CASE("a write cut short in the middle is undone by the next run that writes, and told of by one that reads") {
  const TemporaryFolder folder;
  const std::string path = folder / "register";
  {
    Register reg{path, series_0};
    issue(reg, {order("0147", 2)});
  }
  const int result = in_child([&] {
    Database db = direct(path);
    db.run("PRAGMA cache_size = 1; PRAGMA synchronous = FULL");  // so that pages go to the file before the commit
    Transaction half{db};
    for (int k = 0; k < 200; ++k) {
      Statement{db, "INSERT INTO texts (body, checksum) VALUES (?1, 0)"}.with(std::string(5000, 'x')).run();
    }
    return ::kill(::getpid(), SIGKILL);
  });
  CHECK(result == -1);
  REQUIRE(std::filesystem::exists(path + "-journal"));
  const std::string before = bytes_of(path);
  CHECK(failure_of([&] { static_cast<void>(Register::open_to_read(path)); }).find("cut short") != std::string::npos);
  CHECK(bytes_of(path) == before);

  Register reg{path, series_0};
  CHECK(reg.issued_to("0147").size() == 2);
  CHECK_FALSE(reg.other_spelling("X1").has_value());
  CHECK(Register::open_to_read(path)->last_entry() == 2);
}
