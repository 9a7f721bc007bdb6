#pragma once

#include <span>
#include <vector>

#include "sheet/paper/dossier.h"

namespace blankwright {

/// An order's id and those of its blanks that baths are planned for; none in a draft, and fewer than are planned
/// where some are not issued yet.
struct IssuedTo {
  std::string order_id;
  std::vector<BlankId> pieces, witnesses;
};

/// The lowest ID of a bath's blanks; none where none is issued.
std::optional<BlankId> lowest_of(const PlannedBath& bath, std::span<const IssuedTo> issued);

/// The baths and the loads that blanks of order number `order` are in.
std::vector<BathOnPaper> baths_of(std::size_t order, const ShopPlan& plan, std::span<const IssuedTo> issued);
std::vector<LoadOnPaper> loads_of(std::size_t order, const ShopPlan& plan, std::span<const IssuedTo> issued);

}  // namespace blankwright
