#include "plan/shop/turns.h"

#include <algorithm>
#include <tuple>

namespace blankwright {
namespace {

std::chrono::sys_days due_of(const OrderToMake& order) {
  return order.due ? std::chrono::sys_days{order.due->value} : std::chrono::sys_days::max();
}

/// Baths in the order in which they were formed, then orders without one.
std::vector<Turn> all_turns(const ShopPlan& plan, std::span<const OrderToMake> orders) {
  std::vector<Turn> turns;
  std::vector<bool> has_bath(orders.size());
  for (std::size_t bath = 0; bath < plan.baths.size(); ++bath) {
    turns.push_back({bath, plan.baths.at(bath).shares.front().order});
    for (const BlankShare& share : plan.baths.at(bath).shares) has_bath.at(share.order) = true;
  }
  for (std::size_t i = 0; i < orders.size(); ++i) {
    if (!has_bath.at(i)) turns.push_back({std::nullopt, i});
  }
  return turns;
}

bool are_of_a_kind(const Turn& a, const Turn& b, std::span<const OrderToMake> orders) {
  const OrderToMake& one = orders[a.order];
  const OrderToMake& other = orders[b.order];
  return a.bath && b.bath && one.resin == other.resin && one.dye == other.dye;
}

}  // namespace

std::vector<Turn> turns_by_dye(const ShopPlan& plan, std::span<const OrderToMake> orders) {
  std::vector<Turn> turns = turns_by_date(plan, orders);
  std::ranges::stable_sort(turns, {}, [&](const Turn& turn) {
    const OrderToMake& order = orders[turn.order];
    return std::pair{!order.holds_place, turn.bath ? order.darkness : 0};
  });
  return turns;
}

std::vector<Turn> turns_by_date(const ShopPlan& plan, std::span<const OrderToMake> orders) {
  std::vector<Turn> turns = all_turns(plan, orders);
  std::ranges::stable_sort(turns, [&](const Turn& a, const Turn& b) {
    const OrderToMake& one = orders[a.order];
    const OrderToMake& other = orders[b.order];
    return std::tuple{!one.holds_place, due_of(one), one.id} <
           std::tuple{!other.holds_place, due_of(other), other.id};
  });
  return turns;
}

std::optional<std::vector<Turn>> moved(std::vector<Turn> turns, std::size_t from, std::size_t to,
                                       std::span<const OrderToMake> orders) {
  const Turn one = turns.at(from);
  const auto [first, last] = std::minmax(from, to);
  for (std::size_t i = first; i <= last; ++i) {
    if (i == from) continue;
    if (are_of_a_kind(one, turns.at(i), orders)) return std::nullopt;
    if (orders[one.order].holds_place != orders[turns.at(i).order].holds_place) return std::nullopt;
  }
  turns.erase(turns.begin() + static_cast<std::ptrdiff_t>(from));
  turns.insert(turns.begin() + static_cast<std::ptrdiff_t>(to), one);
  return turns;
}

}  // namespace blankwright
