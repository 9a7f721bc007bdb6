#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.h"

namespace blankwright {

/// What a grade of studs promises at least.
struct Grade {
  std::string_view name;        ///< "ISO 3506-1 A2-70"
  Stress tensile;               ///< strength
  std::optional<Stress> yield;  ///< or 0.2 % proof; where the standard promises one
  std::string_view source;
};

/// The grade as users write it, for a stud of that diameter: "A2-70", "8.8", "class 8.8", "SAE grade 2", "ASTM A307",
/// "304", "brass". None for a grade that the table lacks, that is not made so thick, or that two standards understand
/// differently ("grade 2" without its standard). Where the temper or the class is not said, the softest that is sold
/// counts: "A2" is A2-50, "brass" annealed C36000.
std::optional<Grade> find_grade(std::string_view written, Length diameter);

/// Whose the strengths of the table are; some several times.
std::vector<std::string> grade_sources();

}  // namespace blankwright
