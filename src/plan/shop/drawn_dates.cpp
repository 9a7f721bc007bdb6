#include "plan/shop/drawn_dates.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diagnose/failure.h"
#include "measure/elapsed.h"
#include "plan/shop/arrangement.h"
#include "plan/shop/drawn_numbers.h"
#include "plan/shop/kept_plan.h"
#include "plan/shop/plan_alone.h"

namespace blankwright {
namespace {

constexpr std::size_t draws = 400;
/// So often others are started for those that were lost; what still lacks then is never through.
constexpr int most_starts = 4;

/// Does its time differ from what is planned? What runs by the clock in bath and oven takes its time.
bool is_drawn(const OperationFacts& facts) {
  if (facts.planned) return facts.is(PlannedWork::drying);
  return facts.turnaround || facts.hands_on.value == HandsOnWhen::throughout;
}

/// The orders as they were planned: in the sequence that was found.
std::vector<OrderToMake> as_found(const ShopPlan& plan, std::span<const OrderToMake> orders) {
  std::vector<OrderToMake> out{orders.begin(), orders.end()};
  for (std::size_t i = 0; i < out.size(); ++i) {
    const auto& times = plan.orders.at(i).times;
    if (!times) continue;
    out.at(i).holds_place = true;
    out.at(i).planned = kept_plan(*times);
  }
  return out;
}

/// How many of a start come out good, by chances of at least so many.
class Survival {
 public:
  Survival(int started, const PastYield& past) {
    for (int k = 0; k <= started; ++k) at_least_.push_back(chance_of_at_least(k, started, past));
  }
  int good(double even) const {
    int k = 0;
    while (k + 1 < std::ssize(at_least_) && at_least_.at(static_cast<std::size_t>(k + 1)) > even) ++k;
    return k;
  }

 private:
  std::vector<double> at_least_;
};

class Drawing {
 public:
  Drawing(const ShopPlan& plan, std::span<const OrderToMake> orders, std::size_t order, const Uncertain& uncertain,
          const Shop& shop, const ShopTime& time)
      : orders_{as_found(plan, orders)},
        given_{to_plan(orders_, shop, time)},
        order_{order},
        uncertain_{uncertain},
        arrangement_{given_, TurnsBefore{orders_}.sharing(), ignored_},
        first_{uncertain.in_work, uncertain.yield} {
    Instant last = time.at;
    for (const OrderInShop& one : plan.orders) {
      if (one.times) last = std::max(last, one.times->planned.finish);
    }
    const Duration delivery = std::max(uncertain.wood.value_or(Duration{}), uncertain.resin.value_or(Duration{}));
    until_ = std::min(later(time.at + 3 * (last - time.at) + std::chrono::days{120}, 3 * delivery),
                      time.at + planning_horizon);
  }

  DrawnDates all() {
    DrawnDates out;
    out.draws = draws;
    for (std::size_t n = 0; n < draws; ++n) {
      const auto through = one(DrawnNumbers{n}, out);
      if (through) out.through.push_back(*through);
    }
    std::ranges::sort(out.through);
    return out;
  }

 private:
  bool by_record() const { return uncertain_.leads.size() >= enough_orders; }

  double longer(const DrawnNumbers& chance, const std::string& whose, std::string_view what) const {
    return std::exp(uncertain_.spread * chance.normal(whose, what));
  }

  /// The orders with their times as they are drawn.
  std::vector<OrderToMake> drawn(const DrawnNumbers& chance) const {
    std::vector<OrderToMake> out = orders_;
    if (!by_record()) {
      for (OrderToMake& order : out) {
        for (const OperationFacts& facts : given_.shop.routing) {
          if (is_drawn(facts)) order.durations.pace[&facts] = longer(chance, order.id, facts.name.value);
        }
      }
    }
    OrderToMake& own = out.at(order_);
    const auto there = [&](const Duration& wait, std::string_view what) {
      return later(given_.time.at, longer(chance, own.id, what) * wait);
    };
    if (uncertain_.wood) own.wood_from = there(*uncertain_.wood, "wood");
    if (uncertain_.resin) own.resin_from = there(*uncertain_.resin, "resin");
    return out;
  }

  std::optional<Instant> one(const DrawnNumbers& chance, DrawnDates& out) const {
    const std::vector<OrderToMake> orders = drawn(chance);
    Placement placed = arrangement_.placed_with(orders, until_);
    if (placed.not_placed.at(order_)) return std::nullopt;
    const OrderToMake& own = orders.at(order_);
    Instant through = placed.finish.at(order_);
    int lacking = uncertain_.wanted - first_.good(chance.even(own.id, "good"));
    if (lacking > 0) ++out.further_starts;
    for (int start = 1; lacking > 0; ++start) {
      if (start > most_starts) return std::nullopt;
      const auto pieces = smallest_start(lacking, uncertain_.yield, uncertain_.confidence, 10000);
      const auto then = pieces ? further(own, *pieces, placed.calendar, through) : std::nullopt;
      if (!then) return std::nullopt;
      through = *then;
      lacking -= Survival{*pieces, uncertain_.yield}.good(chance.even(own.id, fmt::format("good {}", start)));
    }
    if (!by_record()) return through;
    const double share = at_share(uncertain_.leads, chance.even(own.id, "lead"));
    // Nothing is through on a Sunday.
    return next_working(given_.time.calendar, later(given_.time.at, share * between(given_.time.at, through)));
  }

  /// When pieces are through that are started then, round all that is planned.
  std::optional<Instant> further(const OrderToMake& own, int pieces, ShopCalendar& calendar, Instant from) const {
    OrderToMake again = own;
    again.pieces = again.started = pieces;
    again.witnesses = again.witnesses_started = own.witnesses_started > 0 ? 1 : 0;
    again.waiting_pieces.clear();
    again.waiting_witnesses.clear();
    again.under_way.clear();
    again.past.clear();
    auto ops = operations(routing_of(again.durations, given_.shop), alone(again, given_.shop));
    auto planned = calendar.place(ops, from, {});
    if (!planned && let_loads_wait(ops)) planned = calendar.place(ops, from, {});
    return planned ? std::optional{planned->finish} : std::nullopt;
  }

  std::vector<OrderToMake> orders_;
  ToPlan given_;
  std::size_t order_;
  const Uncertain& uncertain_;
  Diagnostics ignored_;
  Arrangement arrangement_;
  Survival first_;
  Instant until_;
};

}  // namespace

std::optional<Instant> DrawnDates::at(double share) const {
  BW_EXPECT(draws > 0);
  const double place = std::ceil(share * static_cast<double>(draws) - 1e-9);
  const auto nth = static_cast<std::size_t>(std::max(place, 1.0));
  return nth > through.size() ? std::nullopt : std::optional{through.at(nth - 1)};
}

double DrawnDates::by(Instant moment) const {
  BW_EXPECT(draws > 0);
  const auto after = std::ranges::upper_bound(through, moment);
  return static_cast<double>(after - through.begin()) / static_cast<double>(draws);
}

DrawnDates drawn_dates(const ShopPlan& plan, std::span<const OrderToMake> orders, std::size_t order,
                       const Uncertain& uncertain, const Shop& shop, const ShopTime& time) {
  return Drawing{plan, orders, order, uncertain, shop, time}.all();
}

}  // namespace blankwright
