#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "plan/gate/fits_no_more.h"
#include "register/register.h"

namespace blankwright {

/// An order as a print of it had it, with the shop that its plan points into.
struct AsPrinted {
  Shop shop;
  Order order;
  std::optional<OrderPlan> plan;
};

/// The prints of orders that were in force when something was done, each planned once.
class PrintsInForce {
 public:
  explicit PrintsInForce(Register& known) : known_{known} {}

  /// Null where the order cannot be planned any more as it was printed then.
  const AsPrinted* print(const std::string& order, Instant at);
  /// For who asks of any order; for as long as this is there.
  InForce all();

 private:
  Register& known_;
  std::map<std::pair<std::string, int>, std::unique_ptr<const AsPrinted>> printed_;
};

}  // namespace blankwright
