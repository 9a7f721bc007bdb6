#pragma once

#include <filesystem>

namespace simulated {

/// What the register is for: one shop makes the same orders twice, once with all that its register knows from the
/// orders before, once with an empty register for each. Tells how many blanks were started and left over, and how
/// many orders came short.
void compare_with_and_without_record(const std::filesystem::path& program, const std::filesystem::path& folder,
                                     int seed, int orders);

}  // namespace simulated
