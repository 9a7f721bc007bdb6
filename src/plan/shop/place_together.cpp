#include "plan/shop/place_together.h"

#include <algorithm>
#include <utility>

#include "measure/elapsed.h"
#include "plan/routing/placing.h"

namespace blankwright {
namespace {

constexpr int most_tries = 30;

/// One way of placing everything.
struct Try {
  PlacedTogether placed;
  ShopCalendar promised;
  int too_late = 0;  ///< how many begin too late behind it
};

/// What runs already cannot be made to last longer than it may.
bool may_end_at(const Operation& op, Instant now, Instant end) {
  return !op.begun || !op.longest || between(now, end) <= *op.longest;
}

void place_behind(Try& now, std::span<const Behind> behind) {
  for (const Behind& one : behind) {
    const Instant ready = now.placed.shared.operations.at(one.after).end;
    auto placed = now.promised.place(one.ops, ready, {});
    const bool in_time =
        placed && too_late(one.ops.front(), ready, placed->operations.front().start) == std::chrono::minutes{0};
    if (!in_time) ++now.too_late;
    now.placed.behind.push_back(placed ? std::optional{std::move(*placed)} : std::nullopt);
    now.placed.ready.push_back(ready);
  }
}

/// Lets what is before one of those that begin too late end so late that it need not: the one that needs least. False
/// where nothing can.
bool put_off(std::vector<Operation>& shared, Instant from, std::span<const Behind> behind, const Try& now) {
  Operation* first = nullptr;
  Instant end = Instant::max();
  for (std::size_t i = 0; i < behind.size(); ++i) {
    const auto& placed = now.placed.behind.at(i);
    if (!placed) continue;
    Operation& op = shared.at(behind[i].after);
    const auto late = too_late(behind[i].ops.front(), now.placed.ready.at(i), placed->operations.front().start);
    const Instant in_time = now.placed.ready.at(i) + late;
    if (late == std::chrono::minutes{0} || in_time >= end || !may_end_at(op, from, in_time)) continue;
    end = in_time;
    first = &op;
  }
  if (first != nullptr) first->ends_from = end;
  return first != nullptr;
}

}  // namespace

std::chrono::minutes too_late(const Operation& op, Instant ready, Instant begins) {
  if (!op.longest_wait) return {};
  const Duration beyond = between(ready, begins) - *op.longest_wait;
  return beyond > Duration{} ? whole_minutes(beyond, Round::up) : std::chrono::minutes{0};
}

tl::expected<PlacedTogether, Obstacle> place_together(ShopCalendar& calendar, std::vector<Operation> shared,
                                                      Instant from, const std::string& in_turn,
                                                      std::span<const Behind> behind) {
  if (behind.empty()) {
    auto placed = calendar.place(std::move(shared), from, in_turn);
    if (!placed) return tl::unexpected{placed.error()};
    return PlacedTogether{std::move(*placed), {}, {}};
  }
  std::optional<Try> best;
  for (int i = 0; i < most_tries; ++i) {
    Try now{{}, calendar};
    auto placed = now.promised.place(shared, from, in_turn);
    if (!placed && !best) return tl::unexpected{placed.error()};
    if (!placed) break;
    now.placed.shared = std::move(*placed);
    place_behind(now, behind);
    const bool all_in_time = now.too_late == 0;
    const bool goes_on = !all_in_time && put_off(shared, from, behind, now);
    if (!best || now.too_late < best->too_late) best = std::move(now);
    if (!goes_on) break;
  }
  calendar = std::move(best->promised);
  return std::move(best->placed);
}

}  // namespace blankwright
