#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "bench_of_work.h"

using namespace blankwright;

namespace {

nlohmann::json asked(const BenchOfWork& w, double hours, std::vector<std::string> question) {
  question.insert(question.begin(), "ask");
  question.insert(question.end(), {"--as", "json"});
  const ProgramRun ran = w.run(hours, std::move(question));
  REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
  return nlohmann::json::parse(ran.out);
}

}  // namespace

TEST_CASE("what is counted so far is told, and why a plan does not take it yet") {
  const BenchOfWork w;
  // Six are wanted of nine pieces and a witness. Two are through and three are scrapped.
  const auto send = [&](double hours, std::size_t k) {
    w.enter(hours, {"sent", w.blanks.at(k), "--override", "finished before the register"});
  };
  for (std::size_t k = 0; k < 2; ++k) send(1, k);
  w.enter(1, {"scrapped", w.blanks.at(2), w.blanks.at(3), "reason=rot"});
  w.enter(1, {"scrapped", w.blanks.at(4), "reason=crack"});
  w.enter(1, {"weighed", w.blanks.at(5), "mass=131 g"});
  auto yield = asked(w, 2, {"yield"});
  CHECK(yield.at("facts").at("good") == "2");
  CHECK(yield.at("facts").at("lost") == "3");
  CHECK(yield.at("facts").at("in work") == "1");
  CHECK(yield.at("facts").at("to be sawn") == "4");
  CHECK(yield.at("facts").at("counted in plans") == "0 good, 0 lost");
  CHECK(yield.at("facts").at("not in plans yet: TA-0147") ==
        "2 good (2 sent), 3 lost, 1 in work, 3 to be sawn; counts when 6 are good or none is in work");
  CHECK(yield.at("rows").size() == 2);
  CHECK(yield.at("rows").at(1) == nlohmann::json{{"reason of loss", "rot"}, {"blanks", "2"}});

  for (std::size_t k = 5; k < 9; ++k) send(3, k);
  yield = asked(w, 4, {"yield"});
  CHECK(yield.at("facts").at("counted in plans") == "6 good, 3 lost");
  CHECK(yield.at("facts").at("yield in plans") == "79.3 %: 23 good of 29, those counted in the shop file among them");
  CHECK_FALSE(yield.at("facts").contains("not in plans yet: TA-0147"));
  CHECK(has(w.run(4, {"ask", "--help"}).out, "`blankwright manual entries` tells what counts as good and as lost"));
}

TEST_CASE("an order that has its pieces keeps those that came furthest, and the others are stock") {
  const BenchOfWork w;
  const std::string why = "done before the register";
  // Of nine pieces seven have their stud, one of them is turned; another one is cured.
  for (std::size_t k = 0; k < 7; ++k) {
    w.enter(1, {"stud-measured", w.blanks.at(k), "face_1=20 mm", "face_2=20 mm", "face_3=20 mm", "face_4=20 mm",
                "lean_1=0 mm", "lean_2=0 mm", "over=100 mm", "--override", why});
  }
  w.enter(2, {"turned", w.blanks.at(6)});
  w.enter(2, {"out-of-oven", w.blanks.at(7), "--override", why});
  const auto answer = asked(w, 3, {"stock"});
  std::string stock;
  for (const auto& row : answer.at("rows")) stock += row.at("blank").get<std::string>() + " ";
  CHECK(stock == fmt::format("{} {} ", w.blanks.at(5), w.blanks.at(7)));
}

TEST_CASE("what is asked about a bath, a load, an order or a blank names entries, witnesses, client and due date") {
  const BenchOfWork w;
  const std::string& witness = w.blanks.back();
  w.bathe({w.blanks.front(), witness});
  w.enter(24, {"into-oven", w.blanks.front(), witness, "load=O2"});
  w.enter(25.5, {"core-temperature", "load=O2", "temperature=86 °C"});
  w.enter(29, {"out-of-oven", w.blanks.front(), witness});
  const std::string cut = w.enter(30, {"witness-cut", witness, "filled=yes", "hard=yes"});
  // The entry of which a text tells: "entry 24, of …: K7T-4X54 weighed", "… (entry 24)".
  const auto number = [](const std::string& text) {
    const std::size_t at = text.find("entry ");
    REQUIRE(at != std::string::npos);
    return std::to_string(std::stoi(text.substr(at + 6)));
  };
  /// What the register has under that number.
  const auto entered = [&](const std::string& entry) -> std::string {
    for (const std::string& blank : w.blanks) {
      const auto history = asked(w, 31, {"blank", blank});
      for (const auto& row : history.at("rows")) {
        if (row.at("entry") == entry) return blank + " " + row.at("what").get<std::string>();
      }
    }
    return {};
  };

  const auto bath = asked(w, 31, {"bath", "K2"});
  const auto& of_bath = bath.at("facts");
  CHECK(of_bath.at("order TA-0147") == "Osric Lamm, burnishers and scrapers: burnisher handle, due 2027-06-18");
  CHECK(of_bath.at("cut open") == witness + ": resin through (entry " + number(cut) + ")");
  CHECK(has(of_bath.at("released").get<std::string>(), "2027-05-04 00:12 (entry "));
  REQUIRE(bath.at("rows").size() == 2);
  CHECK(bath.at("rows").at(0).at("role") == "");
  CHECK(bath.at("rows").at(1).at("role") == "witness");
  CHECK_FALSE(bath.at("rows").at(1).contains("bath"));
  CHECK(entered(bath.at("rows").at(1).at("entry")) == witness + " into-bath");

  const auto load = asked(w, 31, {"load", "O2"});
  CHECK(load.at("facts").at("order TA-0147") == of_bath.at("order TA-0147"));
  CHECK(has(load.at("facts").at("core").get<std::string>(), "86 °C at 2027-05-04 15:30 (entry "));
  CHECK(load.at("facts").at("cut open") == witness + ": hard (entry " + number(cut) + ")");
  CHECK(entered(load.at("rows").at(0).at("entry")) == w.blanks.front() + " into-oven");

  CHECK(w.run(31, {"ask", "bath", "K2x"}).errors == "blankwright: the register has no bath K2x; did you mean K2?\n");
  CHECK(w.run(31, {"ask", "load", "02"}).errors == "blankwright: the register has no load 02; did you mean O2?\n");

  const auto order = asked(w, 31, {"order", "TA-0147"});
  CHECK(order.at("facts").at("client") == "Osric Lamm, burnishers and scrapers");
  CHECK(order.at("facts").at("due") == "2027-06-18");
  CHECK(order.at("facts").at("so far") == "1 in work, 8 to be sawn, 1 cut open");
  CHECK(order.at("rows").back().at("entry") == number(cut));

  const auto blank = asked(w, 31, {"blank", witness});
  CHECK(blank.at("facts").at("role") == "witness");
  CHECK(blank.at("facts").at("due") == "2027-06-18");
  CHECK_FALSE(asked(w, 31, {"blank", w.blanks.front()}).at("facts").contains("role"));
}

