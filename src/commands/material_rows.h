#pragma once

#include <string>
#include <vector>

#include "plan/shop/shop_needs.h"

namespace blankwright {

/// What is needed of one thing, as answers tell it.
struct MaterialRow {
  std::vector<std::string> cells;  ///< of material_columns()
  std::vector<std::string> orders;
  bool is_missing = false;
};
std::vector<std::string> material_columns();

/// By when something is to be ordered is told where the shop file says how long it takes to come. `now`: what should
/// have been ordered before is to be at once.
std::vector<MaterialRow> material_rows(const ShopNeeds& needs, const Shop& shop, Instant now);

}  // namespace blankwright
