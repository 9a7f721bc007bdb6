#include "plan/shop/oven_together.h"

#include <algorithm>

namespace blankwright {
namespace {

bool takes(const OvenFacts& oven, const LyingAtOnce& lying) {
  return lying.count == 0 || oven_load(oven, lying.section, lying.length).capacity() >= lying.count;
}

}  // namespace

const OvenFacts* oven_together(std::span<const OrderToMake* const> orders) {
  Length section{}, length{};
  for (const OrderToMake* order : orders) {
    section = std::max({section, order->sawn_section, order->blank.section});
    length = std::max({length, order->sawn_length, order->blank.length});
  }
  for (const OrderToMake* order : orders) {
    if (order->oven != nullptr && oven_load(*order->oven, section, length).capacity() > 0) return order->oven;
  }
  return orders.front()->oven;
}

std::vector<const OvenFacts*> ovens_for(const OrderToMake& order) {
  std::vector<const OvenFacts*> all;
  if (order.oven != nullptr) all.push_back(order.oven);
  for (const OvenThatDoes& one : order.further_ovens) all.push_back(one.oven);
  return all;
}

const Cure* cure_in(const OrderToMake& order, const OvenFacts& oven) {
  const auto cure_of = [](const std::optional<Cure>& cure) { return cure ? &*cure : nullptr; };
  if (order.oven == &oven) return cure_of(order.cure);
  const auto found = std::ranges::find(order.further_ovens, &oven, &OvenThatDoes::oven);
  return found == order.further_ovens.end() ? nullptr : cure_of(found->cure);
}

std::vector<FurtherOven> further_ovens(std::span<const OrderToMake* const> orders, const OvenFacts& first,
                                       const LyingAtOnce& drying, const LyingAtOnce& curing) {
  std::vector<FurtherOven> out;
  for (const OvenFacts* oven : ovens_for(*orders.front())) {
    const auto does_for = [&](const OrderToMake* order) {
      const auto would_do = ovens_for(*order);
      return std::ranges::find(would_do, oven) != would_do.end();
    };
    if (oven == &first || !std::ranges::all_of(orders, does_for)) continue;
    FurtherOven& further =
        out.emplace_back(FurtherOven{oven->name.value, oven->unattended_drying.value, oven->unattended_curing.value,
                                     takes(*oven, drying), takes(*oven, curing)});
    for (const OrderToMake* order : orders) {
      if (const Cure* cure = cure_in(*order, *oven)) further.cure = std::max(further.cure, cure->total);
    }
  }
  return out;
}

}  // namespace blankwright
