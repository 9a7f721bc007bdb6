#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "breach.h"
#include "shop.h"

namespace calendar_rules {

/// What came of one seed.
struct Lived {
  int seed = 0;
  int orders = 0, refused = 0;  ///< planned; refused as impossible or planned as if alone
  int runs = 0, baths = 0, under_way = 0;
  Breaches breaches;
  std::vector<std::string> commands;  ///< with which it can be seen again, in the seed's folder
  double cpu_s = 0;
};

/// A shop and its orders by chance, planned, worked at, and planned again from the middle of the work.
Lived live(const std::filesystem::path& program, const std::filesystem::path& folder, int seed);

}  // namespace calendar_rules
