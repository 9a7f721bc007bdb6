#include "plan/gate/gates.h"

#include <algorithm>
#include <array>

#include "diagnose/says_gate.h"
#include "measure/elapsed.h"
#include "plan/figure/judge_words.h"
#include "plan/gate/gate_axis.h"
#include "plan/gate/gate_cure.h"
#include "plan/gate/gate_dry.h"
#include "plan/gate/gate_process.h"
#include "plan/gate/gate_resin.h"

namespace blankwright {
namespace {

constexpr std::array<Sentence<0>, 10> gates{says::gate_plan, says::gate_dry,     says::gate_bath,   says::gate_resin,
                                            says::gate_cure, says::gate_witness, says::gate_graded, says::gate_glue,
                                            says::gate_axis, says::gate_seat};
static_assert(gates.size() == static_cast<std::size_t>(Gate::seat) + 1);

/// The plan of its bath and its cure.
const OrderPlan& bath_plan(const GateInput& in) { return in.bathed_by != nullptr ? *in.bathed_by : in.plan; }

std::optional<Judged> judge_dry(const GateInput& in) {
  if (!in.order.treatment) return std::nullopt;  // it is the bath's gate
  const auto dry =
      dryness(in.blank, dry_volume(in.blank, in.plan.blank), in.plan.process.drying, in.shop.drying, in.now);
  if (!dry) return std::nullopt;
  return Judged{Gate::dry, verdict_of(dry->answer), says_of(*dry, in.shop.zone.value), {}, dry->weigh_from};
}

/// A vacuum that was released against its gate, as long as its blanks soak; then their own masses tell.
std::optional<Judged> judge_bath(const GateInput& in) {
  if (in.blank.stage != Stage::in_bath || !in.bath.released) return std::nullopt;
  const auto gate = release_gate(in.bath, bath_plan(in), *in.bath.released);
  if (!gate || !gate->holds()) return std::nullopt;
  return Judged{Gate::bath, verdict_of(gate->answer),
                say(says::bath_released_early, in.bath.name, says_of(*gate, in.shop.units.value))};
}

std::optional<Judged> judge_resin(const GateInput& in) {
  const auto resin = resin_gate({in.blank, bath_plan(in), in.bath, in.shop.vacuum});
  if (!resin) return std::nullopt;
  return Judged{Gate::resin, verdict_of(resin->answer), says_of(*resin, in.shop.units.value)};
}

std::optional<Judged> judge_cure(const GateInput& in) {
  if (in.blank.stage < Stage::in_oven || !in.blank.into_oven || !bath_plan(in).process.cure) return std::nullopt;
  const bool is_in = in.blank.stage == Stage::in_oven;
  CureGateInput input{.load = in.load,
                      .cure = cure_in(bath_plan(in).process, in.load.oven),
                      .into_oven = *in.blank.into_oven,
                      .out_of_oven = is_in ? std::nullopt : in.blank.out_of_oven,
                      .now = in.now,
                      .of_load = {}};
  if (!in.load.core.empty() || !in.load.cut.empty()) input.of_load = in.core_times();
  CureGate cure = cure_gate(input);
  if (cure.answer == CureAnswer::open && input.of_load.empty()) {
    input.of_load = in.core_times();
    cure = cure_gate(input);
  }
  return Judged{Gate::cure,
                verdict_of(cure.answer),
                says_of(cure, in.load, in.shop.zone.value, in.shop.units.value),
                {},
                cure.out_from};
}

/// The bath whose witnesses tell of a blank: the last one in which it soaked of those of which one was cut open. For
/// an earlier one its own mass has to show that it has enough: it was soaked again because it had not.
const BathState& told_of_by(const GateInput& in) {
  const BathState& last = in.bath;
  if (!last.cut.empty() || !is_full_cured({in.blank, bath_plan(in), last, in.shop.vacuum})) return last;
  for (std::size_t i = in.earlier_baths.size(); i-- > 0;) {
    const BathState& bath = in.earlier_baths[i];
    const auto& out = in.blank.earlier_baths.at(i).out;
    const bool soaked = out && bath.released && *out > *bath.released;
    if (soaked && !bath.cut.empty()) return bath;
  }
  return last;
}

/// What the witnesses of its bath have shown of how far the resin went in.
std::optional<Judged> judge_witness(const GateInput& in) {
  if (in.blank.stage < Stage::cured || in.blank.bath.empty()) return std::nullopt;
  const BathState& bath = told_of_by(in);
  const auto dry = std::ranges::find(bath.cut, false, &BlankCut::good);
  if (dry != bath.cut.end()) {
    return Judged{Gate::witness, Verdict::held,
                  dry->reason.empty() ? say(says::witness_dry, dry->blank, bath.name)
                                      : say(says::witness_dry_since, dry->blank, bath.name, dry->reason)};
  }
  const auto& treatment = (in.bathed_for != nullptr ? *in.bathed_for : in.order).treatment;
  if (!treatment || !treatment->witness.value) return std::nullopt;
  if (bath.cut.empty()) {
    return Judged{Gate::witness, Verdict::waits, say(says::witness_not_cut, bath.name)};
  }
  return Judged{Gate::witness, Verdict::goes_on, say(says::witness_good, bath.cut.front().blank, bath.name)};
}

std::optional<Judged> judge_graded(const GateInput& in) {
  if (in.blank.verdict != Graded::fill || in.blank.filled || in.blank.stage >= Stage::turned) return std::nullopt;
  return Judged{Gate::graded, Verdict::held, say(says::fill_first)};
}

std::optional<Judged> judge_glue(const GateInput& in) {
  if (!in.blank.glued || in.blank.stage >= Stage::turned) return std::nullopt;
  const Instant set = later(*in.blank.glued, in.shop.glue.set_time.value);
  if (in.now >= set) return std::nullopt;
  return Judged{Gate::glue, Verdict::waits, say(says::glue_sets, Moment{in.shop.zone.value, set}), {}, set};
}

std::optional<Judged> judge_axis(const GateInput& in) {
  const auto& seen = in.blank.stud ? in.blank.stud : in.blank.bore;
  if (!seen || in.blank.stage < Stage::bored || in.blank.stage >= Stage::turned) return std::nullopt;
  const AllowanceFacts& allowances = in.shop.allowances;
  const AxisGate gate = axis_gate({.form = in.plan.form,
                                   .seen = *seen,
                                   .allowance = allowances.finish.value + allowances.bow.value,
                                   .section = section_bored(in.shop)});
  const UnitSystem units = in.shop.units.value;
  return Judged{Gate::axis, verdict_of(gate.answer), says_of(gate, units), by_direction(gate, units)};
}

/// The finished seat, as it was inspected.
std::optional<Judged> judge_seat(const GateInput& in) {
  const Length limit = in.order.seat.squareness.value;
  if (in.blank.stage != Stage::inspected || !in.blank.squareness || *in.blank.squareness <= limit)
    return std::nullopt;
  return Judged{Gate::seat, Verdict::held,
                say(says::seat_out_of_square, measured(*in.blank.squareness, in.shop, Round::up),
                    measured(limit, in.shop, Round::down))};
}

/// Does the one let a load out later than the other? One of which nobody knows when, last of all.
bool is_later(const Judged& one, const Judged& other) {
  if (one.holds() != other.holds()) return one.holds();
  return one.holds() && other.from && (!one.from || *one.from > *other.from);
}

}  // namespace

std::string_view name_of(Gate gate) { return gates.at(static_cast<std::size_t>(gate)).words; }

Saying says_of(Gate gate) { return say(gates.at(static_cast<std::size_t>(gate))); }

std::string in_words(const Judged& judged) { return with_hold(judged.verdict, text(judged.reason)); }

std::vector<Judged> judge_gates(const GateInput& in) {
  std::vector<Judged> all;
  if (in.blank.is_over()) return all;
  for (const auto judge : {judge_dry, judge_bath, judge_resin, judge_cure, judge_witness, judge_graded, judge_glue,
                           judge_axis, judge_seat}) {
    if (auto judged = judge(in)) all.push_back(std::move(*judged));
  }
  return all;
}

Judged not_planned(const std::string& order_id) {
  return {Gate::plan, Verdict::waits, say(says::not_planned_any_more, order_id)};
}

std::optional<Judged> judge_load(std::span<const std::vector<Judged>> gates) {
  std::optional<Judged> last;
  for (const std::vector<Judged>& of_blank : gates) {
    for (const Judged& judged : of_blank) {
      if (judged.gate != Gate::cure) continue;
      if (!last || is_later(judged, *last)) last = judged;
    }
  }
  return last;
}

}  // namespace blankwright
