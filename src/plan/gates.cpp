#include "plan/gates.h"

#include "plan/gate_axis.h"
#include "plan/gate_dry.h"
#include "plan/gate_resin.h"

namespace blankwright {
namespace {

std::optional<Judged> judge_axis(const BlankState& blank, const OrderPlan& plan, const Shop& shop) {
  const auto& seen = blank.stud ? blank.stud : blank.bore;
  if (!seen) return std::nullopt;
  const AxisGate gate = axis_gate(
      {.form = plan.form, .seen = *seen, .allowance = shop.allowances.finish.value + shop.allowances.bow.value});
  return Judged{"axis", gate.holds(), in_words(gate, shop.units.value), by_direction(gate, shop.units.value)};
}

}  // namespace

std::optional<Judged> judge_gate(const BlankState& blank, const OrderPlan& plan, const Shop& shop,
                                 std::optional<Duration> soaked, Instant now) {
  if (blank.is_over() || blank.stage >= Stage::turned) return std::nullopt;
  if (const auto dry = dry_gate(blank, dry_volume(blank, plan.blank), plan.process.drying, shop.drying, now)) {
    return Judged{"dry", dry->holds(), in_words(*dry, shop.zone.value)};
  }
  if (blank.verdict == "fill" && !blank.filled) return Judged{"graded", true, "HOLD: fill its voids first"};
  if (blank.stage >= Stage::bored) return judge_axis(blank, plan, shop);
  const auto resin = resin_gate({blank, plan, soaked});
  if (!resin) return std::nullopt;
  return Judged{"resin", resin->holds(), in_words(*resin, shop.units.value)};
}

}  // namespace blankwright
