#include "plan/routing/standing.h"

#include <algorithm>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

/// The entry that ends an operation, where not only `done` does. What cools before the bath lies sealed until it is
/// opened; `opened` tells nothing of what cools behind it.
std::optional<EntryKind> ends(std::size_t operation, std::span<const OperationFacts* const> routing) {
  const OperationFacts& facts = *routing[operation];
  if (facts.ended_by) return facts.ended_by->value;
  if (!facts.planned) return std::nullopt;
  switch (facts.planned->value) {
    case PlannedWork::drying:
      return EntryKind::out_of_drying;
    case PlannedWork::vacuum:
      return EntryKind::released;
    case PlannedWork::soak:
      return EntryKind::out_of_bath;
    case PlannedWork::cure:
      return EntryKind::out_of_oven;
    case PlannedWork::cooling:
      return std::ranges::any_of(routing.first(operation),
                                 [](const auto* one) { return one->is(PlannedWork::vacuum); })
                 ? std::nullopt
                 : std::optional{EntryKind::opened};
    case PlannedWork::glue_setting:
      break;
  }
  return std::nullopt;
}

/// When it was last told of, up to then.
std::optional<Instant> told_of(EntryKind kind, const BlankState& blank, const BathState& bath, Instant until) {
  if (kind == EntryKind::vacuum_on) return bath.vacuum_on;
  if (kind == EntryKind::target_reached) return bath.target_reached;
  if (kind == EntryKind::bubbling_ended) return bath.bubbling_ended;
  if (kind == EntryKind::released) return bath.released;
  if (kind == EntryKind::out_of_bath) return blank.out_of_bath;  // drained, it is out as well
  std::optional<Instant> last;
  if (const auto found = blank.told.find(kind); found != blank.told.end()) {
    for (const Instant at : found->second) {
      if (at <= until) last = std::max(last, std::optional{at});
    }
  }
  return last;
}

/// Has a blank been through what the plan gives its time, and when did it leave it? One that went further without
/// entries has been through it too.
struct Passed {
  bool passed = true;
  std::optional<Instant> left{};
};
Passed passed(const OperationFacts& facts, const BlankState& blank) {
  if (!facts.planned) return {};
  switch (facts.planned->value) {
    case PlannedWork::drying:
      return {blank.stage > Stage::begun || (blank.out_of_drying && !blank.is_drying), blank.out_of_drying};
    case PlannedWork::vacuum:
    case PlannedWork::soak:
      return {blank.stage > Stage::in_bath, blank.out_of_bath};
    case PlannedWork::cure:
      return {blank.stage > Stage::in_oven, blank.out_of_oven};
    case PlannedWork::cooling:
    case PlannedWork::glue_setting:
      break;
  }
  return {};
}

/// When a blank went into what comes next in oven or bath: what was entered from then on ends a later operation.
Instant process_after(std::size_t operation, const BlankState& blank,
                      std::span<const OperationFacts* const> routing) {
  for (std::size_t i = operation + 1; i < routing.size(); ++i) {
    const auto into = routing[i]->is(PlannedWork::drying)   ? blank.into_drying
                      : routing[i]->is(PlannedWork::vacuum) ? blank.into_bath
                      : routing[i]->is(PlannedWork::cure)   ? blank.into_oven
                                                            : std::nullopt;
    if (into) return *into;
  }
  return Instant::max();
}

/// Does it go on by itself from the end of what is before it, so that nobody enters a beginning? Glue sets, what
/// came out of the oven cools, and what is done outside the shop is sent there.
bool begins_by_itself(const OperationFacts& facts) {
  if (facts.is(PlannedWork::cooling) || facts.is(PlannedWork::glue_setting) || facts.turnaround) return true;
  return !facts.planned && facts.hands_on.value == HandsOnWhen::start && facts.unattended.value;
}

