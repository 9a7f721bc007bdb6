#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/figure/figures.h"
#include "plan/order/order_to_make.h"
#include "plan/process/bath.h"
#include "plan/process/cure.h"
#include "plan/shop/placed_times.h"
#include "plan/shop/queue.h"
#include "plan/shop/shop_calendar.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// Blanks of one order in a bath or in a load: `count` pieces from `first` on, and `witnesses` of its witnesses from
/// number `first_witness` on.
struct BlankShare {
  std::size_t order = 0;
  int first = 0;
  int count = 0;
  int first_witness = 0;
  int witnesses = 0;
  int total() const { return count + witnesses; }
};

struct PlannedBath {
  Bath bath;
  std::string dye;  ///< empty: undyed
  std::vector<BlankShare> shares;
  std::vector<BathBlanks> blanks;  ///< of each share
  Figures figures;
  std::vector<Step> working;
  std::vector<std::size_t> resin_from;  ///< the baths of this run whose left-over resin it takes
  /// The day from which its resin ages: that of the bath as planned, or that of the oldest which was activated
  /// earlier and went in. None where neither is known.
  std::optional<Date> activated{};
  std::optional<Interval> vacuum, soak;  ///< as far as the routing has them
  Duration hold{}, least_soak{};         ///< as the calendar has them: longer than planned where the vacuum runs on
  /// Least time in the drying oven, without that between the two weighings: the longest of its orders, since its
  /// blanks are dried together.
  Duration drying{};
  Volume to_bottle{};      ///< of its left-over resin, what no later bath of this run takes
  std::size_t number = 0;  ///< among those that hold blanks of the run's orders, from 0
};

struct PlannedLoad {
  std::size_t bath = 0;  ///< whose blanks these are
  const OvenFacts* oven = nullptr;
  OvenLoad layout;
  std::vector<BlankShare> shares;
  std::optional<Interval> cure;  ///< as far as the routing has it
  std::size_t slowest = 0;       ///< of the shares, the one whose blanks take longest to cure
  std::optional<Cure> cures{};   ///< theirs, by which the whole load goes
  std::size_t number = 0;        ///< as the bath's
};

/// Blanks that were in a bath and are not cured yet: those of one real bath, or of one load that is in the oven. They
/// go on together.
struct BathUnderWay {
  std::string name;  ///< of the bath or the load, as entries name it
  struct Share {
    std::size_t order = 0;
    std::vector<BlankGroup> groups;
  };
  std::vector<Share> shares;
};

/// The planned times of one order, with all that is printed of them.
struct OrderTimes : PlacedTimes {
  std::vector<Operation> operations;  ///< of the routing, each once
  std::optional<Delivery> delivery;   ///< where the order has a due date
  std::optional<Queue> queue;         ///< what it waits for, where it is late
  bool is_late() const { return delivery && delivery->late_by.count() > 0; }
};

/// What became of one of the orders.
struct OrderInShop {
  std::optional<PlacedTimes> times;  ///< none when it cannot be planned
  Diagnostics said;
};

struct ShopPlan {
  std::vector<PlannedBath> baths;
  std::vector<PlannedLoad> loads;
  std::vector<BathUnderWay> under_way;
  std::vector<OrderInShop> orders;         ///< as they were given
  std::optional<ShopCalendar> promised{};  ///< what all of them need
};

}  // namespace blankwright
