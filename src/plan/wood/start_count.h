#pragma once

#include <optional>

#include "diagnose/place.h"
#include "entries/record.h"
#include "plan/figure/worked.h"
#include "read/shop.h"

namespace blankwright {

enum class YieldBy { shop, shop_and_register, register_alone };

/// How many came out good of how many started, and whose count that is.
struct YieldSeen {
  int good = 0;
  int started = 0;
  YieldBy counted = YieldBy::shop;
};

/// So many blanks through their orders tell a shop's yield where it stated none. common practice, no source
inline constexpr int enough_to_tell = 10;

/// What a plan takes for the yield: the register's count once something has come out good and it has as many blanks
/// as the shop's stated count (enough_to_tell without one); before that the stated count and the register's together,
/// which a lot that failed at the beginning cannot drive to nothing. None where neither tells enough.
std::optional<YieldSeen> yield_seen(const std::optional<YieldCounted>& by_register,
                                    const std::optional<Given<Counts>>& stated);

struct StartCount {
  int pieces = 0;
  int needed = 0;                                         ///< the same, whatever was issued
  std::optional<double> chance_enough, expected_surplus;  ///< unknown where no yield is
};

struct StartCountInput {
  int quantity = 1;
  std::optional<YieldSeen> seen;
  Given<Share> confidence;
  Given<int> spares;    ///< started besides where no yield is known
  int issued = 0;       ///< blanks that an earlier compile gave to the order: never withdrawn
  OrderSoFar so_far{};  ///< of these, and of stock
  int most = 10000;     ///< no more are started than this
};

/// How many blanks to start in all so that enough come out good: the smallest n with P(good >= quantity) >=
/// confidence, by the beta-binomial predictive with Jeffreys' prior; without any count the quantity and the shop's
/// spares. What has come out good already is certain, what was lost is replaced, and stock counts as started. Never
/// fewer than were issued. None when even `most` are not enough. Source: see tables/statistics.h.
std::optional<Worked<StartCount>> start_count(const StartCountInput& in);

}  // namespace blankwright
