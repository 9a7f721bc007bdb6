#include "plan/gate_dry.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "plan/tables/wood.h"

namespace blankwright {
namespace {

/// Whole seconds of a length of time, rounded up.
std::chrono::seconds seconds_of(Duration duration) {
  return std::chrono::seconds{static_cast<std::int64_t>(std::ceil(duration / second))};
}

std::string moment_text(const Zone& zone, Instant at) {
  const LocalTime shown = local_time(zone, at);
  return fmt::format("{} {:02}:{:02}", text(shown.date), shown.hour, shown.minute);
}

/// In steps of a hundredth of a percent: the rule is about tenths.
std::string share_text(Share share) { return fmt::format("{:.2f} %", share / percent); }

}  // namespace

std::optional<Volume> dry_volume(const BlankState& blank, const BlankSize& nominal) {
  if (const auto& size = blank.dry_size) {
    return size->width * size->depth * size->length.value_or(nominal.dry_length.value_or(nominal.squared_length));
  }
  if (!nominal.dry_section || !nominal.dry_length) return std::nullopt;
  return *nominal.dry_section * *nominal.dry_section * *nominal.dry_length;
}

std::optional<DryGate> dry_gate(const BlankState& blank, std::optional<Volume> volume, const Drying& planned,
                                const DryingFacts& facts, Instant now) {
  if (blank.stage != Stage::begun) return std::nullopt;
  DryGate gate;
  if (blank.dry.empty()) return gate;
  gate.answer = DryAnswer::weigh_again;
  const Weighing& last = blank.dry.back();
  const auto interval = seconds_of(facts.between_weighings.value);
  gate.weigh_from = last.at + interval;
  if (volume && last.net >= cell_wall * *volume) {
    gate.answer = DryAnswer::too_dense;
    return gate;
  }
  if (blank.dry.size() > 1) {
    gate.moisture_gone = (blank.dry.front().net - last.net) / last.net * (100 * percent);
  }
  // The latest weighing that lies far enough before the last one.
  const auto before = std::find_if(blank.dry.rbegin() + 1, blank.dry.rend(),
                                   [&](const Weighing& w) { return last.at - w.at >= interval; });
  if (before == blank.dry.rend()) {
    if (blank.dry.size() > 1) gate.weigh_from = blank.dry.front().at + interval;
    return gate;
  }
  gate.lost = (before->net - last.net) / last.net * (100 * percent);
  // What gained as much is as little stable: it drew moisture, or one of the weighings is wrong.
  if (*gate.lost > facts.stable.value || *gate.lost < -1 * facts.stable.value) {
    gate.answer = DryAnswer::dry_longer;
    return gate;
  }
  gate.answer = DryAnswer::dry;
  gate.weigh_from.reset();
  if (planned.regain) {
    const double open = std::chrono::duration<double>(std::max(now - last.at, std::chrono::seconds{0})).count();
    gate.regained = std::min(std::sqrt(open * second / *planned.regain) * most_regain, planned.room_moisture);
    if (*gate.regained > most_regain) gate.answer = DryAnswer::dry_again;
  }
  return gate;
}

std::string in_words(const DryGate& gate, const Zone& zone) {
  switch (gate.answer) {
    case DryAnswer::weigh:
      return "not weighed yet: weigh it after the oven, cooled and sealed";
    case DryAnswer::weigh_again:
      return fmt::format("weigh it again, from {} on", moment_text(zone, *gate.weigh_from));
    case DryAnswer::too_dense:
      return "HOLD: for its size it weighs more than wood without a pore; weigh and measure it again";
    case DryAnswer::dry_longer:
      if (*gate.lost < Share{}) {
        return fmt::format("HOLD: gained {} since the weighing before; dry it on and weigh again from {} on",
                           share_text(-1 * *gate.lost), moment_text(zone, *gate.weigh_from));
      }
      return fmt::format(
          "HOLD: lost {} since the weighing before, {} of moisture in all; dry it on and weigh again from {} on",
          share_text(*gate.lost), share_text(*gate.moisture_gone), moment_text(zone, *gate.weigh_from));
    case DryAnswer::dry_again:
      return fmt::format("HOLD: unless it lay sealed it has taken up about {}; dry and weigh it again",
                         share_text(*gate.regained));
    case DryAnswer::dry:
      return fmt::format("dry ({} lost between two weighings, {} of moisture in all): into the bath, or seal it",
                         share_text(*gate.lost), share_text(*gate.moisture_gone));
  }
  return {};
}

}  // namespace blankwright
