#include "sheet/left_over_resin.h"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace blankwright {
namespace {

bool of_that_kind(const ActivatedFacts& bottle, const PlannedBath& bath) {
  const std::string dye = bottle.dye ? bottle.dye->value : "";
  return bottle.resin.value == bath.bath.resin->name.value && dye == bath.dye;
}

}  // namespace

std::optional<Date> activated_on(const Dossier& d, const PlannedBath& bath) {
  std::optional<Date> oldest;
  if (bath.vacuum) oldest = date_of(d.shop.zone.value, bath.vacuum->from);
  if (bath.bath.reused <= 0 * litre) return oldest;
  for (const ActivatedFacts& bottle : d.shop.activated) {
    if (of_that_kind(bottle, bath) && (!oldest || bottle.on.value < *oldest)) oldest = bottle.on.value;
  }
  return oldest;
}

std::optional<Date> use_by(const Dossier& d, const PlannedBath& bath) {
  const auto from = activated_on(d, bath);
  const auto& life = bath.bath.resin->storage_life;
  if (!from || !life) return std::nullopt;
  const auto days = std::chrono::days{static_cast<int>(std::floor(life->value / (24 * hour) + 1e-9))};
  return Date{std::chrono::sys_days{*from} + days};
}

}  // namespace blankwright
