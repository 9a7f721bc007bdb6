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
  CHECK(yield.at("facts").at("yield in plans") == "66.7 %");
  CHECK_FALSE(yield.at("facts").contains("not in plans yet: TA-0147"));
  CHECK(has(w.run(4, {"ask", "--help"}).out, "lost when it is scrapped or fails its inspection"));
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
