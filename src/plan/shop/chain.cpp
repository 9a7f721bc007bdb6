#include "plan/shop/chain.h"

#include <algorithm>

namespace blankwright {
namespace {

/// Is it placed together with the one before it?
bool belongs_to(const Operation& op, const Operation& before, const std::string& vessel) {
  const bool stays_in_vessel = !vessel.empty() && op.resource == vessel && before.resource == vessel;
  return op.longest_wait || op.lasts || op.on_a_later_day || op.begun || stays_in_vessel;
}

}  // namespace

std::size_t Chain::block_of(std::size_t op) const {
  return static_cast<std::size_t>(std::ranges::upper_bound(ends, op) - ends.begin());
}

void cut_into_blocks(Chain& chain) {
  std::size_t last_cut = chain.ops.size();
  for (const Behind& one : chain.tied) last_cut = std::min(last_cut, one.after);
  std::size_t begin = 0;
  for (std::size_t i = 1; i < chain.ops.size() && i <= last_cut; ++i) {
    if (belongs_to(chain.ops.at(i), chain.ops.at(i - 1), chain.vessel)) continue;
    chain.ends.push_back(i);
    begin = i;
  }
  if (!chain.ops.empty()) chain.ends.push_back(chain.ops.size());
  for (Behind& one : chain.tied) one.after -= begin;
  begin = 0;
  for (const std::size_t end : chain.ends) {
    for (std::size_t i = begin; i < end; ++i) {
      if (chain.ops.at(i).lasts) chain.ops.at(i).lasts->of -= begin;
    }
    begin = end;
  }
}

}  // namespace blankwright
