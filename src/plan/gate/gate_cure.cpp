#include "plan/gate/gate_cure.h"

#include <algorithm>
#include <tuple>

#include "diagnose/says_gate.h"
#include "measure/elapsed.h"

namespace blankwright {
namespace {

using Reading = std::pair<Instant, Temperature>;

constexpr std::chrono::minutes moment_slack{1};

/// Does that blank of the load warm as slowly as the one that is judged?
bool warms_as_slowly(const BlankId& blank, const Cure& cure, std::span<const CoreTime> of_load) {
  if (!cure.core_time_cautious) return true;
  const auto found = std::ranges::find(of_load, blank, &CoreTime::blank);
  return found != of_load.end() && found->time >= *cure.core_time_cautious;
}

/// Was the blank that is judged in as long as that one?
bool was_in_as_long(const BlankId& blank, const CureGateInput& in) {
  const auto found = std::ranges::find(in.of_load, blank, &CoreTime::blank);
  if (found == in.of_load.end() || !found->stay) return true;
  return later(in.into_oven, *found->stay) <= in.out_of_oven.value_or(in.now) + moment_slack;
}

/// What was cut open of the load: one that was soft tells of all, one that was hard of those that warm no later and
/// were in as long.
void judge_cut(const CureGateInput& in, CureGate& gate) {
  const std::vector<BlankCut>& cut = in.load.cut;
  if (cut.empty()) return;
  if (const auto soft = std::ranges::find(cut, false, &BlankCut::good); soft != cut.end()) {
    gate.answer = CureAnswer::soft;
    gate.cut = soft->blank;
    return;
  }
  gate.cut = cut.front().blank;
  gate.cut_of_others = true;
  for (const BlankCut& hard : cut) {
    if (!warms_as_slowly(hard.blank, in.cure, in.of_load)) continue;
    gate.cut = hard.blank;
    gate.cut_of_others = false;
    gate.cut_of_longer = !was_in_as_long(hard.blank, in);
    if (gate.cut_of_longer) continue;
    gate.answer = CureAnswer::cut_open;
    return;
  }
}

/// Which of the load to cut open, so that it tells of the blank: the one that warms last, a witness rather than a
/// piece; the same for all where it can.
std::optional<BlankId> best_to_cut(const CureGateInput& in) {
  const auto rank = [](const CoreTime& one) {
    return std::tuple{one.time, one.witness, -one.stay.value_or(Duration{})};
  };
  const CoreTime* best = nullptr;
  for (const CoreTime& one : in.of_load) {
    const bool tells = warms_as_slowly(one.blank, in.cure, in.of_load) && was_in_as_long(one.blank, in);
    if (!one.can_be_cut || !tells) continue;
    if (best == nullptr || rank(one) > rank(*best)) best = &one;
  }
  return best != nullptr ? std::optional{best->blank} : std::nullopt;
}

/// Of cores, what tells of the blank.
std::vector<Reading> of_core(const CureGateInput& in) {
  std::vector<Reading> readings;
  for (const CoreReading& reading : in.load.core) {
    if (tells_of(reading, in.cure, in.of_load)) readings.emplace_back(reading.at, reading.read);
  }
  return readings;
}

/// Those that were taken while the blank was in, in the order of time.
std::vector<Reading> while_in(std::vector<Reading> readings, const CureGateInput& in) {
  const Instant until = in.out_of_oven.value_or(in.now) + moment_slack;
  std::erase_if(readings, [&](const Reading& r) { return r.first < in.into_oven || r.first > until; });
  std::ranges::stable_sort(readings, {}, &Reading::first);
  return readings;
}

std::optional<Instant> first_at_least(const std::vector<Reading>& readings, Temperature wanted) {
  const auto found = std::ranges::find_if(
      readings, [&](const Reading& reading) { return reading.second + reading_slack >= wanted; });
  return found == readings.end() ? std::nullopt : std::optional{found->first};
}

/// Since when no reading of the core was below its temperature.
std::optional<Instant> core_warm_since(const CureGateInput& in) {
  if (!in.cure.core) return std::nullopt;
  std::vector<Reading> readings = while_in(of_core(in), in);
  const auto last_below = std::find_if(readings.rbegin(), readings.rend(), [&](const Reading& reading) {
    return reading.second + reading_slack < *in.cure.core;
  });
  readings.erase(readings.begin(), last_below.base());
  return first_at_least(readings, *in.cure.core);
}

std::optional<Instant> out_by_core(const CureGateInput& in, const std::vector<Reading>& air) {
  auto warm = core_warm_since(in);
  if (!warm) return std::nullopt;
  *warm += in.into_oven - std::min(in.into_oven, in.load.first_in.value_or(in.into_oven));
  if (in.cure.hold_from_core) return later(*warm, in.cure.hold);
  const auto at_temperature = first_at_least(air, in.cure.air);
  return std::max(*warm, later(std::min(at_temperature.value_or(*warm), *warm), in.cure.hold));
}

void judge_time(const CureGateInput& in, const std::vector<Reading>& air, CureGate& gate) {
  if (air.empty()) return;
  gate.lowest = std::ranges::min(air, {}, &Reading::second).second;
  const auto needed = cure_time(in.cure, *gate.lowest);
  gate.air_too_cold = !needed;
  if (!needed) return;
  const Instant out_from = later(air.front().first, *needed);
  if (air.back().first + moment_slack >= out_from) gate.answer = CureAnswer::by_time;
  if (!gate.out_from || out_from < *gate.out_from) gate.out_from = out_from;
}

/// Why what is known of the load does not answer.
Saying open_since(const CureGate& gate, const Zone& zone) {
  if (gate.cut_of_others) return say(says::cure_open_warms_sooner, *gate.cut);
  if (gate.cut_of_longer) return say(says::cure_open_in_longer, *gate.cut);
  if (gate.out_from) return say(says::cure_open_from, Moment{zone, *gate.out_from});
  return gate.core_of_others ? say(says::cure_open_other_core) : Saying{};
}

Saying what_would_show(const CureGate& gate) {
  if (gate.none_to_cut) return say(says::cure_none_to_cut);
  return gate.to_cut ? say(says::cure_cut_it, *gate.to_cut) : say(says::cure_cut_one);
}

}  // namespace

Verdict verdict_of(CureAnswer answer) {
  switch (answer) {
    case CureAnswer::soft:
    case CureAnswer::open:
      return Verdict::held;
    case CureAnswer::in_oven:
      return Verdict::waits;
    case CureAnswer::cut_open:
    case CureAnswer::by_core:
    case CureAnswer::by_time:
      return Verdict::goes_on;
  }
  return Verdict::held;
}

bool tells_of(const CoreReading& reading, const Cure& cure, std::span<const CoreTime> of_load) {
  if (reading.in) return warms_as_slowly(*reading.in, cure, of_load);
  return std::ranges::all_of(of_load, [&](const CoreTime& one) { return warms_as_slowly(one.blank, cure, of_load); });
}

CureGate cure_gate(const CureGateInput& in) {
  CureGate gate;
  gate.answer = in.out_of_oven ? CureAnswer::open : CureAnswer::in_oven;
  judge_cut(in, gate);
  if (gate.answer == CureAnswer::soft || gate.answer == CureAnswer::cut_open) return gate;
  const auto air = while_in(in.load.air, in);
  gate.core_of_others = !in.load.core.empty() && of_core(in).empty();
  gate.out_from = out_by_core(in, air);
  if (gate.out_from && in.out_of_oven.value_or(in.now) + moment_slack >= *gate.out_from) {
    gate.answer = CureAnswer::by_core;
    return gate;
  }
  judge_time(in, air, gate);
  if (gate.answer == CureAnswer::open && !in.of_load.empty()) {
    gate.to_cut = best_to_cut(in);
    gate.none_to_cut = !gate.to_cut;
  }
  return gate;
}

Saying says_of(const CureGate& gate, const LoadState& load, const Zone& zone, UnitSystem units) {
  switch (gate.answer) {
    case CureAnswer::soft:
      return say(says::cure_soft, *gate.cut, load.name);
    case CureAnswer::cut_open:
      return say(says::cure_cut_open, *gate.cut, load.name);
    case CureAnswer::by_core:
      return say(says::cure_by_core, load.name);
    case CureAnswer::by_time:
      return say(says::cure_by_time, load.name, printed(*gate.lowest, units));
    case CureAnswer::in_oven:
      if (gate.out_from) {
        return say(gate.lowest ? says::cure_out_from_read_air : says::cure_out_from, load.name,
                   Moment{zone, *gate.out_from});
      }
      if (gate.air_too_cold) return say(says::cure_too_cold, printed(*gate.lowest, units), load.name);
      return say(gate.core_of_others ? says::cure_later_core : says::cure_read_air, load.name);
    case CureAnswer::open:
      return say(says::cure_open, load.name, open_since(gate, zone), what_would_show(gate));
  }
  return {};
}

}  // namespace blankwright
