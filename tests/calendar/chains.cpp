#include "chains.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <tuple>

namespace calendar_rules {
namespace {

using Key = std::tuple<Chain::Kind, int, std::string>;

Key key_of(const Run& run, const std::string& order) {
  if (run.bath) return {Chain::Kind::bath, *run.bath, ""};
  if (!run.name.empty()) return {Chain::Kind::under_way, 0, run.name};
  return {Chain::Kind::order, 0, order};
}

auto moment_of(const Doing& doing) { return std::tuple{doing.run.at, doing.step, doing.run.load}; }

/// Puts an order's run with those that are the same for others.
void add(Chain& chain, Doing doing, const std::string& order, const Planned& planned, Breaches& out) {
  const auto same = std::ranges::find_if(chain.doings, [&](const Doing& other) {
    return chain.kind != Chain::Kind::order && moment_of(other) == moment_of(doing);
  });
  if (same == chain.doings.end()) {
    chain.doings.push_back(std::move(doing));
    return;
  }
  if (same->run.resource != doing.run.resource || same->run.hands_on != doing.run.hands_on)
    out.push_back({"told differently", text_of(planned, chain, doing) + ", in " + order});
  same->blanks[order] = doing.run.blanks;
}

}  // namespace

std::string Chain::text() const {
  switch (kind) {
    case Kind::bath:
      return fmt::format("bath {}", bath);
    case Kind::under_way:
      return fmt::format("{}, under way", name);
    case Kind::order:
      break;
  }
  return name;
}

std::set<std::string> Chain::orders() const {
  std::set<std::string> all;
  for (const Doing& doing : doings) {
    for (const auto& [order, blanks] : doing.blanks) all.insert(order);
  }
  return all;
}

std::vector<Chain> chains_of(const Planned& planned, Breaches& out) {
  std::map<Key, Chain> chains;
  for (const auto& [id, plan] : planned.plans) {
    for (const PlannedOperation& op : plan.schedule) {
      const std::size_t step = step_called(planned.shop, op.name);
      for (const Run& run : op.runs) {
        if (run.done) continue;
        const Key key = key_of(run, id);
        Chain& chain = chains[key];
        std::tie(chain.kind, chain.bath, chain.name) = key;
        add(chain, {step, run, {{id, run.blanks}}}, id, planned, out);
      }
    }
  }
  std::vector<Chain> all;
  for (auto& [key, chain] : chains) {
    std::ranges::stable_sort(chain.doings, {}, moment_of);
    all.push_back(std::move(chain));
  }
  return all;
}

const Operation& operation(const Planned& planned, const Doing& doing) { return planned.shop.routing.at(doing.step); }

std::size_t step_called(const Shop& shop, const std::string& name) {
  const auto found = std::ranges::find(shop.routing, name, &Operation::name);
  if (found == shop.routing.end()) throw std::runtime_error{"no such operation in the shop: " + name};
  return static_cast<std::size_t>(found - shop.routing.begin());
}

bool applies(const Planned& planned, const std::string& order, const Operation& op) {
  const bool treated = planned.orders.at(order).treated();
  if (op.only_witnesses && planned.plans.at(order).witnesses.empty()) return false;
  if (op.only_treated && !treated) return false;
  return treated || (op.planned != Work::vacuum && op.planned != Work::soak && op.planned != Work::cure);
}

bool is_done_to(const Shop& shop, std::size_t step, bool witness) {
  const auto& routing = shop.routing;
  if (!witness) return !routing.at(step).only_witnesses;
  auto last = std::ranges::find(routing, true, &Operation::only_witnesses);
  if (last == routing.end()) last = std::ranges::find(routing, Work::cure, &Operation::planned);
  return last - routing.begin() >= static_cast<std::ptrdiff_t>(step);
}

Open open_of(const Planned& planned, const std::string& order, std::size_t step) {
  Open open;
  for (const auto& [id, blank] : planned.ledger) {
    if (blank.order != order || blank.over || !is_done_to(planned.shop, step, blank.witness)) continue;
    if (blank.next > step) open.any_past = true;
    if (blank.next < step || (blank.next == step && !blank.going_on)) ++open.blanks;
  }
  return open;
}

std::string text_of(const Zone& zone, const Span& span) {
  return fmt::format("{} to {}", zone.clock_text(span.from), zone.clock_text(span.to));
}

std::string text_of(const Planned& planned, const Chain& chain, const Doing& doing) {
  return fmt::format("{} of {}, {}", operation(planned, doing).name, chain.text(),
                     text_of(planned.zone, doing.run.at));
}

}  // namespace calendar_rules
