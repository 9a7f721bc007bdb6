#include "plan/wood/dryness.h"

#include <algorithm>
#include <cmath>

#include "measure/elapsed.h"
#include "plan/tables/wood.h"

namespace blankwright {
namespace {

/// How long it has lain so: until `since`, and from then on if it still does.
Duration lain(std::chrono::seconds before, const std::optional<Instant>& since, Instant now) {
  const Duration ended = duration_of(before);
  return since && *since < now ? ended + between(*since, now) : ended;
}

/// Counts what it has taken up since it was last weighed.
void count_regain(Dryness& seen, const BlankState& blank, const Drying& planned, const DryingFacts& facts,
                  Instant now) {
  if (!planned.regain) return;
  const double open = lain(blank.open_before, blank.open_since, now) / *planned.regain;
  const double sealed = lain(blank.sealed_before, blank.sealed_since, now) / facts.sealed_regain.value;
  seen.regained = std::min(std::sqrt(open + sealed) * most_regain, planned.room_moisture);
  seen.mostly_sealed = sealed > open;
  if (*seen.regained > most_regain) seen.answer = DryAnswer::dry_again;
}

/// When it is cool enough for the bath; none where nobody entered that it came out of the oven.
std::optional<Instant> cool_from(const BlankState& blank, const Drying& planned) {
  if (!blank.out_of_drying) return std::nullopt;
  return later(*blank.out_of_drying, planned.cool);
}

}  // namespace

std::optional<Volume> dry_volume(const BlankState& blank, const BlankSize& nominal) {
  if (const auto& size = blank.dry_size) {
    return size->width * size->depth * size->length.value_or(nominal.dry_length.value_or(nominal.squared_length));
  }
  if (!nominal.dry_section || !nominal.dry_length) return std::nullopt;
  return *nominal.dry_section * *nominal.dry_section * *nominal.dry_length;
}

std::optional<Dryness> dryness(const BlankState& blank, std::optional<Volume> volume, const Drying& planned,
                               const DryingFacts& facts, Instant now) {
  if (blank.stage != Stage::begun) return std::nullopt;
  Dryness seen;
  if (blank.dry.empty()) return seen;
  seen.answer = DryAnswer::weigh_again;
  const Weighing& last = blank.dry.back();
  const Duration interval = facts.between_weighings.value;
  seen.weigh_from = later(last.at, interval);
  if (volume && last.net >= cell_wall * *volume) {
    seen.answer = DryAnswer::too_dense;
    return seen;
  }
  if (blank.dry.size() > 1) {
    seen.moisture_gone = (blank.dry.front().net - last.net) / last.net * (100 * percent);
  }
  if (blank.into_drying && last.at < *blank.into_drying) return seen;  // it was dried on since
  // The latest weighing that lies far enough before the last one.
  const auto before = std::find_if(blank.dry.rbegin() + 1, blank.dry.rend(),
                                   [&](const Weighing& w) { return last.at >= later(w.at, interval); });
  if (before == blank.dry.rend()) {
    if (blank.dry.size() > 1) seen.weigh_from = later(blank.dry.front().at, interval);
    return seen;
  }
  seen.lost = (before->net - last.net) / last.net * (100 * percent);
  // What gained as much is as little stable: it drew moisture, or one of the weighings is wrong.
  if (*seen.lost > facts.stable.value || *seen.lost < -1 * facts.stable.value) {
    seen.answer = DryAnswer::dry_longer;
    return seen;
  }
  seen.answer = DryAnswer::dry;
  seen.weigh_from.reset();
  count_regain(seen, blank, planned, facts, now);
  seen.cool_from = cool_from(blank, planned);
  seen.sealed = !blank.open_since;
  if (seen.answer == DryAnswer::dry && blank.is_drying) seen.answer = DryAnswer::in_oven;
  if (seen.answer == DryAnswer::dry && seen.cool_from && now < *seen.cool_from) seen.answer = DryAnswer::hot;
  return seen;
}

}  // namespace blankwright
