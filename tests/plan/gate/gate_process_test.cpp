#include "plan/gate/gate_process.h"
#include "gated_blank.h"

#include <doctest/doctest.h>

#include "planning.h"

using namespace blankwright;

namespace {

using std::chrono::minutes;

/// A plan that asks for a gauge of 90 kPa below the air's pressure, held for half an hour.
OrderPlan plan_with_vacuum() {
  OrderPlan plan = plan_of(sample_file("metric/burnisher.toml"), sample_file("metric/shop.toml"));
  REQUIRE(plan.process.vacuum.has_value());
  plan.process.vacuum->reading = 90 * kilopascal;
  plan.process.vacuum->hold = 30 * minute;
  return plan;
}

/// A bath that reached 90 kPa and stopped bubbling after 20 minutes.
BathState bath_in_order() {
  BathState bath;
  bath.target_reached = monday;
  bath.gauge = GaugePressure{} - 90 * kilopascal;
  bath.bubbling_ended = monday + minutes{20};
  return bath;
}

ReleaseGate released_after(int held, const BathState& bath = bath_in_order()) {
  static const OrderPlan plan = plan_with_vacuum();
  const auto gate = release_gate(bath, plan, monday + minutes{held});
  REQUIRE(gate.has_value());
  return *gate;
}

}  // namespace

TEST_CASE("a vacuum is released once it was held as long as planned") {
  CHECK(released_after(60).answer == ReleaseAnswer::release);
  CHECK_FALSE(released_after(60).holds());
  // Moments are entered to the minute, so one may be lost at either end.
  CHECK(released_after(29).answer == ReleaseAnswer::release);
  const ReleaseGate early = released_after(28);
  CHECK(early.answer == ReleaseAnswer::held_short);
  CHECK(early.holds());
  CHECK(*early.held / minute == doctest::Approx(28));
  CHECK(*early.planned / minute == doctest::Approx(30));
  CHECK(text(says_of(early, UnitSystem::metric)) == "its vacuum was held 28 min, and at least 30 min was planned");
}

TEST_CASE("a vacuum is not released before its target was reached, by a gauge that shows it") {
  BathState bath = bath_in_order();
  bath.gauge = GaugePressure{} - 89.1 * kilopascal;  // a gauge is read to 1 kPa
  CHECK(released_after(60, bath).answer == ReleaseAnswer::release);
  bath.gauge = GaugePressure{} - 88.9 * kilopascal;
  const ReleaseGate gate = released_after(60, bath);
  CHECK(gate.answer == ReleaseAnswer::gauge_short);
  CHECK((*gate.asked - GaugePressure{}) / kilopascal == doctest::Approx(-90));
  CHECK((*gate.read - GaugePressure{}) / kilopascal == doctest::Approx(-88.9));

  bath.gauge.reset();  // nobody read it, and the target was entered as reached
  CHECK(released_after(60, bath).answer == ReleaseAnswer::release);
  bath.target_reached.reset();
  CHECK(released_after(60, bath).answer == ReleaseAnswer::no_target);
}

TEST_CASE("a vacuum is not released while the wood may bubble, however long it was held") {
  BathState bath = bath_in_order();
  bath.bubbling_ended.reset();
  CHECK(released_after(600, bath).answer == ReleaseAnswer::no_end);
}

TEST_CASE("a bath for which no vacuum was planned has no gate before its release") {
  OrderPlan plan = plan_with_vacuum();
  plan.process.vacuum.reset();
  CHECK_FALSE(release_gate(BathState{}, plan, monday).has_value());
  CHECK_FALSE(gauge_short_of(GaugePressure{} - 1 * kilopascal, plan).has_value());
}

TEST_CASE("a bath is held for every answer but the one that nothing speaks against its release") {
  for (const ReleaseAnswer answer :
       {ReleaseAnswer::no_target, ReleaseAnswer::gauge_short, ReleaseAnswer::no_end, ReleaseAnswer::held_short}) {
    CHECK(verdict_of(answer) == Verdict::held);
  }
  CHECK(verdict_of(ReleaseAnswer::release) == Verdict::goes_on);
}
