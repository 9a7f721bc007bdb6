#include "plan/order/judge_cost.h"

#include <vector>

#include "diagnose/problem.h"
#include "diagnose/says_shop.h"
#include "measure/money.h"

namespace blankwright {
namespace {

std::vector<const Given<Money>*> prices_of(const Order& order, const Shop& shop) {
  std::vector<const Given<Money>*> prices;
  const auto add = [&](const std::optional<Given<Money>>& price) {
    if (price) prices.push_back(&*price);
  };
  add(shop.costs.labour_per_hour);
  add(shop.costs.wood_per_litre);
  add(shop.costs.stud_each);
  add(shop.costs.per_order);
  for (const ResinFacts& resin : shop.resins) add(resin.price);
  add(order.price);
  return prices;
}

}  // namespace

bool one_currency(const Order& order, const Shop& shop, Diagnostics& out) {
  const auto prices = prices_of(order, shop);
  bool one = true;
  for (const Given<Money>* price : prices) {
    const Given<Money>& first = *prices.front();
    if (price->value.currency == first.value.currency) continue;
    one = false;
    out.error(Problem::currency_differs, price->at, says::two_currencies, price->value.currency, first.value.currency)
        .label(first.at, says::the_other);
  }
  return one;
}

void judge_cost(const Cost& cost, const Order& order, Diagnostics& out) {
  if (!order.price) return;
  const Money covers{rounded(cost.per_good_piece, 0.01, Round::up), cost.currency};
  if (order.price->value.amount >= cost.per_good_piece) return;
  out.warning(Problem::price_below_cost, order.price->at, says::price_does_not_cover, order.price->value, covers)
      .hint(says::price_that_covers, covers);
}

}  // namespace blankwright
