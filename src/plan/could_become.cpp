#include "plan/could_become.h"

#include <algorithm>

#include "plan/gate_axis.h"

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
  const Order& own = blank.issued_for;
  if (!own.treatment || !other.treatment) return !own.treatment && !other.treatment;
  return own.treatment->resin.value == other.treatment->resin.value && dye_of(own) == dye_of(other);
}

/// The blank's section and length as it is now, and what the other order needs in that state.
struct Sizes {
  Length section, length, needed_section, needed_length;
};

Sizes sizes(const BlankOffered& blank, const BlankSize& needed) {
  const BlankState& s = blank.state;
  const BlankSize& own = blank.plan.blank;
  if (s.stage >= Stage::squared || !own.dry_section || !needed.dry_section) {
    const auto& seen = s.squared_size;
    return {seen ? std::min(seen->width, seen->depth) : own.squared_section,
            seen && seen->length ? *seen->length : own.squared_length, needed.squared_section, needed.squared_length};
  }
  const auto& seen = s.cured_size ? s.cured_size : s.dry_size;
  return {seen ? std::min(seen->width, seen->depth) : *own.dry_section,
          seen && seen->length ? *seen->length : own.dry_length.value_or(own.squared_length), *needed.dry_section,
          needed.dry_length.value_or(needed.squared_length)};
}

Against against(const BlankOffered& blank, const OpenOrder& other, std::optional<Length>& margin) {
  const BlankState& s = blank.state;
  if (blank.plan.species != other.plan->species) return Against::species;
  if (!same_treatment(blank, *other.order)) return Against::treatment;
  const Sizes size = sizes(blank, other.plan->blank);
  margin = (size.section - size.needed_section) / 2;
  const bool long_enough = fits(size.length, size.needed_length);
  if (s.stage < Stage::bored) {
    return long_enough && fits(size.section, size.needed_section) ? Against::nothing : Against::size;
  }
  if (!long_enough) return Against::size;
  const Length bore = s.bore && s.bore->diameter ? *s.bore->diameter : blank.plan.bore.drill.diameter;
  if (!same(bore, other.plan->bore.drill.diameter)) return Against::bore;
  if (s.stage >= Stage::stud_set &&
      (blank.issued_for.stud.thread.value.designation != other.order->stud.thread.value.designation ||
       !same(blank.plan.stud.projection, other.plan->stud.projection))) {
    return Against::stud;
  }
  const auto& seen = s.stud ? s.stud : s.bore;
  if (!seen) return Against::nothing;
  const AllowanceFacts& allowances = other.shop->allowances;
  const AxisGate gate = axis_gate(
      {.form = other.plan->form, .seen = *seen, .allowance = allowances.finish.value + allowances.bow.value});
  margin = gate.faces.at(static_cast<std::size_t>(gate.tightest)).margin;
  return gate.answer == AxisAnswer::fails ? Against::axis : Against::nothing;
}

std::chrono::sys_days due_of(const Order& order) {
  return order.due ? std::chrono::sys_days{order.due->value} : std::chrono::sys_days::max();
}

}  // namespace

std::vector<CouldBecome> could_become(const BlankOffered& blank, std::span<const OpenOrder> orders) {
  std::vector<CouldBecome> out;
  if (blank.state.is_over() || blank.state.stage >= Stage::turned) return out;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    CouldBecome answer{i, Against::nothing, {}};
    answer.against = against(blank, orders[i], answer.margin);
    out.push_back(answer);
  }
  const auto before = [&](const CouldBecome& a, const CouldBecome& b) {
    const bool a_fits = a.against == Against::nothing;
    if (a_fits != (b.against == Against::nothing)) return a_fits;
    const auto a_due = due_of(*orders[a.order].order);
    const auto b_due = due_of(*orders[b.order].order);
    if (a_due != b_due) return a_due < b_due;
    return a.margin.value_or(Length{}) < b.margin.value_or(Length{});
  };
  std::ranges::stable_sort(out, before);
  return out;
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

}  // namespace blankwright
