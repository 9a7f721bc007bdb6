#include "plan/wood/judge_start.h"

#include "diagnose/problem.h"
#include "diagnose/says_wood.h"
#include "measure/quantity_text.h"

namespace blankwright {

void judge_start(const StartCountInput& in, const std::optional<Worked<StartCount>>& count, const Order& order,
                 const Shop& shop, Diagnostics& out) {
  const bool by_register = in.seen && in.seen->counted == YieldBy::register_alone;
  if (!count) {
    out.error(Problem::too_many_to_start, order.quantity.at, says::not_enough_even, in.most, in.quantity,
              printed(shop.yield.confidence.value))
        .label(shop.yield.expected && !by_register ? shop.yield.expected->at : Place{}, says::by_this_yield)
        .hint(says::lower_confidence);
    return;
  }
  if (in.issued >= count->value.pieces) return;  // they rest on what was issued
  if (by_register) return;
  if (!in.seen) {
    out.warning(Problem::no_yield_known, order.quantity.at, says::no_yield_known, in.quantity, in.spares.value)
        .hint(says::count_what_came_out_good);
    return;
  }
  out.note(Problem::yield_is_a_guess, shop.yield.expected->at, says::rests_on_own_count, in.seen->good,
           in.seen->started, shop.yield.expected->value.started);
}

}  // namespace blankwright
