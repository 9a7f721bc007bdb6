#include "plan/gate/gate_resin.h"

#include <algorithm>

#include "diagnose/says_gate.h"
#include "measure/elapsed.h"
#include "plan/tables/wood.h"
#include "plan/wood/dryness.h"

namespace blankwright {
namespace {

constexpr Duration least_more = 1 * hour;  ///< of soaking; common practice, no source: less is not worth a bath

struct Dry {
  Mass mass;
  Volume volume;
  Volume void_space;
};

std::optional<Dry> dry_wood(const ResinGateInput& in) {
  const auto volume = dry_volume(in.blank, in.plan.blank);
  if (in.blank.dry.empty() || !volume) return std::nullopt;
  const Mass mass = in.blank.dry.back().net;
  return Dry{mass, *volume, *volume - mass / cell_wall};
}

void note_soak(const ResinGateInput& in, ResinGate& gate) {
  const auto& released = in.bath.released;
  if (!released || !in.blank.out_of_bath || *in.blank.out_of_bath <= *released) return;
  gate.soaked = between(*released, *in.blank.out_of_bath);
  gate.least_soak = least_soak(in.bath, in.vacuum);
  if (!gate.least_soak && in.plan.process.vacuum) gate.least_soak = in.plan.process.vacuum->least_soak;
}

/// The last mass that tells of the resin; once wood was taken away, the last one before.
const std::vector<Weighing>& telling(const BlankState& blank) {
  return blank.cured.empty() ? blank.wet : blank.cured;
}

void judge_wet(const ResinGateInput& in, Mass seen, const LadderRung& least, ResinGate& gate) {
  gate.seen = seen;
  gate.least = least.wet;
  gate.answer = seen >= least.wet ? ResinAnswer::cure : ResinAnswer::soak_again;
  if (gate.answer == ResinAnswer::cure || !gate.soaked || *gate.fill <= Share{}) return;
  const double ratio = in.plan.process.uptake->fill / *gate.fill;
  gate.soak_longer = std::max((ratio * ratio - 1) * *gate.soaked, least_more);
}

void judge_mass(const ResinGateInput& in, const std::vector<Weighing>& weighings, ResinGate& gate) {
  const auto dry = dry_wood(in);
  if (weighings.empty() || !dry) return;
  const Mass seen = weighings.back().net;
  gate.answer = ResinAnswer::impossible;
  if (dry->void_space <= Volume{}) return;
  const ResinFacts& resin = *in.plan.process.resin;
  gate.fill = (seen - dry->mass) / (resin.density.value * dry->void_space) * whole;
  if (*gate.fill > whole) return;
  const LadderRung least = ladder_rung(dry->mass, dry->volume, in.plan.process.uptake->fill, resin);
  if (in.blank.stage == Stage::wet) return judge_wet(in, seen, least, gate);
  gate.seen = seen;
  gate.least = &weighings == &in.blank.wet ? least.wet : least.cured;
  gate.answer = seen >= *gate.least ? ResinAnswer::good : ResinAnswer::poor;
}

Saying says_unweighed(const ResinGate& gate) {
  const Saying missing = say(gate.lacks_dry     ? says::resin_no_dry_mass
                             : gate.wood_is_off ? says::resin_not_weighed_before_saw
                                                : says::resin_not_weighed);
  const bool is_short = gate.soaked && gate.least_soak && *gate.soaked + 1 * minute < *gate.least_soak;
  return is_short ? say(says::resin_soaked_short, missing, printed(*gate.soaked), printed(*gate.least_soak))
                  : missing;
}

}  // namespace

Verdict verdict_of(ResinAnswer answer) {
  switch (answer) {
    case ResinAnswer::weigh:
      return Verdict::waits;
    case ResinAnswer::impossible:
    case ResinAnswer::soak_again:
    case ResinAnswer::poor:
      return Verdict::held;
    case ResinAnswer::cure:
    case ResinAnswer::good:
      return Verdict::goes_on;
  }
  return Verdict::held;
}

std::optional<Duration> least_soak(const BathState& bath, const VacuumFacts& facts) {
  const auto& until = facts.soak_counts_to.value == SoakCountsTo::release ? bath.released : bath.bubbling_ended;
  if (!bath.target_reached || !until) return std::nullopt;
  return facts.soak.value / whole * between(*bath.target_reached, *until);
}

bool is_full_cured(const ResinGateInput& in) {
  if (in.blank.stage < Stage::cured || in.plan.process.resin == nullptr || !in.plan.process.uptake) return false;
  ResinGate gate;
  judge_mass(in, in.blank.cured, gate);
  return gate.answer == ResinAnswer::good;
}

std::optional<ResinGate> resin_gate(const ResinGateInput& in) {
  const BlankState& blank = in.blank;
  const bool taken_out = blank.stage == Stage::wet || (blank.stage >= Stage::cured && !blank.is_over());
  if (!taken_out || in.plan.process.resin == nullptr || !in.plan.process.uptake) return std::nullopt;
  ResinGate gate;
  gate.own_size = blank.dry_size.has_value();
  if (blank.stage == Stage::wet) note_soak(in, gate);
  judge_mass(in, telling(blank), gate);
  gate.wood_is_off = blank.stage > Stage::cured;
  if (gate.wood_is_off && verdict_of(gate.answer) == Verdict::goes_on) return std::nullopt;
  // Wet it was full enough, and it is to be weighed once more.
  const bool unweighed = blank.stage == Stage::cured && blank.cured.empty();
  if (unweighed && verdict_of(gate.answer) != Verdict::held) gate.answer = ResinAnswer::weigh;
  gate.lacks_dry = blank.dry.empty();
  return gate;
}

Saying says_of(const ResinGate& gate, UnitSystem units) {
  const auto masses = [&] {
    return say(gate.own_size ? says::resin_masses : says::resin_masses_nominal, printed(*gate.seen, units),
               printed(*gate.least, units, Round::up), printed(*gate.fill));
  };
  switch (gate.answer) {
    case ResinAnswer::weigh:
      return says_unweighed(gate);
    case ResinAnswer::impossible:
      return gate.fill ? say(says::resin_too_much, printed(*gate.fill)) : say(says::resin_too_dense);
    case ResinAnswer::soak_again:
      return gate.soak_longer ? say(says::resin_soak_longer, printed(*gate.soak_longer), masses())
                              : say(says::resin_soak_again, masses());
    case ResinAnswer::cure:
      return say(says::resin_cure, masses());
    case ResinAnswer::poor:
      return say(says::resin_short, masses());
    case ResinAnswer::good:
      return say(says::resin_in, masses());
  }
  return {};
}

}  // namespace blankwright
