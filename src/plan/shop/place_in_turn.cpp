#include "plan/shop/place_in_turn.h"

#include <algorithm>
#include <compare>
#include <utility>

#include "plan/shop/place_orders.h"
#include "plan/shop/turns.h"

namespace blankwright {
namespace {

/// Of all orders together.
struct Lateness {
  int without_room = 0;  ///< orders whose times are as if they were alone, or that have none
  std::chrono::minutes late{};
  Instant finish{};
  auto operator<=>(const Lateness&) const = default;
};

struct Way {
  std::vector<Turn> turns;
  ShopPlan plan;
  Lateness lateness;
};

/// Numbers baths and loads as the sheets of a run name them: those with blanks of its orders first.
void number_by_turn(ShopPlan& plan, std::span<const Turn> turns, std::span<const OrderToMake> orders) {
  const auto is_of_run = [&](const std::vector<BlankShare>& shares) {
    return std::ranges::any_of(shares, [&](const BlankShare& share) { return orders[share.order].of_run; });
  };
  std::size_t next_bath = 0, next_load = 0;
  for (const bool of_run : {true, false}) {
    for (const Turn& turn : turns) {
      if (!turn.bath) continue;
      PlannedBath& bath = plan.baths.at(*turn.bath);
      if (is_of_run(bath.shares) == of_run) bath.number = next_bath++;
      for (PlannedLoad& load : plan.loads) {
        if (load.bath == *turn.bath && is_of_run(load.shares) == of_run) load.number = next_load++;
      }
    }
  }
}

/// Places a plan in one turn after the other, and keeps the best.
class Search {
 public:
  Search(const ShopPlan& formed, std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time)
      : formed_{formed}, orders_{orders}, shop_{shop}, time_{time} {
    for (const OrderToMake& order : orders)
      due_.push_back(order.due ? end_of_work(time.working, order.due->value) : std::nullopt);
  }

  ShopPlan best() && {
    best_ = placed(turns_by_dye(formed_, orders_));
    if (best_.lateness.late == std::chrono::minutes{0}) return std::move(best_.plan);
    static_cast<void>(is_better(turns_by_date(formed_, orders_)));
    left_ = most_placings / std::max<std::size_t>(best_.turns.size(), 1);
    while (left_ > 0 && best_.lateness.late > std::chrono::minutes{0} && move_one()) {
    }
    return std::move(best_.plan);
  }

 private:
  /// Of blocks, in all: every turn of a few orders, a few turns of hundreds (no source).
  static constexpr std::size_t most_placings = 2000;

  Way placed(std::vector<Turn> turns) const {
    Way way{std::move(turns), formed_, {}};
    number_by_turn(way.plan, way.turns, orders_);
    place_orders(way.plan, orders_, shop_, time_, way.turns);
    for (std::size_t i = 0; i < due_.size(); ++i) {
      const auto& times = way.plan.orders.at(i).times;
      if (!times || times->alone) ++way.lateness.without_room;
      if (!times) continue;
      if (due_.at(i)) way.lateness.late += late_by(times->planned, *due_.at(i));
      way.lateness.finish = std::max(way.lateness.finish, times->planned.finish);
    }
    return way;
  }

  bool is_better(std::vector<Turn> turns) {
    Way way = placed(std::move(turns));
    if (way.lateness >= best_.lateness) return false;
    best_ = std::move(way);
    return true;
  }

  /// Moves one block to where it makes the whole less late: the last ones first, to the front.
  bool move_one() {
    const std::size_t count = best_.turns.size();
    for (std::size_t from = count; from-- > 0;) {
      for (std::size_t to = 0; to < count; ++to) {
        auto turns = from == to ? std::nullopt : moved(best_.turns, from, to, orders_);
        if (!turns) continue;
        if (left_ == 0) return false;
        --left_;
        if (is_better(std::move(*turns))) return true;
      }
    }
    return false;
  }

  const ShopPlan& formed_;
  std::span<const OrderToMake> orders_;
  const Shop& shop_;
  const ShopTime& time_;
  std::vector<std::optional<Instant>> due_;
  Way best_;
  std::size_t left_ = 0;
};

}  // namespace

void place_in_turn(ShopPlan& plan, std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time) {
  plan = Search{plan, orders, shop, time}.best();
}

}  // namespace blankwright
