#include "plan/gate/gate_cure.h"

#include <fmt/format.h>

#include <algorithm>

#include "measure/elapsed.h"

namespace blankwright {
namespace {

using Reading = std::pair<Instant, Temperature>;

constexpr std::chrono::minutes moment_slack{1};

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
  if (!cure.core_time_cautious) return true;
  const auto is_as_slow = [&](const CoreTime& other) { return other.time >= *cure.core_time_cautious; };
  if (!reading.in) return std::ranges::all_of(of_load, is_as_slow);
  const auto measured = std::ranges::find(of_load, *reading.in, &CoreTime::blank);
  return measured != of_load.end() && is_as_slow(*measured);
}

CureGate cure_gate(const CureGateInput& in) {
  CureGate gate;
  if (!in.load.cut.empty()) {
    const auto soft = std::ranges::find(in.load.cut, false, &BlankCut::good);
    gate.answer = soft != in.load.cut.end() ? CureAnswer::soft : CureAnswer::cut_open;
    gate.cut = soft != in.load.cut.end() ? soft->blank : in.load.cut.front().blank;
    return gate;
  }
  gate.answer = in.out_of_oven ? CureAnswer::open : CureAnswer::in_oven;
  const auto air = while_in(in.load.air, in);
  gate.core_of_others = !in.load.core.empty() && of_core(in).empty();
  gate.out_from = out_by_core(in, air);
  if (gate.out_from && in.out_of_oven.value_or(in.now) + moment_slack >= *gate.out_from) {
    gate.answer = CureAnswer::by_core;
    return gate;
  }
  judge_time(in, air, gate);
  return gate;
}

std::string in_words(const CureGate& gate, const LoadState& load, const Zone& zone, UnitSystem units) {
  switch (gate.answer) {
    case CureAnswer::soft:
      return fmt::format(
          "{} of load {} was cut open and is not hard to the middle; cured wood cannot be cured "
          "again",
          gate.cut->shown(), load.name);
    case CureAnswer::cut_open:
      return fmt::format("cured: {} of load {} was cut open and is hard to the middle", gate.cut->shown(), load.name);
    case CureAnswer::by_core:
      return fmt::format("cured: load {} was held with its core at temperature", load.name);
    case CureAnswer::by_time:
      return fmt::format("cured, by time: load {} was in long enough for air of {}", load.name,
                         text(*gate.lowest, units));
    case CureAnswer::in_oven:
      if (gate.out_from) {
        return fmt::format("load {} may come out from {} on{}", load.name, clock_text(zone, *gate.out_from),
                           gate.lowest ? "; read its air once more then" : "");
      }
      if (gate.air_too_cold) {
        return fmt::format("air of {} is too cold for time alone to tell that load {} is cured; measure its core",
                           text(*gate.lowest, units), load.name);
      }
      if (gate.core_of_others) {
        return fmt::format(
            "load {} holds blanks whose middle warms later: measure one of those, and say which "
            "(in_blank)",
            load.name);
      }
      return fmt::format(
          "load {}: enter the true temperature of its air now and when it comes out, or that of a core", load.name);
    case CureAnswer::open:
      return fmt::format(
          "nothing shows that load {} is cured{}; cut a blank of it open, or scrap it: cold, it cannot be "
          "cured "
          "again",
          load.name,
          gate.out_from         ? fmt::format(" (by its readings from {} on)", clock_text(zone, *gate.out_from))
          : gate.core_of_others ? std::string{" (its core was not measured in a blank that warms as slowly)"}
                                : std::string{});
  }
  return {};
}

}  // namespace blankwright
