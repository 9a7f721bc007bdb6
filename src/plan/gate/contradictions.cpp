#include "plan/gate/contradictions.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "entries/readings.h"
#include "plan/figure/judge_words.h"
#include "plan/gate/gate_process.h"

namespace blankwright {
namespace {

using Lines = std::vector<std::string>;

/// Sawn, planed or trued sizes differ from those planned by no more: a share of them, and at least a length.
constexpr double odd_share = 0.12;
constexpr Length odd_length = 3 * mm;

/// What was planned: one size, or those between which a blank shrinks as it dries.
struct Planned {
  Length least, most;
};

bool is_far(Length seen, const Planned& planned) {
  const auto slack = [](Length size) { return std::max(odd_share * size, odd_length); };
  return seen < planned.least - slack(planned.least) || seen > planned.most + slack(planned.most);
}
bool is_far(Length seen, Length planned) { return is_far(seen, Planned{planned, planned}); }

/// A size against what it was before, or else against the plan.
void judge_size(const ContradictionInput& in, std::string_view what, Length seen, std::optional<Length> before,
                const std::optional<Planned>& planned, Lines& out) {
  const bool before_counts = before && !(planned && is_far(*before, *planned));
  if (before_counts && seen > *before + misread) {  // wood does not grow between two measurements
    out.push_back(
        fmt::format("{} is {}, and was {} before", what, in_units(seen, in.shop), in_units(*before, in.shop)));
  } else if (planned && is_far(seen, *planned)) {
    out.push_back(fmt::format("{} is {}, and {} was planned", what, in_units(seen, in.shop),
                              in_units(seen < planned->least ? planned->least : planned->most, in.shop)));
  }
}

/// What a side or a length is to be in the state that the entry is of.
std::optional<Planned> planned_size(bool squared, Length squared_size, std::optional<Length> dry,
                                    std::optional<Length> sawn) {
  if (squared) return Planned{squared_size, squared_size};
  if (!dry) return std::nullopt;
  return Planned{*dry, sawn.value_or(*dry)};
}

void judge_sizes(const ContradictionInput& in, Lines& out) {
  const BlankState& b = in.before;
  const bool squared = in.entry.kind == EntryKind::squared || b.stage >= Stage::squared;
  const auto& known = b.squared_size ? b.squared_size
                      : b.cured_size ? b.cured_size
                      : b.dry_size   ? b.dry_size
                                     : b.sawn_size;
  const BlankSize& plan = in.plan.blank;
  const auto section = planned_size(squared, plan.squared_section, plan.dry_section, plan.sawn_section);
  const SizeSeen seen = size_of(in.entry);
  judge_size(in, "width", seen.width, known ? std::optional{known->width} : std::nullopt, section, out);
  judge_size(in, "depth", seen.depth, known ? std::optional{known->depth} : std::nullopt, section, out);
  if (!seen.length) return;
  judge_size(in, "length", *seen.length, known ? known->length : std::nullopt,
             planned_size(squared, plan.squared_length, plan.dry_length, plan.sawn_length), out);
}

void judge_mass(const ContradictionInput& in, Lines& out) {
  const BlankState& b = in.before;
  const auto mass = [&](Mass m) { return text(m, in.shop.units.value); };
  const Mass net = weighing_of(in.entry).net;
  constexpr double lightest = 0.5, heaviest = 1.7;  // of the wood planned for, oven-dry: punky, or heart of it
  if (b.stage == Stage::begun) {
    const double wet = 1 + std::max(b.moisture.value_or(Share{}), in.order.wood.moisture.value) / whole;
    if (!b.dry.empty()) {
      const Mass last = b.dry.back().net;
      constexpr double wetter_than_said = 0.8;
      if (net > 1.1 * last || net < wetter_than_said / wet * last)
        out.push_back(fmt::format("{}, and {} when it was weighed before", mass(net), mass(last)));
    } else if (const auto& uptake = in.plan.process.uptake) {
      if (net > heaviest * wet * uptake->dry_mass || net < lightest * uptake->dry_mass)
        out.push_back(
            fmt::format("{}, and about {} is to be expected of its size", mass(net), mass(uptake->dry_mass)));
    }
  } else if (b.stage == Stage::cured && !b.wet.empty() && net > 1.02 * b.wet.back().net) {
    out.push_back(fmt::format("{} cured, and {} wet: resin is lost in the oven, not gained", mass(net),
                              mass(b.wet.back().net)));
  }
}

void judge_axis(const ContradictionInput& in, Lines& out) {
  const AxisSeen seen = axis_of(in.entry);
  if (in.shop.boring.method.value == BoringMethod::press) {  // on the lathe it is rounded before
    const auto& squared = in.before.squared_size;
    const std::array<Length, 2> known =
        squared ? std::array{squared->width, squared->depth}
                : std::array{in.plan.blank.squared_section, in.plan.blank.squared_section};
    for (const std::size_t face : {0UL, 1UL}) {
      const Length apart = seen.to_face.at(face) + seen.to_face.at(face + 2);
      const bool is_odd = squared ? apart < known.at(face) - misread : is_far(apart, known.at(face));
      if (is_odd)
        out.push_back(fmt::format("faces {} and {} are {} apart by these figures, and {} was {}", face + 1, face + 3,
                                  in_units(apart, in.shop), in_units(known.at(face), in.shop),
                                  squared ? "measured" : "planned"));
    }
  }
  if (in.entry.kind != EntryKind::bored) return;
  if (seen.diameter && abs(*seen.diameter - in.plan.bore.drill.diameter) > 0.3 * mm)
    out.push_back(fmt::format("bored {}, and the drill planned is {}", in_units(*seen.diameter, in.shop),
                              in.plan.bore.drill.name()));
  if (seen.depth && is_far(*seen.depth, in.plan.depth.full))
    out.push_back(fmt::format("bored {} deep, and {} was planned", in_units(*seen.depth, in.shop),
                              in_units(in.plan.depth.full, in.shop)));
}

void judge_sawn(const ContradictionInput& in, Lines& out) {
  if (in.before.board.empty()) return;
  out.push_back(fmt::format("it was sawn before, from board {}; is it another blank?", in.before.board));
}

void judge_inspected(const ContradictionInput& in, Lines& out) {
  const bool passed = outcome_of(in.entry, Field::result) == Outcome::pass;
  if (passed && outcome_of(in.entry, Field::thread) == Outcome::fail)
    out.push_back("the thread gauge fails: it counts as failed");
  const auto projection = in.entry.get<Length>(Field::projection);
  const Length planned = in.plan.stud.projection;
  if (projection && abs(*projection - planned) > misread)
    out.push_back(fmt::format("the stud projects {}, and {} was planned", in_units(*projection, in.shop),
                              in_units(planned, in.shop)));
}

void judge_drained(const ContradictionInput& in, Lines& out) {
  if (in.before.stage == Stage::in_bath)
    out.push_back(fmt::format("nobody entered that it came out of bath {}; now it counts as out", in.before.bath));
  if (in.before.drained) out.push_back("it was drained before; is it another blank?");
}

}  // namespace

std::vector<std::string> contradictions(const ContradictionInput& in) {
  Lines out;
  switch (reading_of(in.entry.kind)) {
    case ReadingKind::size:
      judge_sizes(in, out);
      break;
    case ReadingKind::mass:
      judge_mass(in, out);
      break;
    case ReadingKind::axis:
      judge_axis(in, out);
      break;
    case ReadingKind::none:
      break;
  }
  if (in.entry.kind == EntryKind::sawn) judge_sawn(in, out);
  if (in.entry.kind == EntryKind::drained) judge_drained(in, out);
  if (in.entry.kind == EntryKind::inspected) judge_inspected(in, out);
  return out;
}

std::vector<std::string> contradictions(const BlankOffered& promised, const OpenOrder& order) {
  const Against why = against(promised, order);
  if (why == Against::nothing) return {};
  return {fmt::format("it does not fit order {}: {}", order.order->id.value, in_words(why))};
}

std::vector<std::string> contradictions(const Entry& entry, const OrderPlan& plan, const Shop& shop) {
  const UnitSystem units = shop.units.value;
  const auto gauge = entry.get<GaugePressure>(Field::gauge);
  if (entry.kind == EntryKind::target_reached && gauge) {
    if (const auto asked = gauge_short_of(*gauge, plan))
      return {fmt::format("the gauge reads {}, and {} is asked for: then the target is not reached yet",
                          text(*gauge, units), text(GaugePressure{} - *asked, units, Round::up))};
  }
  const auto seen = entry.get<Temperature>(Field::temperature);
  if (seen && plan.process.cure) {
    constexpr auto swings = 25 * kelvin;  // an oven about what it is set to, at the most
    const Temperature air = plan.process.cure->air;
    if (*seen > air + swings)
      return {fmt::format("{}, and the air is to have {}: °C or °F?", text(*seen, units), text(air, units))};
  }
  return {};
}

std::vector<std::string> contradictions_of_vacuum(const Order& order, std::span<const BlankState> inside) {
  if (!order.treatment || !order.treatment->witness.value || std::ranges::any_of(inside, &BlankState::witness))
    return {};
  return {"no witness is in this bath: nothing will show how far the resin went in; put one in first"};
}

}  // namespace blankwright
