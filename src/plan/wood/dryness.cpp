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

/// Counts what it has taken up since it was dry.
void count_regain(Dryness& seen, const BlankState& blank, const Drying& planned, const DryingFacts& facts,
                  Instant now) {
  const Share heavier = std::max(seen.heavier.value_or(Share{}), Share{});
  if (heavier > most_regain) {
    seen.answer = DryAnswer::dry_again;
    return;
  }
  if (!planned.regain) return;
  const double open = lain(blank.open_before, blank.open_since, now) / *planned.regain;
  const double sealed = lain(blank.sealed_before, blank.sealed_since, now) / facts.sealed_regain.value;
  const double weighed = heavier / most_regain;
  seen.regained = std::min(std::sqrt(weighed * weighed + open + sealed) * most_regain, planned.room_moisture);
  seen.mostly_sealed = sealed > open;
  if (*seen.regained > most_regain) seen.answer = DryAnswer::weigh_lain;
  if (*seen.regained > too_moist) seen.answer = DryAnswer::dry_again;
}

/// By how much it became lighter, of the last mass.
Share lost_between(const Weighing& before, const Weighing& last) {
  return (before.net - last.net) / last.net * (100 * percent);
}

/// What gained as much is as little stable: it drew moisture, or one of the weighings is wrong.
bool is_stable(Share lost, const DryingFacts& facts) {
  return lost <= facts.stable.value && lost >= -1 * facts.stable.value;
}

/// When a weighing shows what it lost since an earlier one: it has to dry for the interval between them. None where
/// it came out of its drying oven sooner, since outside nothing dries further; of several stays in there the last
/// counts.
std::optional<Instant> shows_from(const BlankState& blank, const Weighing& earlier, Duration interval) {
  const bool is_out = !blank.is_drying && blank.out_of_drying;
  const Instant from = blank.into_drying ? std::max(earlier.at, *blank.into_drying) : earlier.at;
  const Instant shows = later(from, interval);
  return is_out && shows > *blank.out_of_drying ? std::nullopt : std::optional{shows};
}

/// The latest weighing against which that one shows what it lost; none where there is none.
const Weighing* far_before(const BlankState& blank, std::size_t weighing, Duration interval) {
  for (std::size_t i = weighing; i-- > 0;) {
    const auto shows = shows_from(blank, blank.dry[i], interval);
    if (shows && blank.dry[weighing].at >= *shows) return &blank.dry[i];
  }
  return nullptr;
}

/// How it weighed when it was seen to be dry, before its last weighing, where it was in no drying oven between: in
/// there the last that showed it, outside the first, since it only becomes heavier there. None while it is in there.
const Weighing* shown_dry(const BlankState& blank, const DryingFacts& facts) {
  const std::vector<Weighing>& all = blank.dry;
  const auto is_out = [&](const Weighing& w) {
    return !blank.is_drying && blank.out_of_drying && w.at > *blank.out_of_drying;
  };
  if (!is_out(all.back())) return nullptr;
  const Weighing* dry = nullptr;
  for (std::size_t i = 0; i + 1 < all.size(); ++i) {
    const Weighing* before = far_before(blank, i, facts.between_weighings.value);
    if (before == nullptr || !is_stable(lost_between(*before, all[i]), facts)) continue;
    if (dry == nullptr || !is_out(all[i])) dry = &all[i];
  }
  return dry;
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
  if (volume && last.net >= cell_wall * *volume) {
    seen.answer = DryAnswer::too_dense;
    return seen;
  }
  if (blank.dry.size() > 1) {
    seen.moisture_gone = (blank.dry.front().net - last.net) / last.net * (100 * percent);
  }
  const Weighing* dry = shown_dry(blank, facts);
  const Weighing* before = dry != nullptr ? dry : far_before(blank, blank.dry.size() - 1, interval);
  if (before == nullptr) {
    seen.weigh_from = shows_from(blank, blank.dry.front(), interval);
    if (!seen.weigh_from) seen.answer = DryAnswer::left_oven;
    return seen;
  }
  seen.lost = lost_between(*before, last);
  if (dry != nullptr) seen.heavier = (last.net - dry->net) / dry->net * (100 * percent);
  if (dry != nullptr ? *seen.lost > facts.stable.value : !is_stable(*seen.lost, facts)) {
    seen.answer = DryAnswer::dry_longer;
    seen.weigh_from = later(last.at, interval);
    return seen;
  }
  seen.answer = DryAnswer::dry;
  count_regain(seen, blank, planned, facts, now);
  seen.cool_from = cool_from(blank, planned);
  seen.sealed = !blank.open_since;
  if (seen.answer == DryAnswer::dry && blank.is_drying) seen.answer = DryAnswer::in_oven;
  if (seen.answer == DryAnswer::dry && seen.cool_from && now < *seen.cool_from) seen.answer = DryAnswer::hot;
  return seen;
}

}  // namespace blankwright
