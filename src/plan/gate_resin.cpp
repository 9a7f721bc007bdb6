#include "plan/gate_resin.h"

#include <fmt/format.h>

#include <algorithm>

#include "plan/gate_dry.h"
#include "plan/tables/wood.h"

namespace blankwright {
namespace {

constexpr Duration least_soak = 1 * hour;  ///< common practice, no source: less is not worth a bath

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

void judge_wet(const ResinGateInput& in, Mass seen, const LadderRung& least, ResinGate& gate) {
  gate.seen = seen;
  gate.least = least.wet;
  gate.answer = seen >= least.wet ? ResinAnswer::cure : ResinAnswer::soak_again;
  if (gate.answer == ResinAnswer::cure || !in.soaked || *gate.fill <= Share{}) return;
  const double ratio = in.plan.process.uptake->fill / *gate.fill;
  gate.soak_longer = std::max((ratio * ratio - 1) * *in.soaked, least_soak);
}

}  // namespace

std::optional<ResinGate> resin_gate(const ResinGateInput& in) {
  const BlankState& blank = in.blank;
  const bool wet = blank.stage == Stage::wet;
  if ((!wet && blank.stage != Stage::cured) || in.plan.process.resin == nullptr || !in.plan.process.uptake) {
    return std::nullopt;
  }
  ResinGate gate;
  gate.own_size = blank.dry_size.has_value();
  const auto& weighings = wet ? blank.wet : blank.cured;
  const auto dry = dry_wood(in);
  if (weighings.empty() || !dry) return gate;
  const Mass seen = weighings.back().net;
  gate.answer = ResinAnswer::impossible;
  if (dry->void_space <= Volume{}) return gate;
  const ResinFacts& resin = *in.plan.process.resin;
  gate.fill = (seen - dry->mass) / (resin.density.value * dry->void_space) * whole;
  if (*gate.fill > whole) return gate;
  const LadderRung least = ladder_rung(dry->mass, dry->volume, in.plan.process.uptake->fill, resin);
  if (wet) {
    judge_wet(in, seen, least, gate);
  } else {
    gate.seen = seen;
    gate.least = least.cured;
    gate.answer = seen >= least.cured ? ResinAnswer::good : ResinAnswer::poor;
  }
  return gate;
}

std::string in_words(const ResinGate& gate, UnitSystem units) {
  const auto masses = [&] {
    return fmt::format("{}, at least {}; {} of its void is full{}", text(*gate.seen, units),
                       text(*gate.least, units, Round::up), text(*gate.fill),
                       gate.own_size ? "" : " (by the order's nominal size)");
  };
  switch (gate.answer) {
    case ResinAnswer::weigh:
      return "not weighed: its dry mass and its mass now are both needed";
    case ResinAnswer::impossible:
      return gate.fill ? fmt::format(
                             "HOLD: holds more resin than it has room for ({}); drain and wipe it, and check "
                             "both masses and its size",
                             text(*gate.fill))
                       : std::string{"HOLD: is denser than wood can be; check its dry mass and its size"};
    case ResinAnswer::soak_again:
      return fmt::format("HOLD: soak again, {}: {}",
                         gate.soak_longer ? fmt::format("about {} more", text(*gate.soak_longer))
                                          : std::string{"at least as long again (common practice, no source)"},
                         masses());
    case ResinAnswer::cure:
      return "cure it: " + masses();
    case ResinAnswer::poor:
      return "HOLD: short of resin, and cured wood takes no more: " + masses();
    case ResinAnswer::good:
      return "the resin is in: " + masses();
  }
  return {};
}

}  // namespace blankwright
