#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace blankwright {

/// What can be wrong with an order's id. It becomes a folder's name, so it has to be one on every system.
enum class OrderIdFault { empty, too_long, character, leading_hyphen, trailing_dot, device_name };

/// A fault and what to tell the user: "an order id cannot end with a dot".
struct OrderIdProblem {
  OrderIdFault fault;
  std::string text;
};

/// What is wrong with `id` as the id of an order, if anything: 1 to 40 of `A-Z a-z 0-9 . _ -`, no hyphen at the
/// front, where commands take it for a flag, no dot at the end, and no name of a device (CON, PRN, AUX, NUL, COM1–9,
/// LPT1–9, in any case and also with an extension). Source of the last two: Microsoft, "Naming Files, Paths, and
/// Namespaces" (from memory).
std::optional<OrderIdProblem> order_id_problem(std::string_view id);

/// The same for two ids that differ only in case: they would share one folder on many systems.
std::string folded_order_id(std::string_view id);

}  // namespace blankwright
