#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"
#include "plan/tables/statistics.h"

namespace blankwright {

/// Until so many orders are through, what a promise rests on is assumed. common practice, no source
inline constexpr std::size_t enough_orders = 20;
/// What is taken for the yield where nobody knows it. common practice, no source
inline constexpr PastYield usual_yield{8, 10};

/// What is uncertain of an order that a date is to be promised for.
struct Uncertain {
  int wanted = 0;       ///< pieces that still have to come out good
  int in_work = 0;      ///< pieces that still may, those to be started among them
  PastYield yield;      ///< how many did before
  double confidence{};  ///< with which enough of a further start are to be good
  double spread = 0;    ///< of the times that work takes: deviation of their logarithm
  /// Of orders that are through, how long they took of what was planned: see lead_share(). Rising. With
  /// enough_orders of them they stand for the spread.
  std::vector<double> leads{};
  std::optional<Duration> wood, resin;  ///< until it is there, where it has to be ordered
};

/// When an order is through, in many draws.
struct DrawnDates {
  std::vector<Instant> through;  ///< of the draws in which it is within the planning horizon, rising
  std::size_t draws = 0;
  int further_starts = 0;  ///< draws in which too few came out good, so that others were started
  /// The first moment by which it is through in that share of the draws; none where it never is.
  std::optional<Instant> at(double share) const;
  /// The share in which it is through by then.
  double by(Instant moment) const;
};

/// Draws how a plan may come out for one of its orders, each draw placed in the sequence that the plan was found in:
///
///   work, drying, what is done outside  planned · exp(spread · z), z normal, by order and operation; no longer than
///                                       its `most` lets it
///   pieces that come out good           beta-binomial, as the count to start has it; where they are too few, others
///                                       are started once the first are through, and so on
///   wood and resin that is ordered      as long as it takes to come · exp(spread · z)
///
/// With enough orders on record no length is drawn, but how much longer than planned the whole takes, as those did.
/// Numbers go by draw, order and operation: what is drawn is the same in two plans that are compared.
///
/// `plan` is the one of these orders, which were handed to plan_shop().
DrawnDates drawn_dates(const ShopPlan& plan, std::span<const OrderToMake> orders, std::size_t order,
                       const Uncertain& uncertain, const Shop& shop, const ShopTime& time);

}  // namespace blankwright
