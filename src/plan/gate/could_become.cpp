#include "plan/gate/could_become.h"

#include <fmt/format.h>

#include <algorithm>

#include "plan/figure/figure.h"
#include "plan/gate/gate_axis.h"

namespace blankwright {
namespace {

/// Bores and studs that differ by less are one size.
constexpr Length same_size = 0.05 * mm;

bool same(Length a, Length b) { return abs(a - b) < same_size; }

std::string dye_of(const Order& order) {
  return order.treatment && order.treatment->dye ? order.treatment->dye->value : std::string{};
}

bool same_treatment(const BlankOffered& blank, const Order& other) {
  if (blank.state.stage < Stage::in_bath) return true;  // anything can still be drawn into it
  const Order& own = blank.bathed.order != nullptr ? *blank.bathed.order : blank.issued_for;
  if (!own.treatment || !other.treatment) return !own.treatment && !other.treatment;
  return own.treatment->resin.value == other.treatment->resin.value && dye_of(own) == dye_of(other);
}

bool same_stud(const BlankOffered& blank, const OpenOrder& other) {
  const Order& order = blank.stud_set.order != nullptr ? *blank.stud_set.order : blank.issued_for;
  const OrderPlan& plan = blank.stud_set.plan != nullptr ? *blank.stud_set.plan : blank.plan;
  return order.stud.thread.value.designation == other.order->stud.thread.value.designation &&
         same(plan.stud.projection, other.plan->stud.projection);
}

/// What a blank leaves: its section once it is squared, its length before its ends are, since those are trued with
/// what is left over.
struct SizeLeft {
  Length section, length;
};

SizeLeft size_left(const BlankOffered& blank, const AllowanceFacts& allowances) {
  const BlankState& s = blank.state;
  const BlankSize& own = blank.plan.blank;
  const auto side = [](const SizeSeen& seen) { return std::min(seen.width, seen.depth); };
  if (const auto& seen = s.squared_size) return {side(*seen), seen->length.value_or(own.squared_length)};
  if (const auto& seen = s.cured_size ? s.cured_size : s.dry_size)
    return {side(*seen) - allowances.squaring.value,
            seen->length.value_or(own.dry_length.value_or(own.squared_length))};
  if (const auto& seen = s.sawn_size; seen && own.sawn_section && own.dry_length) {
    return {side(*seen) - (*own.sawn_section - own.squared_section),
            seen->length.value_or(*own.sawn_length) - (*own.sawn_length - *own.dry_length)};
  }
  return {own.squared_section, own.squared_length};
}

/// As long as this a blank still has the handle in it, and behind its tail the wire hole and the end mark.
Length least_length(const OpenOrder& other) {
  return other.plan->form.length() + allowances_for(*other.order, *other.shop).seat_facing.value + least_tail_waste;
}

AxisRoom room_in(const OpenOrder& other, Length squared_section) {
  const AllowanceFacts& a = other.shop->allowances;
  return room_for_axis({.form = other.plan->form,
                        .squared_section = squared_section,
                        .section_tolerance = a.section_tolerance,
                        .finish = a.finish,
                        .bow = a.bow,
                        .axis = other.plan->axis,
                        .spread_offset = {}});
}

Against judged(const BlankOffered& blank, const OpenOrder& other, CouldBecome& answer) {
  const BlankState& s = blank.state;
  if (blank.plan.species != other.plan->species) return Against::species;
  if (!same_treatment(blank, *other.order)) return Against::treatment;
  const SizeLeft size = size_left(blank, other.shop->allowances);
  if (!fits(size.length, least_length(other))) return Against::size;
  if (s.stage < Stage::bored) {
    answer.room = room_in(other, size.section);
    return answer.room->offset > Length{} ? Against::nothing : Against::size;
  }
  const OrderPlan& bored = blank.bored.plan != nullptr ? *blank.bored.plan : blank.plan;
  const Length bore = s.bore && s.bore->diameter ? *s.bore->diameter : bored.bore.drill.diameter;
  if (!same(bore, other.plan->bore.drill.diameter)) return Against::bore;
  if (s.stage >= Stage::stud_set && !same_stud(blank, other)) return Against::stud;
  const auto& seen = s.stud ? s.stud : s.bore;
  if (!seen) return Against::nothing;
  const AllowanceFacts& allowances = other.shop->allowances;
  const AxisGate gate = axis_gate({.form = other.plan->form,
                                   .seen = *seen,
                                   .allowance = allowances.finish.value + allowances.bow.value,
                                   .section = section_bored(*other.shop)});
  answer.margin = gate.least.margin;
  return gate.answer == AxisAnswer::fails ? Against::axis : Against::nothing;
}

/// Wood that would be left over beside the form.
Length spare(const CouldBecome& answer) {
  return answer.room ? answer.room->offset : answer.margin.value_or(Length{});
}

/// What is left for the axis that a blank has, or is to get; rounded to the safe side.
std::string spare_text(const CouldBecome& answer, UnitSystem units) {
  constexpr auto si = [](Length length) { return length / metre; };
  if (answer.margin) {
    return fmt::format(", {} to spare on the radius",
                       text(*answer.margin, Printing{units, Round::down, Fineness::measured}));
  }
  if (!answer.room) return {};
  return fmt::format(" if bored within Ø {} at the seat and {}",
                     text(Figure::centring_seat_position, si(2 * answer.room->offset), units),
                     text(Figure::centring_tilt, answer.room->tilt, units));
}

std::chrono::sys_days due_of(const Order& order) {
  return order.due ? std::chrono::sys_days{order.due->value} : std::chrono::sys_days::max();
}

}  // namespace

std::vector<CouldBecome> could_become(const BlankOffered& blank, std::span<const OpenOrder> orders) {
  std::vector<CouldBecome> out;
  if (blank.state.is_over() || blank.state.stage >= Stage::turned) return out;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    CouldBecome answer{i, Against::nothing, {}, {}};
    answer.against = judged(blank, orders[i], answer);
    out.push_back(answer);
  }
  const auto before = [&](const CouldBecome& a, const CouldBecome& b) {
    const bool a_fits = a.against == Against::nothing;
    if (a_fits != (b.against == Against::nothing)) return a_fits;
    const auto a_due = due_of(*orders[a.order].order);
    const auto b_due = due_of(*orders[b.order].order);
    if (a_due != b_due) return a_due < b_due;
    return spare(a) < spare(b);
  };
  std::ranges::stable_sort(out, before);
  return out;
}

Against against(const BlankOffered& blank, const OpenOrder& order) {
  const auto answer = could_become(blank, std::span{&order, 1});
  return answer.empty() ? Against::nothing : answer.front().against;
}

std::string_view in_words(Against against) {
  switch (against) {
    case Against::nothing:
      return "fits";
    case Against::species:
      return "another species";
    case Against::treatment:
      return "another resin or dye";
    case Against::size:
      return "too small";
    case Against::bore:
      return "another bore";
    case Against::stud:
      return "another stud";
    case Against::axis:
      return "its axis is too far off for that form";
  }
  return {};
}

std::string in_words(const CouldBecome& answer, UnitSystem units) {
  const std::string words{in_words(answer.against)};
  return answer.against == Against::nothing ? words + spare_text(answer, units) : words;
}

}  // namespace blankwright
