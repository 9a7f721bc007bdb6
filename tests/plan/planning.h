#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "plan/order/plan_order.h"

namespace blankwright {

Source source_of(std::string name, std::string text);

/// The text of a file of the project.
std::string project_file(const std::string& name);
std::string order_file(const std::string& name);
std::string sample_file(const std::string& name);

/// The order and the shop that most is tried on.
std::string awl();
std::string bench();

/// The text with one stretch of it, which must stand there exactly once, replaced.
std::string with(std::string text, std::string_view old, std::string_view replacement);

Shop shop_of(const std::string& text);
/// The usual shop with these operations, and what else they need, in place of its own.
Shop shop_with(const std::string& tables);

Order order_of(const std::string& text);

/// An order planned, and what was said about it.
struct Planned {
  std::optional<OrderPlan> plan;
  Diagnostics said;

  const Diagnostic* about(Problem problem) const;
};

Planned planned(const Order& order, const Shop& shop, const Record& record = {});

OrderPlan plan_of(const std::string& order, const std::string& shop);

/// A figure in the unit of plan.json, not rounded.
double in_mm(const OrderPlan& plan, Figure figure);
inline double bare(const OrderPlan& plan, Figure figure) { return in_mm(plan, figure) / 1000; }

/// A thread by its designation, which has to be one.
Thread thread_of(std::string_view designation);

/// What awl() says of the handle.
FinishedForm awl_form(bool smooth = false);
FinishedForm cylinder(double diameter_mm, double length_mm = 150);

/// A value that a test wants, as if the shop file had said so.
template <class T>
Given<T> given(T value) {
  return {value, Origin::shop, {}, {}};
}

}  // namespace blankwright
