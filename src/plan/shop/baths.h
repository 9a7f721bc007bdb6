#pragma once

#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

#include "plan/order/order_to_make.h"
#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// How blanks of an order that is in several baths go on behind them.
enum class BehindBaths {
  as_they_come,  ///< in one go or bath by bath, whichever ends earlier when all of it is placed as one
  in_one_go,     ///< block by block
  bath_by_bath   ///< likewise
};

/// Which orders share baths, if resin and dye agree: of each order the same number, all of one kind where it is
/// empty. And how those go on that are in several.
class Sharing {
 public:
  BehindBaths behind(std::size_t order) const {
    return order < behind_.size() ? behind_[order] : BehindBaths::as_they_come;
  }
  Sharing going_on(std::size_t order, BehindBaths how, std::size_t orders) const {
    Sharing out = *this;
    out.behind_.resize(orders);
    out.behind_.at(order) = how;
    return out;
  }
  std::size_t at(std::size_t order) const { return order < with_.size() ? with_[order] : 0; }
  /// The turn of those that an order shares with, among all of one resin and dye: the lower the sooner their baths
  /// are formed, which matters since one takes the resin that another leaves over. By date where it is the same.
  int turn(std::size_t order) const { return order < turn_.size() ? turn_[order] : 0; }
  Sharing in_turn(std::size_t order, int turn, std::size_t orders) const {
    Sharing out = *this;
    out.turn_.resize(orders);
    for (std::size_t i = 0; i < orders; ++i) {
      if (i == order || (with_.size() == orders && at(order) > 0 && at(i) == at(order))) out.turn_.at(i) = turn;
    }
    return out;
  }
  /// A number that no order has.
  std::size_t nobodys() const {
    std::size_t number = 1;
    while (std::ranges::find(with_, number) != with_.end()) ++number;
    return number;
  }
  /// The same with one order among others, or by itself where the number is nobody's.
  Sharing moved(std::size_t order, std::size_t with, std::size_t orders) const {
    Sharing out = *this;
    out.with_.resize(orders);
    out.with_.at(order) = with;
    return out;
  }

 private:
  std::vector<std::size_t> with_;
  std::vector<BehindBaths> behind_;
  std::vector<int> turn_;
};

/// Do resin and dye agree, and have both blanks already, or none of them?
bool could_share(const OrderToMake& a, const OrderToMake& b);

/// Forms the baths of all orders that are to have one, in the order in which they are to be made: see plan_shop().
/// A vessel that is out of order for a week or more is waited for only by what fits no other. By the day of `time` is
/// told in `out` which activated resin on hand is good no more.
std::vector<PlannedBath> form_baths(std::span<const OrderToMake> orders, const Sharing& sharing, const Shop& shop,
                                    const ShopTime& time, Diagnostics& out);

}  // namespace blankwright
