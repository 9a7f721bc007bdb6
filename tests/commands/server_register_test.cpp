// The whole program with a register on a server: the same answers as from a file, moved there and back, and benches
// that see what others enter.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <thread>
#include <vector>

#include "bench_of_work.h"
#include "cutting_proxy.h"
#include "register/register.h"
#include "test_server.h"
#include "typed_lines.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

/// A shop of the metric sample whose register stands in a file or on the server. Its days end now, since a server
/// goes by its own clock.
struct ShopOfBenches {
  SampleJobs jobs;
  std::string shop = jobs / "metric/shop.toml";
  std::string place = "shop.register";
  std::int64_t now = std::time(nullptr);

  void stands_on_server() { stands_at(TestServer::get().new_database()); }
  void stands_at(std::string database) {
    place = std::move(database);
    change(shop, "series = \"NG7-32GX\"", fmt::format("series = \"NG7-32GX\"\ndatabase = \"{}\"", place));
  }
  ProgramRun run(double hours_ago, std::vector<std::string> arguments, std::istream& in) const {
    RealFiles disk;
    const FixedClock clock{now - static_cast<std::int64_t>(3600 * hours_ago)};
    SystemChance chance;
    std::ostringstream out, errors;
    Surroundings around{disk, clock, chance, in, out, errors, {}};
    arguments.insert(arguments.begin(), "blankwright");
    arguments.insert(arguments.end(), {"--shop", shop});
    const Exit exit = blankwright::run(arguments, around);
    return {exit, out.str(), errors.str()};
  }
  ProgramRun run(double hours_ago, std::vector<std::string> arguments, const std::string& typed = {}) const {
    std::istringstream in{typed};
    return run(hours_ago, std::move(arguments), in);
  }
  ProgramRun done(double hours_ago, std::vector<std::string> arguments, const std::string& typed = {}) const {
    const ProgramRun ran = run(hours_ago, std::move(arguments), typed);
    REQUIRE_MESSAGE(ran.exit == Exit::done, (ran.errors + ran.out));
    return ran;
  }
  nlohmann::json compile(double hours_ago) const {
    done(hours_ago,
         {"compile", "--quiet", "--only", "plan,blanks", "--out", jobs.out(), jobs / "metric/burnisher.toml"});
    std::ifstream file{jobs.out() + "/TA-0147/plan.json"};
    return nlohmann::json::parse(file);
  }
  /// The first blank dried, bathed and weighed wet; how full it is, by its share of the least.
  void bathe(double share) const {
    const auto plan = compile(40);
    const double dry = plan.at("uptake").at("dry_mass_g");
    const double wet = share * plan.at("uptake").at("least_wet_mass_g").get<double>() + 2;
    const std::string blank = "NG7-32GX";
    const auto enter = [&](double hours_ago, std::vector<std::string> words) {
      words.insert(words.begin(), "enter");
      done(hours_ago, std::move(words));
    };
    enter(35, {"weighed", blank, BenchOfWork::grams(dry), "--person", "Zoë"});
    enter(32, {"weighed", blank, BenchOfWork::grams(dry)});
    enter(30, {"into-bath", blank, "bath=K2"});
    enter(29, {"vacuum-on", "bath=K2"});
    enter(28.9, {"target-reached", "bath=K2", "gauge=90 kPa"});
    enter(22.9, {"bubbling-ended", "bath=K2"});
    enter(22.8, {"released", "bath=K2"});
    enter(3, {"drained", blank});
    enter(2.9, {"weighed", blank, BenchOfWork::grams(wet)});
  }
};

/// All that can be asked, as text.
std::vector<std::string> all_answers(const ShopOfBenches& w) {
  std::vector<std::string> all;
  const std::vector<std::vector<std::string>> asked{{"ask", "blank", "NG7-32GX"},
                                                    {"ask", "blank", "JF2-T4JV"},
                                                    {"ask", "order", "TA-0147"},
                                                    {"ask", "page", "TA-0147/1"},
                                                    {"ask", "bath", "K2"},
                                                    {"ask", "daybook"},
                                                    {"ask", "stock"},
                                                    {"ask", "under-way"},
                                                    {"ask", "yield"},
                                                    {"ask", "uptake"},
                                                    {"ask", "axis"},
                                                    {"today"},
                                                    {"ask", "bath", "K3"},
                                                    {"explain", "bore.depth_mm", w.jobs / "metric/burnisher.toml"},
                                                    {"cards", "TA-0147", "--out", w.jobs / "cards.pdf"},
                                                    {"page", "--out", w.jobs / "page.html"}};
  for (const auto& question : asked) {
    const ProgramRun ran = w.run(0, question);
    all.push_back(ran.out + ran.errors);
  }
  all.push_back(bytes_of(w.jobs / "page.html"));
  return all;
}

}  // namespace

