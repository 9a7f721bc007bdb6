#include "plan/shop/sequences.h"

#include <algorithm>
#include <tuple>

#include "plan/shop/urgency.h"

namespace blankwright {
namespace {

void add_blocks(Sequence& out, std::size_t chain, std::span<const Chain> chains) {
  out.insert(out.end(), chains[chain].blocks(), chain);
}

/// One head after the other, and behind the last one that they wait for, what orders do by themselves.
Sequence with_rests(std::span<const std::size_t> heads, std::span<const Chain> chains) {
  Sequence out;
  std::vector<std::size_t> left(chains.size());
  for (std::size_t i = 0; i < chains.size(); ++i) left.at(i) = chains[i].behind.size();
  for (const std::size_t head : heads) {
    add_blocks(out, head, chains);
    for (const std::size_t order : chains[head].orders) {
      for (std::size_t i = 0; i < chains.size(); ++i) {
        const Chain& rest = chains[i];
        if (rest.order != order || std::ranges::find(rest.behind, head) == rest.behind.end()) continue;
        if (--left.at(i) == 0) add_blocks(out, i, chains);
      }
    }
  }
  return out;
}

Sequence sequence_by(std::span<const Chain> chains, std::span<const OrderToMake> orders, bool holds_place,
                     const auto& before) {
  std::vector<std::size_t> heads;
  for (std::size_t i = 0; i < chains.size(); ++i) {
    if (chains[i].behind.empty() && orders[chains[i].order].holds_place == holds_place) heads.push_back(i);
  }
  std::ranges::stable_sort(heads, {}, before);
  return with_rests(heads, chains);
}

}  // namespace

Sequence sequence_by_dye(std::span<const Chain> chains, std::span<const OrderToMake> orders, bool holds_place) {
  return sequence_by(chains, orders, holds_place, [&](std::size_t i) {
    const OrderToMake& order = orders[chains[i].order];
    return std::tuple{chains[i].bath ? order.darkness : 0, due_of(order), order.id};
  });
}

Sequence sequence_by_date(std::span<const Chain> chains, std::span<const OrderToMake> orders, bool holds_place) {
  return sequence_by(chains, orders, holds_place, [&](std::size_t i) {
    const OrderToMake& order = orders[chains[i].order];
    return std::tuple{due_of(order), order.id};
  });
}

Moved moved(const Sequence& sequence, Draw& draw) {
  constexpr std::size_t near = 3;
  const std::size_t from = draw.below(sequence.size());
  const std::size_t chain = sequence[from];
  const auto at = [&](std::size_t i) { return static_cast<std::ptrdiff_t>(i); };
  Sequence out{sequence.begin(), sequence.begin() + at(from)};
  Sequence moving{chain};
  const bool all_left = draw.below(5) == 0;
  for (std::size_t i = from + 1; i < sequence.size(); ++i)
    (all_left && sequence[i] == chain ? moving : out).push_back(sequence[i]);
  std::size_t to = draw.below(out.size() + 1);
  if (draw.below(2) == 0) {
    const std::size_t low = from < near ? 0 : from - near;
    to = low + draw.below(std::min(from + near, out.size()) - low + 1);
  }
  out.insert(out.begin() + at(to), moving.begin(), moving.end());
  return {std::move(out), std::min(from, to)};
}

}  // namespace blankwright
