#include "sheet/paper/on_paper.h"

#include <algorithm>

namespace blankwright {
namespace {

ShareOnPaper on_paper(const BlankShare& share, const IssuedTo& issued) {
  ShareOnPaper out{issued.order_id, share.count, {}, share.witnesses, {}};
  if (issued.blanks.empty()) return out;
  const auto first = issued.blanks.begin() + share.first;
  out.blanks.assign(first, first + share.count);
  const auto witness = issued.blanks.begin() + issued.pieces + share.first_witness;
  out.witnesses.assign(witness, witness + share.witnesses);
  return out;
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

std::vector<BathOnPaper> baths_of(std::size_t order, const ShopPlan& plan, std::span<const IssuedTo> issued) {
  std::vector<BathOnPaper> out;
  for (std::size_t i = 0; i < plan.baths.size(); ++i) {
    const PlannedBath& bath = plan.baths.at(i);
    if (has(bath.shares, order)) out.push_back({static_cast<int>(i) + 1, &bath, on_paper(bath.shares, issued)});
  }
  return out;
}

std::vector<LoadOnPaper> loads_of(std::size_t order, const ShopPlan& plan, std::span<const IssuedTo> issued) {
  std::vector<LoadOnPaper> out;
  for (std::size_t i = 0; i < plan.loads.size(); ++i) {
    const PlannedLoad& load = plan.loads.at(i);
    if (!has(load.shares, order)) continue;
    out.push_back({static_cast<int>(i) + 1, static_cast<int>(load.bath) + 1, &load, on_paper(load.shares, issued)});
  }
  return out;
}

}  // namespace blankwright
