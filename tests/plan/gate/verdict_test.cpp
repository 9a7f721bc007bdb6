#include <doctest/doctest.h>

#include "diagnose/says_gate.h"
#include "plan/gate/gate_axis.h"
#include "plan/gate/gate_cure.h"
#include "plan/gate/gate_dry.h"
#include "plan/gate/gate_process.h"
#include "plan/gate/gate_resin.h"
#include "plan/gate/gates.h"

using namespace blankwright;

// The project's own choice: something that can be put right is wrong and held; what is only not there yet is waited
// for. The lists name every answer, so that a new one is thought of here too.

TEST_CASE("a blank is held where something is wrong, and waits where something is missing") {
  for (const auto answer : {DryAnswer::dry_longer, DryAnswer::too_dense, DryAnswer::dry_again}) {
    CHECK(verdict_of(answer) == Verdict::held);
  }
  for (const auto answer :
       {DryAnswer::weigh, DryAnswer::weigh_again, DryAnswer::weigh_lain, DryAnswer::in_oven, DryAnswer::hot}) {
    CHECK(verdict_of(answer) == Verdict::waits);
  }
  CHECK(verdict_of(DryAnswer::dry) == Verdict::goes_on);

  for (const auto answer : {ResinAnswer::impossible, ResinAnswer::soak_again, ResinAnswer::poor}) {
    CHECK(verdict_of(answer) == Verdict::held);
  }
  CHECK(verdict_of(ResinAnswer::weigh) == Verdict::waits);
  for (const auto answer : {ResinAnswer::cure, ResinAnswer::good}) CHECK(verdict_of(answer) == Verdict::goes_on);

  for (const auto answer : {CureAnswer::soft, CureAnswer::open}) CHECK(verdict_of(answer) == Verdict::held);
  CHECK(verdict_of(CureAnswer::in_oven) == Verdict::waits);
  for (const auto answer : {CureAnswer::cut_open, CureAnswer::by_core, CureAnswer::by_time}) {
    CHECK(verdict_of(answer) == Verdict::goes_on);
  }

  CHECK(verdict_of(AxisAnswer::fails) == Verdict::held);
  for (const auto answer : {AxisAnswer::cleans_up, AxisAnswer::tight}) CHECK(verdict_of(answer) == Verdict::goes_on);
}

TEST_CASE("HOLD stands before the words of a gate that holds, and of no other") {
  Judged judged{Gate::graded, Verdict::held, say(says::fill_first)};
  CHECK(in_words(judged) == "HOLD: fill its voids first");
  CHECK((judged.is_wrong() && judged.holds()));
  judged.verdict = Verdict::waits;
  CHECK(in_words(judged) == "fill its voids first");
  CHECK((!judged.is_wrong() && judged.holds()));
  judged.verdict = Verdict::goes_on;
  CHECK(in_words(judged) == "fill its voids first");
  CHECK_FALSE(judged.holds());
}

TEST_CASE("gates are named as on the register's page and in `ask`") {
  CHECK(name_of(Gate::plan) == "plan");
  CHECK(name_of(Gate::cure) == "cure");
  CHECK(name_of(Gate::graded) == "graded");
  CHECK(name_of(Gate::seat) == "seat");
}

TEST_CASE("no gate says HOLD itself, since that is put before its words") {
  const auto says_none = [](const std::string& words) {
    CAPTURE(words);
    CHECK_FALSE(words.empty());
    CHECK(words.find("HOLD") == std::string::npos);
  };
  Dryness dry;
  dry.lost = dry.moisture_gone = dry.regained = 1 * percent;
  dry.weigh_from = dry.cool_from = Instant{};
  for (const auto answer :
       {DryAnswer::weigh, DryAnswer::weigh_again, DryAnswer::dry_longer, DryAnswer::too_dense, DryAnswer::weigh_lain,
        DryAnswer::dry_again, DryAnswer::in_oven, DryAnswer::hot, DryAnswer::dry}) {
    dry.answer = answer;
    for (const bool mostly_sealed : {false, true}) {
      dry.mostly_sealed = mostly_sealed;
      says_none(text(says_of(dry, Zone{})));
    }
    dry.heavier = 2 * percent;
    says_none(text(says_of(dry, Zone{})));
  }
  ResinGate resin;
  resin.seen = resin.least = 100 * gram;
  resin.fill = 50 * percent;
  for (const auto answer : {ResinAnswer::weigh, ResinAnswer::impossible, ResinAnswer::soak_again, ResinAnswer::cure,
                            ResinAnswer::poor, ResinAnswer::good}) {
    resin.answer = answer;
    says_none(text(says_of(resin, UnitSystem::metric)));
  }
  CureGate cure;
  cure.cut = BlankId::nth(0);
  cure.lowest = celsius(90);
  for (const auto answer : {CureAnswer::soft, CureAnswer::cut_open, CureAnswer::by_core, CureAnswer::by_time,
                            CureAnswer::in_oven, CureAnswer::open}) {
    cure.answer = answer;
    says_none(text(says_of(cure, LoadState{}, Zone{}, UnitSystem::metric)));
  }
  AxisGate axis;
  for (const auto answer : {AxisAnswer::cleans_up, AxisAnswer::tight, AxisAnswer::fails}) {
    axis.answer = answer;
    says_none(text(says_of(axis, UnitSystem::metric)));
  }
  ReleaseGate release;
  release.read = release.asked = GaugePressure{};
  release.held = release.planned = 1 * hour;
  for (const auto answer : {ReleaseAnswer::no_target, ReleaseAnswer::gauge_short, ReleaseAnswer::no_end,
                            ReleaseAnswer::held_short, ReleaseAnswer::release}) {
    release.answer = answer;
    says_none(text(says_of(release, UnitSystem::metric)));
  }
}
