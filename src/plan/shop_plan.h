#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "plan/bath.h"
#include "plan/cure.h"
#include "plan/operations.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// When the shop works, around the moment of a compile. Made once for all orders: it holds years of days.
struct ShopTime {
  Instant at;
  WorkingTime working;
  WorkCalendar calendar;
};
ShopTime shop_time(const Shop& shop, Instant at);

/// What has to be known of an order to plan it together with others: little, since there may be many.
struct OrderToMake {
  int pieces = 0;     ///< to start, without witnesses
  int witnesses = 0;  ///< one for each bath, or load, that the order would need by itself
  int pieces_a_witness = 0;  ///< that a load holds beside its witness; 0: a bath has one witness, whatever it holds
  std::optional<Given<Date>> due;
  Place quantity_at;
  PlannedDurations durations;
  const ResinFacts* resin = nullptr;  ///< null: no bath is planned for it
  std::optional<std::string> dye;
  int darkness = 0;                  ///< of the dye: 0 for none, then as the shop lists them
  BathBlanks blank;                  ///< of one; its count is not used
  Length sawn_section, sawn_length;  ///< as it goes into the oven to dry
  const OvenFacts* oven = nullptr;   ///< for the cure, and for drying; null where the shop has none that will do
  std::optional<Cure> cure;          ///< of its blanks
};

/// Witnesses for so many pieces, where each speaks for `pieces_a_witness` (> 0) of them.
constexpr int witnesses_for(int pieces, int pieces_a_witness) {
  return (pieces + pieces_a_witness - 1) / pieces_a_witness;
}

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
};

struct PlannedLoad {
  std::size_t bath = 0;  ///< whose blanks these are
  const OvenFacts* oven = nullptr;
  OvenLoad layout;
  std::vector<BlankShare> shares;
  std::optional<Interval> cure;  ///< as far as the routing has it
  std::size_t slowest = 0;       ///< of the shares, the one whose blanks take longest to cure
  std::optional<Cure> cures{};   ///< theirs, by which the whole load goes
};

/// The planned times of one order, among the others.
struct OrderTimes {
  std::vector<const OperationFacts*> routing;  ///< the operations that it goes through
  OrderSchedule planned;
  std::optional<std::size_t> bath;  ///< the last one that its blanks are in; none also where it is planned alone
  bool alone = false;  ///< the calendar had no room for it: planned as if the shop had nothing else to do
  // What complete_times() adds.
  std::vector<Operation> operations;  ///< of the routing, each once
  std::optional<Delivery> delivery;   ///< where the order has a due date
};

/// What became of one of the orders.
struct OrderInShop {
  std::optional<OrderTimes> times;  ///< none when it cannot be planned
  Diagnostics said;
};

struct ShopPlan {
  std::vector<PlannedBath> baths;
  std::vector<PlannedLoad> loads;
  std::vector<OrderInShop> orders;  ///< as they were given
};

/// Plans orders together: one person of a name, one filling of a vessel and one load of an oven at a time. Blanks of
/// several orders share a bath if resin and dye agree and the vessel holds them; a bath is filled from the most
/// urgent order on, and light dyes go before dark ones. A bath's blanks go through the operations up to the cure
/// together; after it each order goes its own way, the most urgent first. Resin left over from one bath is used in
/// the next of its kind.
///
/// Orders that the planning horizon does not hold are planned as if they were alone, with a warning; one that cannot
/// even be planned so has an error and no times. What concerns the shop and no order is told in `out`.
ShopPlan plan_shop(std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time, Diagnostics& out);

/// Adds to an order's times its operations and how they stand against its due date, with a warning when they are
/// late. Apart from plan_shop(), since the latest start takes longer than all else and the operations more room: an
/// order's are only wanted when it is written, and several can be completed at once. `orders` as they were given to
/// plan_shop().
void complete_times(std::size_t order, ShopPlan& plan, std::span<const OrderToMake> orders, const Shop& shop,
                    const ShopTime& time);

}  // namespace blankwright
