#include "plan/tables/drills.h"

#include "diagnose/failure.h"

namespace blankwright {

std::optional<Drill> next_drill_up(std::span<const Drill> owned, Length least) {
  const Drill* best = nullptr;
  for (const Drill& drill : owned) {
    const bool thick_enough = drill.diameter + drill_slack >= least;
    if (thick_enough && (best == nullptr || drill.diameter < best->diameter)) best = &drill;
  }
  return best == nullptr ? std::nullopt : std::optional{*best};
}

Length point_length(Length drill, Angle included) {
  BW_EXPECT(drill >= Length{});
  BW_EXPECT(included >= 59.999 * degree && included <= 180.001 * degree);
  return (drill / 2) / tan(included / 2);
}

}  // namespace blankwright
