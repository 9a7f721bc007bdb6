#include "plan/shop/queue.h"

#include <algorithm>

#include "diagnose/says_shop.h"
#include "measure/elapsed.h"

namespace blankwright {
namespace {

struct Wait {
  std::size_t step = 0;
  const PlannedRun* run = nullptr;
  Instant since;
  Interval at() const { return {since, run->at.from}; }
  std::chrono::seconds length() const { return run->at.from - since; }
};

/// The longest first.
std::vector<Wait> waits_of(const PlacedTimes& times, Instant now) {
  std::vector<Wait> waits;
  Instant free = now;
  for (std::size_t step = 0; step < times.planned.operations.size(); ++step) {
    const PlannedOperation& operation = times.planned.operations.at(step);
    for (const PlannedRun& run : operation.runs) {
      if (run.is == RunIs::planned && run.at.from > free) waits.push_back({step, &run, free});
    }
    if (!operation.runs.empty()) free = std::max(free, operation.end);
  }
  std::ranges::stable_sort(waits, std::ranges::greater{}, &Wait::length);
  return waits;
}

/// When a run has what a wait is for, last before that ends; none where it has it at another time or not at all.
struct Has {
  Interval at;
  std::string what;
};
std::optional<Has> has_before(const PlannedRun& run, const Wait& wait, const OperationFacts& facts) {
  const auto is_before = [&](Instant end) { return end > wait.since && end <= wait.run->at.from; };
  const std::string& resource = wait.run->resource;
  if (!resource.empty() && run.resource == resource && is_before(run.at.to)) return Has{run.at, resource};
  if (!resource.empty() && facts.hands_on.value != HandsOnWhen::throughout) return std::nullopt;
  std::optional<Has> last;
  for (const HandsOnTime& hands : run.hands_on) {
    if (can_do(hands.who, facts) && is_before(hands.to)) last = Has{hands, hands.who};
  }
  return last;
}

/// Is it the same, done to one bath or load of several orders?
bool is_one_with(const PlannedRun& a, const PlannedRun& b) {
  if (!a.bath && a.name.empty()) return false;
  return a.bath == b.bath && a.load == b.load && a.name == b.name && a.at.from == b.at.from;
}

/// Has the order a share in it?
bool takes_part(const PlacedTimes& times, const PlannedRun& in) {
  return std::ranges::any_of(times.planned.operations, [&](const PlannedOperation& operation) {
    return std::ranges::any_of(operation.runs, [&](const PlannedRun& run) { return is_one_with(in, run); });
  });
}

/// What has it last before a wait ends, and what that is.
struct Last {
  const PlannedRun* run = nullptr;
  StandsBefore before;
  std::string what;
};
std::optional<Last> last_before(const Wait& wait, const OperationFacts& facts, const OrderPlaced& own,
                                std::span<const OrderPlaced> all) {
  std::optional<Last> last;
  for (const OrderPlaced& other : all) {
    if (other.id == own.id) continue;
    for (std::size_t step = 0; step < other.times->planned.operations.size(); ++step) {
      for (const PlannedRun& run : other.times->planned.operations.at(step).runs) {
        const auto has = run.is == RunIs::past ? std::nullopt : has_before(run, wait, facts);
        if (!has) continue;
        if (last && is_one_with(*last->run, run)) {
          if (last->before.orders.back() != other.id) last->before.orders.push_back(other.id);
        } else if ((!last || has->at.to > last->before.at.to) && !takes_part(*own.times, run)) {
          const std::string& operation = other.times->routing.at(step)->name.value;
          last = Last{&run, {has->at, {other.id}, operation, run.name, run.bath, run.load}, has->what};
        }
      }
    }
  }
  return last;
}

}  // namespace

std::optional<Queue> queue_of(const OrderPlaced& order, std::span<const OrderPlaced> all, Instant now) {
  const std::vector<Wait> waits = waits_of(*order.times, now);
  if (waits.empty()) return std::nullopt;
  for (const Wait& wait : waits) {
    const OperationFacts& facts = *order.times->routing.at(wait.step);
    auto last = last_before(wait, facts, order, all);
    if (last) return Queue{last->what, facts.name.value, wait.at(), std::move(last->before)};
  }
  const Wait& longest = waits.front();
  const OperationFacts& facts = *order.times->routing.at(longest.step);
  const std::string& resource = longest.run->resource;
  return Queue{resource.empty() ? facts.who.value : resource, facts.name.value, longest.at(), {}};
}

Saying in_words(const StandsBefore& before) {
  std::vector<Saying> ids;
  for (const std::string& order : before.orders) ids.push_back(say(says::as_it_is, order));
  const Saying orders = listed(std::move(ids), says::one_and_next);
  if (!before.name.empty()) return say(says::batch_of_orders, before.name, orders);
  if (before.load) return say(says::load_of_orders, *before.load + 1, orders);
  if (before.bath) return say(says::bath_of_orders, *before.bath + 1, orders);
  return say(says::operation_of_orders, before.operation, orders);
}

}  // namespace blankwright
