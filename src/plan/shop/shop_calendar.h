#pragma once

#include <deque>
#include <map>
#include <memory>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "plan/order/order_to_make.h"
#include "plan/routing/schedule.h"
#include "plan/shop/placed_times.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// Who and what of the shop is promised so far. Operations are planned round it, and then promised too.
class ShopCalendar {
 public:
  explicit ShopCalendar(const ShopTime& time);

  /// The same as if nothing were planned before or after: quicker to plan with, and to copy.
  ShopCalendar within(Interval span) const;

  /// Plans operations one after the other from `from` on, round what is promised, and promises what they need. The
  /// resource named `in_turn` is used in the order of the calls, without slipping into gaps. Where several ovens
  /// would do, they go into the one by which all of them end first; into the first of those. Where a day has no more
  /// pieces than some, what others leave of a day is taken if all of them end earlier by it.
  tl::expected<OrderSchedule, Obstacle> place(std::vector<Operation> routing, Instant from,
                                              const std::string& in_turn);

  /// Operations with what is promised to others, and what is out of use, left out of their people's time and of their
  /// resources.
  struct Round {
    std::vector<Operation> routing;
    std::deque<WorkCalendar> on_machine;  ///< when their people and their machine are free
  };
  Round round_promises(std::vector<Operation> routing, const std::string& in_turn) const;

  /// Counts what was done to blanks by an operation of which a day has no more than some.
  void count_done(const OperationFacts& facts, const DoneBetween& past);

  /// Takes back what an order's planned runs were promised.
  void take_back(const PlacedTimes& times);

 private:
  struct Placed;
  tl::expected<Placed, Obstacle> placed(std::vector<Operation> routing, Instant from,
                                        const std::string& in_turn) const;
  void promise(const Placed& placed);
  const WorkCalendar& free_time_of(const std::string& who) const;
  std::vector<Interval> taken_of(const std::string& resource, const std::string& in_turn) const;
  std::vector<Interval> full_days(const Operation& op) const;
  /// What others leave of days, less than operation `i` begins with, if the days after its first can take the rest.
  std::set<int> left_of_days(std::span<const Operation> routing, std::size_t i) const;
  void promise(const Operation& op, const PlannedRun& run);
  void set_free(const std::string& who, WorkCalendar free);

  // What is not changed by copies of a calendar is theirs together.
  std::shared_ptr<const ShopTime> time_;
  std::map<std::string, std::shared_ptr<const WorkCalendar>> free_;  ///< by person
  std::map<std::string, std::vector<Interval>> taken_;        ///< by resource, in order, apart; without outages
  std::map<std::string, std::map<Date, int>> pieces_of_day_;  ///< by operation of which a day has no more than some
};

}  // namespace blankwright
