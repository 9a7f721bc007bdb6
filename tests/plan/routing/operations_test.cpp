#include "plan/routing/operations.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "planning.h"

using namespace blankwright;

namespace {

/// The operation of the shop's routing that does this.
Operation planned_work(PlannedWork work, const OperationNeeds& needs, const PlannedDurations& planned) {
  static const Shop shop = [] {
    std::ifstream file{BLANKWRIGHT_SOURCE_DIR "/sample-jobs/metric/shop.toml", std::ios::binary};
    return shop_of({std::istreambuf_iterator<char>{file}, {}});
  }();
  std::vector<const OperationFacts*> routing;
  for (const OperationFacts& facts : shop.routing) routing.push_back(&facts);
  const auto ops = operations(routing, planned, needs);
  const auto found = std::ranges::find_if(ops, [&](const Operation& op) {
    const auto& facts = shop.routing.at(op.step);
    return facts.planned && facts.planned->value == work;
  });
  REQUIRE(found != ops.end());
  return *found;
}

PlannedDurations durations() {
  PlannedDurations planned;
  planned.treated = true;
  planned.drying = 24 * hour;
  planned.vacuum = 6 * hour;
  planned.soak = 12 * hour;
  planned.cure = 3 * hour;
  return planned;
}

}  // namespace

TEST_CASE("an oven that may dry wood while nobody is there may not therefore cure resin alone") {
  const auto alone = [&](bool drying, bool curing, PlannedWork work) {
    OperationNeeds needs{.pieces = 4, .oven = "bench oven"};
    needs.drying_alone = drying;
    needs.cure_alone = curing;
    return planned_work(work, needs, durations()).unattended;
  };
  CHECK(alone(true, false, PlannedWork::drying));
  CHECK_FALSE(alone(true, false, PlannedWork::cure));
  CHECK_FALSE(alone(false, true, PlannedWork::drying));
  CHECK(alone(false, true, PlannedWork::cure));
}

TEST_CASE("a soak shares with its vacuum where the shop counts to the release, and else lasts as planned") {
  PlannedDurations planned = durations();
  const OperationNeeds needs{.pieces = 4, .vessel = "trough"};
  CHECK_FALSE(planned_work(PlannedWork::soak, needs, planned).lasts.has_value());
  planned.soak_share = 2;
  planned.pump_down = 5 * minute;
  const auto lasts = planned_work(PlannedWork::soak, needs, planned).lasts;
  REQUIRE(lasts.has_value());
  CHECK(lasts->share == 2);
  CHECK(lasts->unshared / minute == doctest::Approx(5));
}

TEST_CASE("witnesses end with the cure where the shop names nothing that is done to them alone") {
  const std::string tables = R"(
[[routing]]
name = "Saw"
who = "keeper"
per_piece = "10 min"

[[routing]]
name = "Cure"
who = "keeper"
planned = "cure"

[[routing]]
name = "Turn"
who = "turner"
per_piece = "30 min"
)";
  const auto pieces_of = [&](const std::string& routing_tables) {
    const Shop shop = shop_with(routing_tables);
    PlannedDurations planned = durations();
    planned.witnessed = true;
    std::vector<int> pieces;
    for (const Operation& op : operations(routing_of(planned, shop), planned, {.pieces = 5, .witnesses = 1}))
      pieces.push_back(op.pieces);
    return pieces;
  };
  CHECK(pieces_of(tables) == std::vector{5, 5, 4});
  const std::string cut =
      "\n[[routing]]\nname = \"Cut open\"\nwho = \"keeper\"\nper_piece = \"15 min\"\nonly_witnesses = true\n";
  CHECK(pieces_of(tables + cut) == std::vector{5, 5, 5, 1});
}