TEST_CASE("a register that is moved to a server and back answers all questions alike, and exports the same bytes") {
  ShopOfBenches w;
  w.bathe(1);
  const auto in_file = all_answers(w);
  for (const std::string& answer : in_file) CHECK(answer.size() > 20);
  const auto exported = [&](const std::string& name) {
    w.done(0, {"export", w.jobs / name});
    return bytes_of(w.jobs / name);
  };
  const std::string from_file = exported("file.jsonl");
  w.stands_on_server();
  CHECK(has(w.run(0, {"ask", "stock"}).errors, "there is no register yet; compile makes one"));
  w.done(0, {"import", w.jobs / "file.jsonl"});
  const auto on_server = all_answers(w);
  REQUIRE(in_file.size() == on_server.size());
  for (std::size_t i = 0; i < in_file.size(); ++i) CHECK(in_file.at(i) == on_server.at(i));
  CHECK(exported("server.jsonl") == from_file);
  CHECK(has(w.run(0, {"import", w.jobs / "file.jsonl"}).errors, "this register is not empty"));

  // On goes the work there: another compile, an entry, the bench; and all of it back into a file.
  w.compile(0);
  w.done(0, {"enter", "weighed", "JF2-T4JV", "mass=131 g"});
  w.done(5, {"enter", "weighed", "8CC-F3G3", "mass=131 g"});  // by a bench whose clock is five hours slow
  CHECK(Register::open_to_read(RegisterPlace::on_server(w.place))->all_entries().back().at >=
        Instant{std::chrono::seconds{w.now}});
  CHECK(has(w.done(0, {"bench"}, "weighed\nSG8-CRCT\n131\nundo\nend\n").out, "OK taken back: SG8-CRCT weighed"));
  CHECK(has(w.done(0, {"ask", "blank", "JF2-T4JV"}).out, "131.0 g"));
  const std::string later = exported("later.jsonl");
  CHECK(later.size() > from_file.size());
  change(w.shop, "database = \"" + w.place + "\"", "file = \"back.register\"");
  w.done(-0.1, {"import", w.jobs / "later.jsonl"});  // by the server's clock no later than it was entered
  CHECK(exported("back.jsonl") == later);
  CHECK(std::filesystem::exists(w.jobs / "metric/back.register"));
}

TEST_CASE("a copy of a server's database is restored as the manual tells") {
  ShopOfBenches w;
  w.bathe(1);
  w.done(0, {"export", w.jobs / "file.jsonl"});
  const std::string server = TestServer::get().new_database();
  const auto database = [&](const std::string& name) {
    TestServer::run(server, "CREATE DATABASE " + name + " ENCODING 'UTF8' TEMPLATE template0");
    return server.substr(0, server.find("dbname=")) + "dbname=" + name;
  };
  w.stands_at(database("lost"));
  w.done(0, {"import", w.jobs / "file.jsonl"});
  // The manual's two commands, with these databases in the place of service=shop.
  const std::string manual = bytes_of(BLANKWRIGHT_SOURCE_DIR "/src/install/manual/register.md");
  const auto run_shown = [&](const std::string& begins, const std::string& place) {
    const auto at = manual.find(begins);
    REQUIRE(at != std::string::npos);
    std::string line = manual.substr(at, manual.find('\n', at) - at);
    line.replace(line.find("service=shop"), 12, place);
    line.replace(line.find("shop.dump"), 9, w.jobs / "shop.dump");
    const int status = std::system((line + " 2>" + w.jobs / "told").c_str());
    REQUIRE_MESSAGE(status == 0, bytes_of(w.jobs / "told"));
  };
  run_shown("pg_dump --", w.place);
  const std::string restored = database("restored");
  run_shown("pg_restore --", restored);
  TestServer::run(server, "DROP DATABASE lost");
  CHECK(w.run(0, {"ask", "stock"}).exit == Exit::world);
  change(w.shop, w.place, restored);
  w.done(0, {"export", w.jobs / "restored.jsonl"});
  CHECK(bytes_of(w.jobs / "restored.jsonl") == bytes_of(w.jobs / "file.jsonl"));
  CHECK_THROWS(TestServer::run(restored, "DELETE FROM entries"));  // what keeps entries is restored, too
}

namespace {

std::string at_bench(const ShopOfBenches& w, std::vector<TypedLines::Line> lines) {
  TypedLines typed{std::move(lines)};
  std::istream in{&typed};
  const ProgramRun ran = w.run(0, {"bench"}, in);
  CHECK_MESSAGE(ran.exit == Exit::done, ran.errors);
  return ran.out;
}

/// The bathed shop, moved to the server.
void move_to_server(ShopOfBenches& w, double share) {
  w.bathe(share);
  w.done(0, {"export", w.jobs / "file.jsonl"});
  w.stands_on_server();
  w.done(0, {"import", w.jobs / "file.jsonl"});
}

}  // namespace