TEST_CASE("an ID that nothing was sawn for is to be sawn in the table as in the count, and lies nowhere") {
  const BenchOfWork w;  // compiled at noon of Sunday, 2 May, UTC
  w.enter(0, {"sawn", w.blanks.at(0), "board=T4", "--at", "2027-05-01 9:00"});
  const auto order = asked(w, 1, {"order", "TA-0147"});
  CHECK(order.at("facts").at("so far") == "1 in work, 9 to be sawn");
  CHECK(order.at("facts").at("blanks") == "9 to be sawn, 1 sawn");
  for (const auto& question : {std::vector<std::string>{"order", "TA-0147"}, {"under-way"}}) {
    const auto rows = asked(w, 1, question).at("rows");
    REQUIRE(rows.size() == 10);
    CHECK(rows.at(0).at("stage") == "sawn");
    CHECK(rows.at(0).at("place") == "shop");
    CHECK(rows.at(0).at("since") == "2027-05-01 09:00");  // when it was sawn, not when its ID was issued
    CHECK(rows.at(1).at("stage") == "to be sawn");
    CHECK(rows.at(1).at("place") == "");
    CHECK(rows.at(1).at("since") == "2027-05-02 14:00");
  }
  CHECK(asked(w, 1, {"blank", w.blanks.at(1)}).at("facts").at("stage") == "to be sawn");
}

TEST_CASE("an order or a lot that the register does not know is answered with the nearest name") {
  const BenchOfWork w;
  w.enter(0, {"resin-opened", "resin=R-17"});
  CHECK(w.run(1, {"ask", "order", "TA-147"}).errors ==
        "blankwright: the register has no order TA-147; did you mean TA-0147?\n");
  CHECK(w.run(1, {"ask", "resin", "R17"}).errors ==
        "blankwright: the register has no lot of resin R17; did you mean R-17?\n");
  CHECK(has(w.run(1, {"enter", "promised", w.blanks.at(0), "order=TA-147"}).errors,
            "the register has no order TA-147; did you mean TA-0147?"));
  CHECK(has(w.run(1, {"enter", "poured", "bath=K2", "resin=Clear K", "volume=1 l"}).errors,
            "resin is the name of a lot, which is 1 to 40 of A-Z a-z 0-9 . _ -, not \"Clear K\": what was entered as "
            "resin-opened"));
}

TEST_CASE("the daybook lists what was entered on a day, with the numbers by which it is replaced") {
  const BenchOfWork w;  // noon of 3 May UTC is 14:00 in Vienna
  w.enter(0, {"weighed", w.blanks.at(0), "mass=131 g", "--person", "Ada"});
  w.enter(1, {"weighed", w.blanks.at(1), "mass=132 g", "--at", "sunday 18:00"});
  w.enter(9.8, {"board", "board=B-12"});
  const auto today = asked(w, 9.8, {"daybook"});
  CHECK(today.at("facts").at("entered on") == "2027-05-03");
  CHECK(today.at("facts").at("lists") == "what was entered that day, whenever it happened");
  REQUIRE(today.at("rows").size() == 3);
  CHECK(today.at("rows").at(0).at("blank") == w.blanks.at(0));
  CHECK(today.at("rows").at(0).at("by") == "Ada");
  CHECK(today.at("rows").at(1).at("when") == "2027-05-02 18:00");
  CHECK(today.at("rows").at(2).at("says") == "board B-12");
  // By such a number an entry is replaced, and both are in the book.
  w.enter(9.9, {"weighed", w.blanks.at(0), "mass=113 g", "--replaces", today.at("rows").at(0).at("entry")});
  const auto replaced = asked(w, 9.9, {"daybook"});
  REQUIRE(replaced.at("rows").size() == 4);
  CHECK(replaced.at("rows").at(0).at("valid") ==
        "no, see " + replaced.at("rows").at(3).at("entry").get<std::string>());

  w.enter(10.1, {"weighed", w.blanks.at(2), "mass=133 g"});  // after midnight
  CHECK(asked(w, 10.2, {"daybook"}).at("rows").size() == 1);
  CHECK(asked(w, 30, {"daybook", "--at", "monday"}).at("rows") == replaced.at("rows"));
  CHECK(w.run(30, {"ask", "yield", "--at", "monday"}).exit == Exit::command_line);
  CHECK(w.run(30, {"ask", "daybook", "--at", "moonday"}).exit == Exit::command_line);
}
