#include "commands/prepare.h"

namespace blankwright {

std::optional<Prepared> prepare(const Source& job, const Shop& shop, const Record& record, const ShopTime& time,
                                Diagnostics& out) {
  auto order = read_order(job, out);
  if (!order) return std::nullopt;
  auto plan = plan_order(*order, shop, record, out);
  if (!plan) return std::nullopt;
  auto times = plan_times(*order, shop, plan->start.pieces, time, out);
  if (!times) return std::nullopt;
  return Prepared{std::move(*order), std::move(*plan), std::move(*times)};
}

}  // namespace blankwright