TEST_CASE("a HOLD that the office enters is at the bath's bench within two seconds") {
  ShopOfBenches w;
  move_to_server(w, 1);
  std::chrono::steady_clock::time_point entered;
  const std::string out =
      at_bench(w, {{"into-oven load=O7\n"},
                   {"load O7\n"},
                   {"NG7-32GX\n", [&] {
                      const ProgramRun office = w.done(0, {"enter", "weighed", "NG7-32GX", "mass=160 g"});
                      CHECK(has(office.out, "HOLD"));
                      entered = std::chrono::steady_clock::now();
                    }}});
  CHECK(std::chrono::steady_clock::now() - entered < 2s);
  CAPTURE(out);
  CHECK(has(out, "NO "));
  CHECK(has(out, "HOLD"));
}

TEST_CASE("a bench whose server is gone says NO, and goes on when it is back") {
  ShopOfBenches w;
  w.stands_on_server();
  w.compile(1);
  const std::string out = at_bench(w, {{"weighed\n"},
                                       {"NG7-32GX 131 g\n"},
                                       {"JF2-T4JV 131 g\n", [&] { TestServer::get().stop(); }},
                                       {"JF2-T4JV 131 g\n"},
                                       {"JF2-T4JV 132 g\n", [&] { TestServer::get().start(); }}});
  CAPTURE(out);
  CHECK(has(out, "OK NG7-32GX weighed: mass 131.0 g"));
  CHECK(has(out, "NO " + w.place + ": the server cannot be reached ("));
  CHECK(has(out, "; nothing was entered\a\nNO "));
  CHECK(has(out, "OK JF2-T4JV weighed: mass 132.0 g"));
  CHECK(std::ranges::count(out, '\n') == 6);  // one line each
  const ProgramRun gone = [&] {
    TestServer::get().stop();
    auto ran = w.run(0, {"enter", "weighed", "NG7-32GX", "mass=131 g"});
    TestServer::get().start();
    return ran;
  }();
  CHECK(gone.exit == Exit::world);
  CHECK(std::ranges::count(gone.errors, '\n') == 1);
  CHECK_FALSE(has(w.done(0, {"ask", "blank", "JF2-T4JV"}).out, "131.0 g"));
}

TEST_CASE("a line that is said again after its answer was lost is entered once, whenever the connection broke") {
  ShopOfBenches w;
  w.stands_on_server();
  const std::string direct = w.place;
  w.compile(1);
  CuttingProxy proxy{TestServer::get().folder()};
  change(w.shop, direct, proxy.instead_of(TestServer::get().folder(), direct));
  constexpr int lines = 40, step = 6;  // messages apart
  std::vector<TypedLines::Line> said{{"weighed\n"}};
  for (int k = 0; k < lines; ++k) {
    const std::string line = fmt::format("{} 131.{:02} g\n", k % 2 == 0 ? "NG7-32GX" : "JF2-T4JV", k);
    said.push_back({line, [&proxy, k] { proxy.cut_at(step * k + 1, CuttingProxy::Then::gone); }});
    said.push_back({line, [&proxy] {
                      proxy.is_back();
                      proxy.cut_at(1'000'000);
                    }});
  }
  const std::string out = at_bench(w, said);
  CAPTURE(out);
  std::map<double, int> masses;
  for (const Entry& entry : Register::open_to_read(RegisterPlace::on_server(direct))->all_entries())
    masses[std::round(1e5 * entry.number_of(Field::mass).value_or(0))] += 1;
  std::vector<std::string> answers;
  std::istringstream told{out};
  for (std::string line; std::getline(told, line);) answers.push_back(line);
  REQUIRE(answers.size() == 2 + 2 * lines);  // first the greeting, and what is answered to "weighed"
  int lost = 0, was_entered = 0, was_not = 0;
  for (int k = 0; k < lines; ++k) {
    const std::string& first = answers.at(static_cast<std::size_t>(2 + 2 * k));
    const std::string& again = answers.at(static_cast<std::size_t>(3 + 2 * k));
    CAPTURE(first);
    CAPTURE(again);
    CHECK(again.starts_with("OK "));
    const bool is_lost = has(first, "the server");
    CHECK(first.starts_with(is_lost ? "NO " : "OK "));
    CHECK(masses[13'100 + k] == (is_lost ? 1 : 2));
    lost += is_lost ? 1 : 0;
    was_entered += has(first, " was entered") || has(again, " was entered when") ? 1 : 0;
    was_not += has(again, " was not entered when") ? 1 : 0;
  }
  CHECK(lost > 15);
  CHECK(was_entered > 2);
  CHECK(was_not > 2);
}
