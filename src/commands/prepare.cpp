#include "commands/prepare.h"

#include <memory>

#include "register/register.h"

namespace blankwright {

Records records_in(const std::string& register_file) {
  const auto known = std::make_shared<std::optional<Register>>(Register::open_to_read(register_file));
  return [known](const std::string& order_id) { return *known ? Record{(*known)->issued_to(order_id)} : Record{}; };
}

std::optional<Prepared> prepare(const Source& job, const Shop& shop, const Records& records, Diagnostics& out) {
  auto order = read_order(job, out);
  if (!order) return std::nullopt;
  auto plan = plan_order(*order, shop, records(order->id.value), out);
  if (!plan) return std::nullopt;
  return Prepared{std::move(*order), std::move(*plan)};
}

}  // namespace blankwright
