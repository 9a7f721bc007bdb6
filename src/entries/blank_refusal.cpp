#include "entries/blank_refusal.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "diagnose/failure.h"
#include "entries/blank_rules.h"
#include "entries/blank_state.h"
#include "entries/readings.h"

namespace blankwright {
namespace {

Refusal too_early(const BlankState& s, std::string_view what) {
  return {Refused::too_early, fmt::format("{} {}", s.id->shown(), what)};
}

std::optional<Refusal> not_in_shop(const BlankState& s) {
  if (s.stage == Stage::in_bath)
    return Refusal{Refused::elsewhere, fmt::format("{} is in bath {}", s.id->shown(), s.bath)};
  if (s.stage == Stage::in_oven)
    return Refusal{Refused::elsewhere, fmt::format("{} is in the oven, load {}", s.id->shown(), s.load)};
  return std::nullopt;
}

/// Wood that dries is weighed and measured in between, but does not go elsewhere; and only what dries comes out.
std::optional<Refusal> against_drying(const BlankState& s, EntryKind kind) {
  if (kind == EntryKind::out_of_drying && s.stage == Stage::begun && !s.is_drying)
    return too_early(s, "is in no oven to dry");
  if (!s.is_drying || (kind != EntryKind::into_bath && kind != EntryKind::sealed)) return std::nullopt;
  return Refusal{Refused::elsewhere, fmt::format("{} is in the oven to dry, load {}: enter first when it came out",
                                                 s.id->shown(), s.drying_load)};
}

std::optional<Refusal> mass_impossible(const BlankState& s, const Entry& entry, UnitSystem units) {
  const Mass net = weighing_of(entry).net;
  if (s.dry.empty() || s.stage == Stage::begun) return std::nullopt;
  // A squared blank has lost wood, so only what is weighed before that can be held against the dry mass.
  if (s.stage != Stage::wet && s.stage != Stage::cured) return std::nullopt;
  if (net >= s.dry.back().net) return std::nullopt;
  return Refusal{Refused::mass_impossible,
                 fmt::format("{} would weigh {}, less than the {} that it weighed dry", s.id->shown(),
                             text(net, units), text(s.dry.back().net, units))};
}

std::optional<Refusal> axis_impossible(const BlankState& s, const Entry& entry, UnitSystem units) {
  const AxisSeen seen = axis_of(entry);
  const auto wrong = [&](std::string what) {
    return Refusal{Refused::size_impossible, fmt::format("{}: {}", s.id->shown(), std::move(what))};
  };
  if (std::ranges::any_of(seen.to_face, [](Length to_face) { return to_face <= Length{}; })) {
    return wrong("the rod's centre lies inside the blank, so each face is more than 0 away");
  }
  if (!s.squared_size) return std::nullopt;
  const auto check = [&](Length sum, Length side, int face) -> std::optional<Refusal> {
    if (sum <= side + misread) return std::nullopt;  // what was rounded measures less
    const Printing measured{units, Round::nearest, Fineness::measured};
    return wrong(fmt::format("faces {} and {} are {} apart by these figures, and the blank is {} wide", face,
                             face + 2, text(sum, measured), text(side, measured)));
  };
  if (auto r = check(seen.to_face[0] + seen.to_face[2], s.squared_size->width, 1)) return r;
  return check(seen.to_face[1] + seen.to_face[3], s.squared_size->depth, 2);
}

/// Refuses unless the blank has come at least to `from` and at most to `to`.
std::optional<Refusal> unless_between(const BlankState& s, Stage from, Stage to, std::string_view before,
                                      std::string_view past) {
  if (s.stage < from) return too_early(s, before);
  if (s.stage > to) return Refusal{Refused::too_late, fmt::format("{} {}", s.id->shown(), past)};
  return std::nullopt;
}

/// Wood that is worked without having been in a bath.
bool is_worked_dry(const BlankState& s) { return s.stage >= Stage::cured && s.bath.empty(); }

/// From when on it can be: without treatment nothing is cured.
Stage from_of(const BlankState& s, const BlankRule& rule, const RefusedBy& by) {
  const bool needs_cure = rule.from == Stage::cured && rule.to < Stage::turned;
  const bool goes_without = needs_cure && s.stage == Stage::begun && rule.kind != EntryKind::witness_cut;
  return goes_without && by.is_treated && !by.is_treated(s.promised) ? Stage::begun : rule.from;
}

/// Why it cannot be any more.
std::string_view past_of(const BlankState& s, const BlankRule& rule) {
  if (!is_worked_dry(s) || rule.to >= Stage::cured) return rule.past;
  return rule.from > Stage::begun ? rule.before : "is worked already, without a bath";
}

std::optional<Refusal> out_of_turn(const BlankState& s, const BlankRule& rule, const RefusedBy& by) {
  // Told after what was done to it then.
  if (rule.kind == EntryKind::out_of_bath && s.stage == Stage::wet && s.drained) return std::nullopt;
  if (rule.kind == EntryKind::withdrawn && s.is_begun())
    return Refusal{Refused::too_late, fmt::format("{} was begun already; a reason scraps it", s.id->shown())};
  if (rule.kind == EntryKind::sent) {
    if (s.result == Outcome::fail)
      return Refusal{Refused::too_early, fmt::format("{} failed its inspection", s.id->shown())};
    if (s.stage == Stage::bored && s.glued) return std::nullopt;
  }
  return unless_between(s, from_of(s, rule, by), rule.to, rule.before, past_of(s, rule));
}

}  // namespace

std::optional<Refusal> refusal(const BlankState& s, const Entry& entry) { return refusal(s, entry, RefusedBy{}); }

std::optional<Refusal> refusal(const BlankState& s, const Entry& entry, const RefusedBy& by) {
  BW_EXPECT(s.id.has_value());
  if (entry.kind == EntryKind::issued) {
    return Refusal{Refused::too_late, fmt::format("{} has been issued already", s.id->shown())};
  }
  if (s.is_over()) {
    const std::string why = s.stage == Stage::scrapped && !s.reason.empty() ? ": " + s.reason : "";
    return Refusal{Refused::over, fmt::format("{} is {}{}", s.id->shown(),
                                              s.stage == Stage::cut_open ? "cut open" : name_of(s.stage), why)};
  }
  const BlankRule* rule = rule_of(entry.kind);
  if (rule == nullptr || rule->where == Where::in_shop) {
    if (auto r = not_in_shop(s)) return r;
  }
  if (auto r = against_drying(s, entry.kind)) return r;
  if (auto r = rule == nullptr ? std::nullopt : out_of_turn(s, *rule, by)) return r;
  switch (reading_of(entry.kind)) {
    case ReadingKind::mass:
      return mass_impossible(s, entry, by.units);
    case ReadingKind::axis:
      return axis_impossible(s, entry, by.units);
    case ReadingKind::none:
    case ReadingKind::size:
      return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace blankwright
