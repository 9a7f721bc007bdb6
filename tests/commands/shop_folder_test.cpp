// Two orders of one shop whose jobs lie in a folder, and what becomes of the plan where one of their files is wrong
// or gone. What has to be so is the shop's own: an order that is under way keeps its times whatever its file says.

#include <doctest/doctest.h>

#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "bench_of_work.h"

using namespace blankwright;

namespace {

using Json = nlohmann::json;

/// TA-0147 and TA-0148, of the same wood and resin, compiled at noon of 3 May 2027 UTC.
struct Folder {
  SampleJobs jobs;
  std::string shop = jobs / "metric/shop.toml", orders = jobs / "metric/orders/";
  std::string first = orders + "burnisher.toml", second = orders + "second.toml";

  Folder() {
    std::filesystem::create_directories(orders);
    std::filesystem::rename(jobs / "metric/burnisher.toml", first);
    std::string text = bytes_of(first);
    text.replace(text.find("TA-0147"), 7, "TA-0148");
    put_bytes(second, text);
    put_bytes(shop, "jobs = \"orders\"\n" + bytes_of(shop));
    const ProgramRun compiled = compile({first, second});
    REQUIRE_MESSAGE(compiled.exit == Exit::done, compiled.errors);
  }

  ProgramRun compile(std::vector<std::string> arguments, int minutes = 0) const {
    arguments.insert(arguments.begin(), {"compile", "--shop", shop, "--out", jobs.out()});
    return run_program(std::move(arguments), BenchOfWork::moment(0) + 60 * minutes);
  }

  /// When each operation of the first order is planned.
  Json times() const { return Json::parse(bytes_of(jobs.out() + "/TA-0147/plan.json"))["schedule"]; }
};

}  // namespace

TEST_CASE("a job of the folder that is no TOML is told with its place, and its order holds its times") {
  const Folder folder;
  const Json before = folder.times();
  put_bytes(folder.second, bytes_of(folder.second) + "quantity = oops\n");
  const ProgramRun compiled = folder.compile({});
  CHECK(compiled.exit == Exit::mistakes);
  CHECK(has(compiled.errors, "second.toml:"));
  CHECK(has(compiled.errors, "[not-toml]"));
  CHECK(has(compiled.errors, "order TA-0148 is open, and no job file in "));
  CHECK(has(compiled.errors, "that can be read has its id"));
  CHECK(has(compiled.out, "1 of 2 orders compiled"));
  CHECK(folder.times() == before);
}

TEST_CASE("a job of the folder without an id is told") {
  const Folder folder;
  std::string text = bytes_of(folder.second);
  put_bytes(folder.second, text.replace(text.find("id = \"TA-0148\""), 14, "id = 148"));
  const ProgramRun compiled = folder.compile({});
  CHECK(compiled.exit == Exit::mistakes);
  CHECK(has(compiled.errors, "second.toml:"));
  CHECK(has(compiled.errors, "[wrong-type]"));
}

TEST_CASE("an order whose job is there twice is printed from neither, and holds its times") {
  const Folder folder;
  const Json before = folder.times();
  put_bytes(folder.orders + "copy.toml", bytes_of(folder.second));
  const ProgramRun compiled = folder.compile({});
  CHECK(compiled.exit == Exit::mistakes);
  CHECK(has(compiled.errors, "[same-order-id]"));
  CHECK(has(compiled.out, "1 of 3 orders compiled"));
  CHECK(folder.times() == before);
}

TEST_CASE("an order whose job cannot be planned any more holds its times as it was compiled") {
  const Folder folder;
  const Json before = folder.times();
  std::string text = bytes_of(folder.second);
  put_bytes(folder.second, text.replace(text.find("Clear K"), 7, "Clear L"));
  const ProgramRun compiled = folder.compile({});
  CHECK(compiled.exit == Exit::mistakes);
  CHECK_FALSE(has(compiled.errors, "[open-order-not-planned]"));
  CHECK(folder.times() == before);
}

TEST_CASE("a print is made again by its order's id, also where the job's file is gone") {
  const Folder folder;
  const std::string traveller = folder.jobs.out() + "/TA-0148/traveller.pdf", bytes = bytes_of(traveller);
  std::filesystem::remove(folder.second);
  std::filesystem::remove(traveller);
  const ProgramRun printed = folder.compile({"--again", "last", "TA-0148"}, 60);
  REQUIRE_MESSAGE(printed.exit == Exit::done, printed.errors);
  CHECK(bytes_of(traveller) == bytes);
  const ProgramRun gone = folder.compile({"--again", "last", folder.second});
  CHECK(gone.exit == Exit::mistakes);
  CHECK(has(gone.errors, "is neither a job file nor an order of "));
  const ProgramRun elsewhere = run_program({"compile", "--again", "last", folder.first});
  CHECK(elsewhere.exit == Exit::mistakes);
  CHECK(has(elsewhere.errors, "there is no register "));
  CHECK(has(elsewhere.errors, "name the shop file with --shop"));
  put_bytes(folder.first, "id = \n");
  CHECK(has(folder.compile({"--again", "last", folder.first}).errors, "[not-toml]"));
  CHECK(has(folder.compile({"--again", "7", "TA-0147"}).errors, "issue 7 of order TA-0147 was never printed"));
}

