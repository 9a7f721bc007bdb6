#include "plan/shop/placed_times.h"

namespace blankwright {

std::string oven_of(const PlannedOperation& operation) {
  std::string oven;
  for (const PlannedRun& run : operation.runs) {
    if (run.is != RunIs::past || oven.empty()) oven = run.resource;
    if (run.is != RunIs::past) break;
  }
  return oven;
}

std::string oven_of(const PlacedTimes& times, PlannedWork work) {
  for (std::size_t i = 0; i < times.routing.size(); ++i) {
    if (times.routing.at(i)->is(work)) return oven_of(times.planned.operations.at(i));
  }
  return {};
}

}  // namespace blankwright
