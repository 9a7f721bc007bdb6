#pragma once

#include <span>
#include <vector>

#include "sheet/paper/dossier.h"

namespace blankwright {

/// An order's id and the blanks that were issued to it; none in a draft.
struct IssuedTo {
  std::string order_id;
  int pieces = 0;
  std::vector<BlankId> blanks;  ///< pieces, then witnesses
};

/// The baths and the loads that blanks of order number `order` are in.
std::vector<BathOnPaper> baths_of(std::size_t order, const ShopPlan& plan, std::span<const IssuedTo> issued);
std::vector<LoadOnPaper> loads_of(std::size_t order, const ShopPlan& plan, std::span<const IssuedTo> issued);

}  // namespace blankwright
