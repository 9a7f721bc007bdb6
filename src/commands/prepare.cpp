#include "commands/prepare.h"

#include <memory>

#include "commands/past.h"
#include "plan/order/plan_order.h"

namespace blankwright {

Records records_in(const std::string& register_file, const Shop& shop) {
  struct Known {
    Register file;
    ShopPast past;
  };
  std::shared_ptr<Known> known;
  if (auto file = Register::open_to_read(register_file)) {
    known = std::make_shared<Known>(Known{std::move(*file), {}});
    known->past = past_of(known->file, shop);
  }
  return [known](const std::string& order_id) {
    return known ? record_of(known->file, known->past, order_id) : Record{};
  };
}

std::optional<Prepared> prepare(const Source& job, const Shop& shop, const Records& records, Diagnostics& out) {
  auto order = read_order(job, out);
  if (!order) return std::nullopt;
  auto plan = plan_order(*order, shop, records(order->id.value), out);
  if (!plan) return std::nullopt;
  return Prepared{std::move(*order), std::move(*plan)};
}

}  // namespace blankwright