namespace {

/// What is told of an order: from its line to the next one's.
std::string told_of(const std::string& out, const std::string& order) {
  const auto from = out.find(order + ": ");
  if (from == std::string::npos) return {};
  auto to = out.find('\n', from);
  while (to != std::string::npos && out.compare(to + 1, 1, " ") == 0) to = out.find('\n', to + 1);
  return out.substr(from, to - from);
}

/// The line that names pages.
std::string no_longer_right(const std::string& told) {
  const auto from = told.find("  throw away: ");
  return from == std::string::npos ? std::string{} : told.substr(from, told.find('\n', from) - from);
}

}  // namespace

TEST_CASE("a compile names the printed pages that its order's change makes wrong, as one of the changed ones does") {
  const Folder folder, other;
  for (const Folder* one : {&folder, &other}) change(one->second, "drawing = \"", "drawing = \"X");
  const std::string out = folder.compile({}).out;
  const std::string told = no_longer_right(told_of(out, "TA-0148"));
  CHECK(has(told, "Turner"));
  CHECK(no_longer_right(told_of(out, "TA-0147")).empty());
  CHECK(told == no_longer_right(told_of(other.compile({"--changed"}).out, "TA-0148")));
  CHECK(no_longer_right(folder.compile({}).out).empty());
}

TEST_CASE("what moved an order is an entry of its own or the time that passed, and no entry of what moved nothing") {
  const Folder folder;
  const auto enter = [&](const std::string& board) {
    const ProgramRun ran =
        run_program({"enter", "board", "board=" + board, "--shop", folder.shop}, BenchOfWork::moment(1));
    REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
  };
  enter("Z9");
  const auto told = [&] { return told_of(folder.compile({"--draft"}, 240).out, "TA-0147"); };
  CHECK(has(told(), "; moved by: the time that passed; "));
  enter("T4");
  CHECK(has(told(), "; moved by: entry 22, the time that passed; "));
}

TEST_CASE("a page with times that another order has moved is asked about and told as wrong") {
  const Folder folder;
  const auto page = [&] {
    return run_program({"ask", "page", "TA-0147/1", "--as", "csv", "--shop", folder.shop}, BenchOfWork::moment(0))
        .out;
  };
  const auto bench = [&] {
    return run_program({"bench", "--shop", folder.shop}, BenchOfWork::moment(0), "TA-0147/1\nend\n").out;
  };
  CHECK_FALSE(has(page(), "times have moved"));
  CHECK(has(bench(), "TA-0147/1 is the newest issue\n"));
  std::string text = bytes_of(folder.first);
  text.replace(text.find("TA-0147"), 7, "TA-0149");
  text.replace(text.find("2027-06-18"), 10, "2027-05-10");
  put_bytes(folder.orders + "third.toml", text);
  static_cast<void>(folder.compile({folder.orders + "third.toml"}));
  CHECK(has(page(), "Routing,no: times have moved,"));
  CHECK(has(page(), "Turner"));
  const std::string heard = bench();
  CHECK(has(heard, "NO TA-0147/1 is the newest issue; times have moved on "));
  CHECK(has(heard, "(Routing)"));
}

TEST_CASE("an order that another one moved, whose job was compiled otherwise since, is told with that one's name") {
  const Folder folder;
  change(folder.second, "2027-06-18", "2027-05-10");
  const std::string told = told_of(folder.compile({folder.second, "--only", "plan"}).out, "TA-0147");
  CHECK(has(told, "; moved by: order TA-0148; "));
}

TEST_CASE("an order that goes before others once it is open is told with what it moves of them") {
  const Folder folder;
  std::string text = bytes_of(folder.first);
  text.replace(text.find("TA-0147"), 7, "TA-0149");
  text.replace(text.find("2027-06-18"), 10, "2027-05-10");
  put_bytes(folder.orders + "third.toml", text);
  const std::string told = folder.compile({folder.orders + "third.toml"}).out;
  const std::string later = folder.compile({"--draft"}).out;
  for (const std::string order : {"TA-0147", "TA-0148"}) {
    CAPTURE(order);
    const std::string moved = told_of(later, order);
    const auto from = moved.find("  since issue 1 of ");
    REQUIRE(from != std::string::npos);
    const std::string line = moved.substr(from, moved.find("; moved by", from) - from);
    CHECK_MESSAGE(has(told_of(told, order), line), told);
    CHECK(has(told, order + ": not compiled, and moved\n"));
    CHECK(has(told_of(told, order), "; moved by: order TA-0149; "));
    CHECK(has(moved, "; moved by: order TA-0149; "));
  }
  CHECK(has(told_of(later, "TA-0149"), "; moved by: its own turn among the open orders; "));
}

TEST_CASE("an order that another one makes late is told with its due date") {
  const Folder folder;
  for (const std::string& job : {folder.first, folder.second}) change(job, "2027-06-18", "2027-05-18");
  static_cast<void>(folder.compile({folder.first, folder.second}));
  std::string text = bytes_of(folder.first);
  text.replace(text.find("TA-0147"), 7, "TA-0149");
  text.replace(text.find("2027-05-18"), 10, "2027-05-10");
  put_bytes(folder.orders + "third.toml", text);
  const std::string told = folder.compile({folder.orders + "third.toml"}).out;
  CHECK_MESSAGE(has(told, ", late now: due 2027-05-18; moved by: order TA-0149; "), told);
}
