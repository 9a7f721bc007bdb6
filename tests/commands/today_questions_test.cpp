// What today's list asks, and what it does not: of blanks that went apart, or go through something again.

#include <doctest/doctest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "shop_at_work.h"

using namespace blankwright;
using Json = nlohmann::json;

namespace {

/// Soaks what lies in the bath over a night, and weighs it: wet enough, but for the last `light` ones.
void soak(Work& work, std::size_t count, std::size_t light = 0) {
  work.enter(7, "released", 0, {"bath=B1"});
  work.enter(13, "out-of-bath", count);
  work.enter(0, "weighed", count - light, {"mass=220 g"});
  if (light > 0) work.enter(0, "weighed", light, {"mass=150 g"}, count - light);
}

const Json* row_of(const std::vector<Json>& rows, const std::string& what) {
  const auto found = std::ranges::find_if(rows, [&](const Json& row) { return row["what"] == what; });
  return found == rows.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("what a part of an order was planned to be through is asked, also where the rest has it to come") {
  Work work;
  work.into_bath(7);
  soak(work, 7);
  work.enter(0, "into-oven", 7, {"load=O1"});
  work.enter(4, "out-of-oven", 7);
  const Json scrape = work.plan().at("Scrape and weigh cured");
  REQUIRE(scrape["runs"].size() == 2);
  CHECK(scrape["runs"][0]["blanks"] == 7);
  CHECK(scrape["runs"][1]["blanks"] == 3);
  work.hours(48);
  const auto asked = work.today()["not-entered"];
  const Json* row = row_of(asked, "Let them cool");  // nobody enters its end; what comes next tells it
  REQUIRE(row != nullptr);
  CHECK((*row)["count"] == 7);
}

TEST_CASE("a blank that soaks again is not asked about the vacuum that it had, and what lies sealed may lie on") {
  Work work;
  work.into_bath(10);
  static_cast<void>(work.plan());  // while it lies there; the vacuum's end is planned then
  soak(work, 10, 1);
  work.enter(0, "into-bath", 1, {"bath=B2", "vessel=trough"}, 9);
  work.enter(0, "vacuum-on", 0, {"bath=B2"});
  work.hours(1);
  for (const Json& row : work.today()["not-entered"]) {
    CAPTURE(row);
    CHECK(row["what"] != "Bath: vacuum");
    CHECK(row["what"] != "Bath: soak through the night");
  }

  Work dry;
  dry.enter(0, "board", 0, {"board=A1"});
  dry.enter(1, "sawn", 10, {"board=A1"});
  dry.enter(1, "moisture", 10, {"moisture=9 %"});
  dry.enter(1, "into-drying", 10, {"load=D1"});
  dry.enter(44, "out-of-drying", 10);
  dry.enter(0, "sealed", 10);
  static_cast<void>(dry.plan());
  dry.hours(6 * 24);
  const auto asked = dry.today()["not-entered"];
  CHECK(row_of(asked, "Cool sealed") == nullptr);
  CHECK(row_of(asked, "Weigh and measure") != nullptr);
}

TEST_CASE("a blank that soaked again is not asked to be drained by when the first print had it") {
  Work work;
  work.into_bath(10);
  static_cast<void>(work.plan());
  soak(work, 10, 1);
  work.enter(0, "into-bath", 1, {"bath=B2", "vessel=trough"}, 9);
  work.enter(0, "vacuum-on", 0, {"bath=B2"});
  work.enter(6, "released", 0, {"bath=B2"});
  work.enter(14, "out-of-bath", 1, {}, 9);
  for (const Json& row : work.today()["not-entered"]) {
    CAPTURE(row);
    CHECK(row["what"] != "Drain, wipe, weigh wet");
  }
}

TEST_CASE("what is over has its real times in the plan: a vacuum from when the pump was started") {
  Work work;
  work.into_bath(10);
  const std::int64_t begun = work.now;
  soak(work, 10);
  const Json vacuum = work.plan().at("Bath: vacuum");
  CHECK(vacuum["runs"][0]["done"] == true);
  CHECK(vacuum["runs"][0]["start"] == moment(begun));
  CHECK(vacuum["runs"][0]["end"] == moment(begun + 7 * 3600));
}
