#pragma once

#include <optional>
#include <string>

#include "plan/figure/worked.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

struct Cost {
  double per_piece = 0;       ///< of a blank that is started
  double per_good_piece = 0;  ///< of a piece that is delivered
  std::string currency;
};

struct CostInput {
  int quantity = 0;             ///< delivered, > 0
  int started = 0;              ///< pieces and witnesses, > 0
  Duration hands_on;            ///< of the whole order
  Volume sawn_wood;             ///< of one blank
  std::optional<Volume> resin;  ///< taken up by one blank at most, with film
  const ResinFacts* resin_facts = nullptr;
  const CostFacts& facts;
};

/// What a piece costs:
///   per piece      = hands-on time × labour / started + sawn wood + resin + stud + per order / started
///   per good piece = per piece × started / quantity
/// Every blank that is started is reckoned with its resin and its stud, whether it comes so far or not: an upper
/// bound. None where the shop gives no price for anything that is used. Prices that are left out count as nothing,
/// and the working shows which were there. All prices in one currency: see one_currency(). Source: bookkeeping.
std::optional<Worked<Cost>> cost(const CostInput& in);

}  // namespace blankwright
