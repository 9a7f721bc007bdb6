#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "entries/blank_state.h"
#include "plan/order/order_plan.h"

namespace blankwright {

/// An order that still lacks pieces.
struct OpenOrder {
  const Order* order = nullptr;
  const OrderPlan* plan = nullptr;
  const Shop* shop = nullptr;
};

/// What stands in the way of a blank becoming another order's piece.
enum class Against { nothing, species, treatment, size, bore, stud, axis };

struct CouldBecome {
  std::size_t order = 0;  ///< among those given
  Against against = Against::nothing;
  std::optional<Length> margin;  ///< at the tightest place, where the blank's axis is known
  std::optional<AxisRoom> room;  ///< for the axis, where there is none yet and the section is large enough
};

/// An order that a blank was meant for when something was done to it.
struct DoneFor {
  const Order* order = nullptr;
  const OrderPlan* plan = nullptr;
};

struct BlankOffered {
  const BlankState& state;
  const Order& issued_for;                ///< its wood
  const OrderPlan& plan;                  ///< of that order: its nominal sizes
  DoneFor bathed{}, bored{}, stud_set{};  ///< its treatment, bore and stud; null where `issued_for` has them
};

/// What a blank could still become: for each order the first thing that stands against it, or its margin. A blank
/// fits by species, resin and dye; by its length as long as the handle, its facing and the least tail waste lie in
/// it, and by its section as long as that leaves room for any axis at all, as they were measured last; once it has a
/// bore, by the bore, and by this very axis with the other form; once it has a stud, by its thread and its length.
/// Those that fit come first, the earlier due before the later, then the tighter before the roomier, so that a large
/// blank is not spent on a small piece. None for a blank whose way is over.
std::vector<CouldBecome> could_become(const BlankOffered& blank, std::span<const OpenOrder> orders);

/// What stands in the way of a blank becoming that one order's piece; nothing also where its way is over.
Against against(const BlankOffered& blank, const OpenOrder& order);

/// In words: "another species".
std::string_view in_words(Against against);
/// The same, of one that fits with what is left for the axis that it has, or is to get, to the safe side: "fits, 0.8
/// mm to spare on the radius".
std::string in_words(const CouldBecome& answer, UnitSystem units);

}  // namespace blankwright