/// Where it is in bath or oven now.
std::optional<Standing> in_process(const BlankState& blank, const BathState& bath,
                                   std::span<const OperationFacts* const> routing) {
  const auto at = [&](PlannedWork work, std::optional<Instant> since, std::optional<Instant> begun) {
    const auto found = std::ranges::find_if(routing, [&](const OperationFacts* facts) { return facts->is(work); });
    return found == routing.end()
               ? std::nullopt
               : std::optional{Standing{static_cast<std::size_t>(found - routing.begin()), since, begun}};
  };
  if (blank.is_drying) return at(PlannedWork::drying, blank.into_drying, blank.into_drying);
  if (blank.stage == Stage::in_oven) return at(PlannedWork::cure, blank.into_oven, blank.into_oven);
  if (blank.stage != Stage::in_bath) return std::nullopt;
  return bath.released ? at(PlannedWork::soak, bath.released, bath.released)
                       : at(PlannedWork::vacuum, blank.into_bath, bath.vacuum_on);
}

/// Where witnesses end: behind what is done to them alone, or else behind the cure.
std::size_t end_of_witnesses(std::span<const OperationFacts* const> routing) {
  auto last = std::ranges::find_if(routing, [](const OperationFacts* facts) { return facts->only_witnesses.value; });
  if (last == routing.end())
    last = std::ranges::find_if(routing, [](const OperationFacts* facts) { return facts->is(PlannedWork::cure); });
  return last == routing.end() ? routing.size() : static_cast<std::size_t>(last - routing.begin()) + 1;
}

}  // namespace

std::optional<Instant> done_at(std::size_t operation, const BlankState& blank, const BathState& bath,
                               std::span<const OperationFacts* const> routing) {
  BW_EXPECT(operation < routing.size());
  std::optional<Instant> left;
  for (std::size_t i = 0; i < operation; ++i) {
    const Passed before = passed(*routing[i], blank);
    if (!before.passed) return std::nullopt;
    left = std::max(left, before.left);
  }
  const OperationFacts& facts = *routing[operation];
  if (!passed(facts, blank).passed) {
    const bool soaks = facts.is(PlannedWork::vacuum) && blank.stage == Stage::in_bath;
    return soaks ? bath.released : std::nullopt;
  }
  std::optional<Instant> at;
  if (const auto kind = ends(operation, routing))
    at = told_of(*kind, blank, bath, process_after(operation, blank, routing));
  if (const auto done = blank.done.find(facts.name.value); done != blank.done.end())
    at = std::max(at, {done->second});
  const bool ends_itself = facts.planned && !facts.is(PlannedWork::cooling);
  return at && (!left || *at >= *left || ends_itself) ? at : std::nullopt;
}

std::optional<Instant> begun_at(const OperationFacts& facts, const BlankState& blank, const BathState& bath) {
  if (!facts.planned) return std::nullopt;
  switch (facts.planned->value) {
    case PlannedWork::drying:
      return blank.into_drying;
    case PlannedWork::vacuum:
      return bath.vacuum_on;
    case PlannedWork::soak:
      return bath.released;
    case PlannedWork::cure:
      return blank.into_oven;
    case PlannedWork::cooling:
    case PlannedWork::glue_setting:
      break;
  }
  return std::nullopt;
}

Standing standing_of(const BlankState& blank, const BathState& bath, std::span<const OperationFacts* const> routing) {
  if (const auto inside = in_process(blank, bath, routing)) return *inside;
  Standing standing;
  for (std::size_t i = 0; i < routing.size(); ++i) {
    const auto done = done_at(i, blank, bath, routing);
    const bool through = routing[i]->planned && passed(*routing[i], blank).left;
    if (!done && !through) continue;
    standing.next = i + 1;
    standing.since = std::max(standing.since, done);
  }
  while (standing.next < routing.size() && routing[standing.next]->only_witnesses.value && !blank.witness) {
    ++standing.next;
  }
  if (blank.witness && standing.next >= end_of_witnesses(routing)) standing.next = routing.size();
  if (standing.next < routing.size() && begins_by_itself(*routing[standing.next])) standing.begun = standing.since;
  return standing;
}

std::vector<std::size_t> holds_passed(const BlankState& blank, const BathState& bath,
                                      std::span<const OperationFacts* const> routing) {
  std::vector<std::size_t> passed;
  const std::size_t next = standing_of(blank, bath, routing).next;
  for (std::size_t i = 0; i < next; ++i) {
    const OperationFacts& facts = *routing[i];
    const bool is_judged = facts.only_witnesses.value || (facts.planned && !facts.is(PlannedWork::glue_setting));
    if (facts.hold && !is_judged && !done_at(i, blank, bath, routing)) passed.push_back(i);
  }
  return passed;
}

}  // namespace blankwright
