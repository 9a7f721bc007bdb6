#include "plan/wood/judge_start.h"

#include <fmt/format.h>

#include "diagnose/problem.h"
#include "measure/quantity_text.h"

namespace blankwright {

void judge_start(const StartCountInput& in, const std::optional<Worked<StartCount>>& count, const Order& order,
                 const Shop& shop, Diagnostics& out) {
  const bool by_register = in.seen && in.seen->counted == Origin::entry;
  if (!count) {
    out.error(Problem::too_many_to_start, order.quantity.at,
              fmt::format("even {} blanks would not give {} good ones with a chance of {}", in.most, in.quantity,
                          text(shop.yield.confidence.value)))
        .label(shop.yield.expected && !by_register ? shop.yield.expected->at : Place{}, "by this yield")
        .hint("lower `confidence`, or count more blanks before you promise so many");
    return;
  }
  if (in.issued >= count->value.pieces) return;  // they rest on what was issued
  if (by_register) return;
  if (!in.seen) {
    out.warning(Problem::no_yield_known, order.quantity.at,
                fmt::format("no yield is known: {} ordered and {} to spare are started, with no chance stated",
                            in.quantity, in.spares.value))
        .hint("count what came out good so far: expected = \"8 of 10\" under [yield] in the shop file");
    return;
  }
  out.note(
      Problem::yield_is_a_guess, shop.yield.expected->at,
      fmt::format("how many to start rests on the shop's own count of {} good of {}, until the register has its own",
                  in.seen->good, in.seen->started));
}

}  // namespace blankwright
