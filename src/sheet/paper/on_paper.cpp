#include "sheet/paper/on_paper.h"

#include <algorithm>

namespace blankwright {
namespace {

/// So many of the blanks from number `first` on, as far as they are issued.
std::vector<BlankId> some_of(const std::vector<BlankId>& blanks, int first, int count) {
  std::vector<BlankId> some;
  for (int i = first; i < first + count && i < std::ssize(blanks); ++i) {
    some.push_back(blanks.at(static_cast<std::size_t>(i)));
  }
  return some;
}

ShareOnPaper on_paper(const BlankShare& share, const IssuedTo& issued) {
  return {issued.order_id, share.count, some_of(issued.pieces, share.first, share.count), share.witnesses,
          some_of(issued.witnesses, share.first_witness, share.witnesses)};
}

std::vector<ShareOnPaper> on_paper(const std::vector<BlankShare>& shares, std::span<const IssuedTo> issued) {
  std::vector<ShareOnPaper> out;
  for (const BlankShare& share : shares) out.push_back(on_paper(share, issued[share.order]));
  return out;
}

bool has(const std::vector<BlankShare>& shares, std::size_t order) {
  return std::ranges::any_of(shares, [&](const BlankShare& share) { return share.order == order; });
}

}  // namespace

std::optional<BlankId> lowest_of(const PlannedBath& bath, std::span<const IssuedTo> issued) {
  std::optional<BlankId> lowest;
  for (const ShareOnPaper& share : on_paper(bath.shares, issued)) {
    for (const auto* ids : {&share.blanks, &share.witnesses}) {
      for (const BlankId& id : *ids) lowest = std::min(id, lowest.value_or(id));
    }
  }
  return lowest;
}

std::vector<BathOnPaper> baths_of(std::size_t order, const ShopPlan& plan, std::span<const IssuedTo> issued) {
  std::vector<BathOnPaper> out;
  for (std::size_t i = 0; i < plan.baths.size(); ++i) {
    const PlannedBath& bath = plan.baths.at(i);
    if (has(bath.shares, order))
      out.push_back({static_cast<int>(bath.number) + 1, &bath, on_paper(bath.shares, issued)});
  }
  return out;
}

std::vector<LoadOnPaper> loads_of(std::size_t order, const ShopPlan& plan, std::span<const IssuedTo> issued) {
  std::vector<LoadOnPaper> out;
  for (std::size_t i = 0; i < plan.loads.size(); ++i) {
    const PlannedLoad& load = plan.loads.at(i);
    if (!has(load.shares, order)) continue;
    out.push_back({static_cast<int>(load.number) + 1, static_cast<int>(plan.baths.at(load.bath).number) + 1, &load,
                   on_paper(load.shares, issued)});
  }
  return out;
}

}  // namespace blankwright
