#pragma once

#include "placing.h"

namespace best_plans {

struct Found {
  Result result;
  bool proved = false;  ///< no order of placing is less late
};

/// The best of so many orders of placing, by annealing; the same for a seed everywhere.
std::optional<Found> best_of(const Problem& problem, const Lines& lines, int placings, unsigned seed);

}  // namespace best_plans
