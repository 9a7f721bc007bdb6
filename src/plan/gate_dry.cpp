#include "plan/gate_dry.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "measure/elapsed.h"
#include "plan/tables/wood.h"

namespace blankwright {
namespace {

/// How long it lay open to the room since it was last weighed.
Duration open_for(const BlankState& blank, Instant now) {
  const Duration before = static_cast<double>(blank.open_before.count()) * second;
  return blank.open_since && *blank.open_since < now ? before + between(*blank.open_since, now) : before;
}

/// When it is cool enough for the bath; none where nobody entered that it came out of the oven.
std::optional<Instant> cool_from(const BlankState& blank, const Drying& planned) {
  if (!blank.out_of_drying) return std::nullopt;
  return later(*blank.out_of_drying, planned.cool);
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
  const Duration interval = facts.between_weighings.value;
  gate.weigh_from = later(last.at, interval);
  if (volume && last.net >= cell_wall * *volume) {
    gate.answer = DryAnswer::too_dense;
    return gate;
  }
  if (blank.dry.size() > 1) {
    gate.moisture_gone = (blank.dry.front().net - last.net) / last.net * (100 * percent);
  }
  if (blank.into_drying && last.at < *blank.into_drying) return gate;  // it was dried on since
  // The latest weighing that lies far enough before the last one.
  const auto before = std::find_if(blank.dry.rbegin() + 1, blank.dry.rend(),
                                   [&](const Weighing& w) { return last.at >= later(w.at, interval); });
  if (before == blank.dry.rend()) {
    if (blank.dry.size() > 1) gate.weigh_from = later(blank.dry.front().at, interval);
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
    gate.regained = std::min(std::sqrt(open_for(blank, now) / *planned.regain) * most_regain, planned.room_moisture);
    if (*gate.regained > most_regain) gate.answer = DryAnswer::dry_again;
  }
  gate.cool_from = cool_from(blank, planned);
  gate.sealed = !blank.open_since;
  if (gate.answer == DryAnswer::dry && blank.is_drying) gate.answer = DryAnswer::in_oven;
  if (gate.answer == DryAnswer::dry && gate.cool_from && now < *gate.cool_from) gate.answer = DryAnswer::hot;
  return gate;
}

std::string in_words(const DryGate& gate, const Zone& zone) {
  switch (gate.answer) {
    case DryAnswer::weigh:
      return "not weighed yet: weigh it after the oven, cooled and sealed";
    case DryAnswer::weigh_again:
      return fmt::format("weigh it again, from {} on", clock_text(zone, *gate.weigh_from));
    case DryAnswer::too_dense:
      return "HOLD: for its size it weighs more than wood without a pore; weigh and measure it again";
    case DryAnswer::dry_longer:
      if (*gate.lost < Share{}) {
        return fmt::format("HOLD: gained {} since the weighing before; dry it on and weigh again from {} on",
                           share_text(-1 * *gate.lost), clock_text(zone, *gate.weigh_from));
      }
      return fmt::format(
          "HOLD: lost {} since the weighing before, {} of moisture in all; dry it on and weigh again from {} on",
          share_text(*gate.lost), share_text(*gate.moisture_gone), clock_text(zone, *gate.weigh_from));
    case DryAnswer::dry_again:
      return fmt::format(
          "HOLD: it lay open and has taken up about {} of moisture; dry and weigh it again (if it lay "
          "sealed, enter `sealed` with its time)",
          share_text(*gate.regained));
    case DryAnswer::hot:
      return fmt::format("dry; let it cool sealed until {}: hot wood starts the cure in the bath",
                         clock_text(zone, *gate.cool_from));
    case DryAnswer::in_oven:
      return fmt::format("dry ({} lost between two weighings): enter when it comes out of the oven, and seal it",
                         share_text(*gate.lost));
    case DryAnswer::dry:
      return fmt::format("dry ({} lost between two weighings, {} of moisture in all): into the bath once it is cold{}",
                         share_text(*gate.lost), share_text(*gate.moisture_gone), gate.sealed ? "" : ", or seal it");
  }
  return {};
}

}  // namespace blankwright
