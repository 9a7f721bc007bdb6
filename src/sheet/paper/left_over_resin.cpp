#include "sheet/paper/left_over_resin.h"

#include <chrono>
#include <cmath>

namespace blankwright {

std::optional<Date> use_by(const PlannedBath& bath) {
  const auto& life = bath.bath.resin->storage_life;
  if (!bath.activated || !life) return std::nullopt;
  const auto days = std::chrono::days{static_cast<int>(std::floor(life->value / (24 * hour) + 1e-9))};
  return Date{std::chrono::sys_days{*bath.activated} + days};
}

}  // namespace blankwright
