#include "commands/prints_in_force.h"

#include "plan/order/plan_order.h"

namespace blankwright {
namespace {

std::unique_ptr<const AsPrinted> as_printed(const std::string& id, const TextsInForce& texts) {
  Diagnostics ignored;
  const auto source = [&](const std::string& text) {
    return std::make_shared<const SourceText>(SourceText{id, text});
  };
  auto shop = read_shop(source(texts.shop), ignored);
  auto order = read_order(source(texts.job), ignored);
  if (!shop || !order) return nullptr;
  auto printed = std::make_unique<AsPrinted>(AsPrinted{std::move(*shop), std::move(*order), {}});
  printed->plan = plan_order(printed->order, printed->shop, Record{}, ignored);
  return printed->plan ? std::move(printed) : nullptr;
}

}  // namespace

const AsPrinted* PrintsInForce::print(const std::string& order, Instant at) {
  const auto texts = known_.texts_in_force(order, at);
  if (!texts) return nullptr;
  const auto [place, is_new] = printed_.try_emplace({order, texts->print});
  if (is_new) place->second = as_printed(order, *texts);
  return place->second.get();
}

InForce PrintsInForce::all() {
  return [this](const std::string& order, Instant at) {
    const AsPrinted* found = print(order, at);
    return found == nullptr ? DoneFor{} : DoneFor{&found->order, &*found->plan};
  };
}

}  // namespace blankwright
