#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/saying.h"
#include "entries/blank_state.h"
#include "entries/process_state.h"
#include "plan/gate/gate_cure.h"
#include "plan/gate/verdict.h"
#include "plan/order/order_plan.h"

namespace blankwright {

/// In the order in which a blank comes to them; before them all, whether its order has a plan.
enum class Gate { plan, dry, bath, resin, cure, witness, graded, glue, axis, seat };
/// On screens, and in files.
std::string_view name_of(Gate gate);
/// On paper.
Saying says_of(Gate gate);

/// How a blank stands at a gate.
struct Judged {
  Gate gate;
  Verdict verdict = Verdict::goes_on;
  Saying reason;                  ///< without the blank's ID and without HOLD
  std::vector<Saying> details{};  ///< a line each, for who wants to know more
  std::optional<Instant> from{};  ///< when it lets pass at the earliest, where that is known
  bool holds() const { return verdict != Verdict::goes_on; }
  bool is_wrong() const { return verdict == Verdict::held; }
};

/// In words, without the blank's ID.
std::string in_words(const Judged& judged);

struct GateInput {
  const BlankState& blank;
  const Order& order;  ///< that it is meant for
  const OrderPlan& plan;
  const Shop& shop;
  const BathState& bath;                     ///< its last one
  std::span<const BathState> earlier_baths;  ///< those of blank.earlier_baths
  const LoadState& load;                     ///< the one that it is cured in
  Instant now;
  std::function<std::vector<CoreTime>()> core_times;  ///< of all blanks of that load; asked for where it is needed
  /// The order that it was bathed for, by which resin, cure and witness are judged; null where that is `order`.
  const Order* bathed_for = nullptr;
  const OrderPlan* bathed_by = nullptr;
};

/// The gates at which a blank stands, by the plan of the order that it is meant for, or was when it was bathed. One
/// that was passed against what it says stands until it is answered: the cure's and the witness's until the piece is
/// sent, the axis's until it is turned. None at its end.
std::vector<Judged> judge_gates(const GateInput& in);

/// Of a blank whose order, or the one that it was bathed for, cannot be planned any more.
Judged not_planned(const std::string& order_id);

/// When a load may come out of the oven, by the one of its blanks that needs longest; none where none is in it.
/// `gates`: those of the blanks that are.
std::optional<Judged> judge_load(std::span<const std::vector<Judged>> gates);

}  // namespace blankwright
