#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "measure/quantity.h"

namespace blankwright {

/// A size of the Unified thread with the threads per inch of its three graded series; 0 where the series has none.
/// Source: ASME B1.1. The rows #8, #10 and 1/4 to 5/8 of UNC and UNF were seen in public copies; the rest and UNEF
/// are from memory. Sizes above 1-1/2 in are left out: no handle has such a stud.
struct UnifiedSize {
  std::string_view name;  ///< "#10", "5/16", "1-1/8"
  double inches;
  int coarse, fine, extra_fine;
};
std::span<const UnifiedSize> unified_sizes();

/// The size of that name, or none.
const UnifiedSize* find_unified(std::string_view name);

/// UNC, UNF, UNEF in this order, as far as the size has them.
std::vector<int> graded_series(const UnifiedSize& size);

/// "UNC", "UNF", "UNEF"; "UN" for a pitch of the constant-pitch series (4 … 32) finer than coarse, 1/4 in and up;
/// else "UNS". For a size outside the table (null) always "UNS". Source: ASME B1.1, section 2, from memory.
std::string_view unified_series(const UnifiedSize* size, int per_inch);

/// A metric size, its coarse pitch and the fine ones to choose from; 0 where there is none.
/// Source: ISO 261. M4 to M16 as in public copies of ISO 261/898-1; the rest from memory.
struct MetricSize {
  double diameter, coarse;  ///< mm
  double fine[3];           ///< mm, falling
};

std::span<const MetricSize> metric_sizes();

/// The size of that diameter in mm, or none.
const MetricSize* find_metric(double diameter);

inline constexpr double finest_metric_pitch = 0.2;  ///< mm, the smallest of ISO 261

/// The greatest pitch that is believed: 1.2 times the coarse pitch of the size, or of the next larger one where the
/// size has no coarse pitch. What is above is more likely a screw's length (metric) or a slip.
double greatest_metric_pitch(double diameter);  ///< mm for mm; diameter 1 to 64
double fewest_threads_per_inch(double inches);  ///< for a major diameter up to 1-1/2 in

}  // namespace blankwright
