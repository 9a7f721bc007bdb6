#include "plan/wood/blank_place.h"

#include <fmt/format.h>

#include <algorithm>

namespace blankwright {

const CutBlank* cut_of(const CuttingPlan& plan, std::size_t n, std::size_t pieces) {
  if (plan.witness && n == pieces) return &plan.blanks.at(*plan.witness);
  std::size_t wanted = plan.witness && n > pieces ? n - 1 : n;
  for (std::size_t i = 0; i < plan.blanks.size(); ++i) {
    if (plan.witness == i) continue;
    if (wanted == 0) return &plan.blanks.at(i);
    --wanted;
  }
  return nullptr;
}

std::string position_text(const CuttingPlan& plan, const CutBlank& cut) {
  const bool layered = std::ranges::any_of(
      plan.blanks, [&](const CutBlank& other) { return other.board == cut.board && other.layer > 1; });
  return layered ? fmt::format("{}-{}-{}", cut.strip, cut.position, cut.layer)
                 : fmt::format("{}-{}", cut.strip, cut.position);
}

}  // namespace blankwright
