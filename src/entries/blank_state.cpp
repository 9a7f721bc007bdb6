#include "entries/blank_state.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

constexpr std::array<std::string_view, 14> stages{"begun",   "in-bath",  "wet",      "in-oven",  "cured",
                                                  "squared", "bored",    "stud-set", "turned",   "inspected",
                                                  "sent",    "cut-open", "scrapped", "withdrawn"};

/// Dry wood draws moisture, so it is weighed and measured in one go.
constexpr std::chrono::hours one_go{12};

/// Wood that has lost as much since it was measured was wet then.
constexpr double dried_since = 0.97;

/// What was measured before the wood was dried is no size of dry wood.
void take_as_sawn(BlankState& s) {
  if (s.dry_size) s.sawn_size = std::exchange(s.dry_size, {});
}

/// A size is dry once the blank came out of the drying oven, or was weighed in the same go and has lost nothing
/// since; otherwise it may be that of the wood as it was sawn.
void weigh_before_bath(BlankState& s, const Weighing& seen) {
  if (s.measured && !s.mass_when_measured && seen.at - *s.measured <= one_go) {
    s.mass_when_measured = seen.net;
    if (s.sawn_size && !s.dry_size) s.dry_size = std::exchange(s.sawn_size, {});
  }
  const bool was_wet = s.mass_when_measured && seen.net < dried_since * *s.mass_when_measured;
  if (was_wet && !s.measured_dried) take_as_sawn(s);
  s.dry.push_back(seen);
  s.open_before = {};
  s.open_since.reset();
  if (!s.is_drying) s.open_since = seen.at;  // nobody weighs it sealed
}

void measure_before_bath(BlankState& s, const Entry& entry) {
  s.measured = entry.at;
  s.measured_dried = s.out_of_drying.has_value();
  s.mass_when_measured.reset();
  if (!s.dry.empty() && entry.at - s.dry.back().at <= one_go) s.mass_when_measured = s.dry.back().net;
  const bool may_be_wet = !s.measured_dried && s.dry.empty();
  (may_be_wet ? s.sawn_size : s.dry_size) = size_of(entry);
}

void weigh(BlankState& s, const Entry& entry) {
  const Weighing seen = weighing_of(entry);
  if (seen.net <= Mass{}) return;
  if (s.stage == Stage::begun) {
    weigh_before_bath(s, seen);
  } else if (s.stage == Stage::wet || s.stage == Stage::in_bath) {
    s.wet.push_back(seen);
  } else {
    (s.stage <= Stage::cured ? s.cured : s.later).push_back(seen);
  }
}

void measure(BlankState& s, const Entry& entry) {
  if (!is_above_0(size_of(entry))) return;
  if (s.stage == Stage::begun) {
    measure_before_bath(s, entry);
  } else {
    (s.stage < Stage::in_oven ? s.dry_size : s.cured_size) = size_of(entry);
  }
}

void inspect(BlankState& s, const Entry& entry) {
  s.stage = Stage::inspected;
  // What an inspection says nothing of is as it was found before.
  if (const std::string thread = entry.text(Field::thread); !thread.empty()) s.thread = thread;
  if (const auto projection = entry.get<Length>(Field::projection)) s.projection = projection;
  if (const auto squareness = entry.get<Length>(Field::squareness)) s.squareness = squareness;
  s.result = s.thread == "fail" ? s.thread : entry.text(Field::result);  // nobody screws it in
  s.reason = entry.text(Field::reason);
}

/// What it drew before is out again.
void dry(BlankState& s, const Entry& entry) {
  if (!s.into_drying) take_as_sawn(s);
  s.into_drying = entry.at;
  s.is_drying = true;
  s.drying_load = entry.text(Field::load);
  s.open_before = {};
  s.open_since.reset();
}

void take_out_dry(BlankState& s, const Entry& entry) {
  if (s.is_drying && !s.dry.empty()) s.open_since = entry.at;
  s.out_of_drying = entry.at;
  s.is_drying = false;
}

/// From now on it lies sealed, or open.
void seal(BlankState& s, const Entry& entry, bool sealed) {
  if (s.open_since) s.open_before += entry.at - *s.open_since;
  s.open_since = sealed ? std::nullopt : std::optional{entry.at};
}

void cut_open(BlankState& s, const Entry& entry) {
  s.stage = Stage::cut_open;
  const CutOpen seen = cut_of(entry);
  s.through = seen.through;
  s.hard = seen.hard;
  s.result = seen.through && seen.hard ? "pass" : "fail";
  s.reason = entry.text(Field::reason);
}

void grade(BlankState& s, const Entry& entry) {
  s.verdict = entry.text(Field::verdict);
  if (s.verdict == "fill") s.filled = false;  // what was filled before was not enough
  if (s.verdict != "scrap") return;
  s.stage = Stage::scrapped;
  s.reason = entry.text(Field::reason);
}

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

/// Wood that dries is weighed and measured in between, but does not go elsewhere.
std::optional<Refusal> still_drying(const BlankState& s, EntryKind kind) {
  if (!s.is_drying || (kind != EntryKind::into_bath && kind != EntryKind::sealed)) return std::nullopt;
  return Refusal{Refused::elsewhere, fmt::format("{} is in the oven to dry, load {}: enter first when it came out",
                                                 s.id->shown(), s.drying_load)};
}

std::optional<Refusal> mass_impossible(const BlankState& s, const Entry& entry) {
  const Mass net = weighing_of(entry).net;
  const auto grams = [](Mass mass) { return text(mass, UnitSystem::metric); };
  if (s.dry.empty() || s.stage == Stage::begun) return std::nullopt;
  // A squared blank has lost wood, so only what is weighed before that can be held against the dry mass.
  if (s.stage != Stage::wet && s.stage != Stage::cured) return std::nullopt;
  if (net >= s.dry.back().net) return std::nullopt;
  return Refusal{Refused::mass_impossible, fmt::format("{} would weigh {}, less than the {} that it weighed dry",
                                                       s.id->shown(), grams(net), grams(s.dry.back().net))};
}

std::optional<Refusal> axis_impossible(const BlankState& s, const Entry& entry) {
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
    constexpr Printing metric{UnitSystem::metric, Round::nearest, Fineness::measured};
    return wrong(fmt::format("faces {} and {} are {} apart by these figures, and the blank is {} wide", face,
                             face + 2, text(sum, metric), text(side, metric)));
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

std::optional<Refusal> out_of_turn(const BlankState& s, EntryKind kind) {
  switch (kind) {
    case EntryKind::sawn:
    case EntryKind::moisture:
    case EntryKind::into_drying:
    case EntryKind::out_of_drying:
    case EntryKind::sealed:
    case EntryKind::opened:
      return unless_between(s, Stage::begun, Stage::begun, "", "has been in a bath already");
    case EntryKind::into_bath:
      return unless_between(s, Stage::begun, Stage::wet, "", "is cured, and cured wood takes no resin");
    case EntryKind::out_of_bath:
      if (s.stage == Stage::wet && s.drained) return std::nullopt;  // told after what was done to it then
      return unless_between(s, Stage::in_bath, Stage::in_bath, "is in no bath", "is in no bath any more");
    case EntryKind::drained:
      return unless_between(s, Stage::in_bath, Stage::wet, "has not been in a bath", "is cured already");
    case EntryKind::into_oven:
      return unless_between(s, Stage::wet, Stage::wet, "has not been in a bath", "has been in the oven already");
    case EntryKind::out_of_oven:
      return unless_between(s, Stage::in_oven, Stage::in_oven, "is not in the oven", "is not in the oven any more");
    case EntryKind::graded:
    case EntryKind::filled:
    case EntryKind::witness_cut:
      return unless_between(s, Stage::cured, Stage::stud_set, "is not cured", "is turned already");
    case EntryKind::squared:
      return unless_between(s, Stage::cured, Stage::squared, "is not cured", "is bored already");
    case EntryKind::bored:  // rounded between centres, it need not be squared
      return unless_between(s, Stage::cured, Stage::bored, "is not cured", "has its stud already");
    case EntryKind::glued:
      return unless_between(s, Stage::bored, Stage::bored, "has no bore", "has its stud already");
    case EntryKind::stud_measured:
    case EntryKind::stud_pulled:
      return unless_between(s, Stage::bored, Stage::stud_set, "has no bore", "is turned already");
    case EntryKind::turned:
      return unless_between(s, Stage::bored, Stage::turned, "has no bore", "was inspected already");
    case EntryKind::inspected:
      return unless_between(s, Stage::turned, Stage::inspected, "is not turned", "was sent already");
    case EntryKind::withdrawn:
      if (s.is_begun())
        return Refusal{Refused::too_late, fmt::format("{} was begun already; a reason scraps it", s.id->shown())};
      return std::nullopt;
    case EntryKind::sent:
      if (s.result == "fail")
        return Refusal{Refused::too_early, fmt::format("{} failed its inspection", s.id->shown())};
      if (s.stage == Stage::bored && s.glued) return std::nullopt;
      return unless_between(s, Stage::stud_set, Stage::inspected, "has no stud", "was sent already");
    default:
      return std::nullopt;
  }
}

/// Was there wood for it, for this to be said?
bool tells_of_wood(EntryKind kind) {
  return kind != EntryKind::issued && kind != EntryKind::promised && kind != EntryKind::withdrawn;
}

/// What can be said of a blank wherever it is.
bool holds_anywhere(EntryKind kind) {
  return kind == EntryKind::promised || kind == EntryKind::scrapped || kind == EntryKind::done ||
         kind == EntryKind::out_of_bath || kind == EntryKind::out_of_oven || kind == EntryKind::drained;
}

}  // namespace

std::string_view name_of(Stage stage) { return stages.at(static_cast<std::size_t>(stage)); }

std::optional<Stage> stage_named(std::string_view name) {
  const auto* const found = std::ranges::find(stages, name);
  if (found == stages.end()) return std::nullopt;
  return static_cast<Stage>(found - stages.begin());
}

std::string BlankState::place() const {
  if (stage == Stage::in_bath) return "bath " + bath;
  if (stage == Stage::in_oven) return "oven, load " + load;
  if (is_over()) return std::string{name_of(stage)};
  return is_drying ? "oven, to dry, load " + drying_load : "shop";
}

BlankState after(BlankState s, const Entry& entry) {
  s.last = std::max(s.last, entry.number);
  s.last_at = std::max(s.last_at, entry.at);
  if (entry.kind != EntryKind::issued) s.last_done = std::max(s.last_done, entry.at);
  s.has_wood = s.has_wood || tells_of_wood(entry.kind);
  switch (entry.kind) {
    case EntryKind::issued:
      s.id = entry.blank;
      s.order = s.promised = entry.text(Field::order);
      s.witness = entry.text(Field::role) == "witness";
      break;
    case EntryKind::sawn:
      s.board = entry.text(Field::board);
      break;
    case EntryKind::measured:
      measure(s, entry);
      break;
    case EntryKind::weighed:
      weigh(s, entry);
      break;
    case EntryKind::moisture:
      s.moisture = entry.get<Share>(Field::moisture);
      break;
    case EntryKind::into_drying:
      dry(s, entry);
      break;
    case EntryKind::out_of_drying:
      take_out_dry(s, entry);
      break;
    case EntryKind::sealed:
    case EntryKind::opened:
      seal(s, entry, entry.kind == EntryKind::sealed);
      break;
    case EntryKind::into_bath:
      if (!s.bath.empty()) s.earlier_baths.push_back({s.bath, s.out_of_bath});
      s.stage = Stage::in_bath;
      s.bath = entry.text(Field::bath);
      s.is_drying = false;
      s.into_bath = entry.at;
      s.drained = false;
      s.wet.clear();
      break;
    case EntryKind::out_of_bath:
    case EntryKind::drained:  // nobody drains a blank in the bath
      if (s.stage != Stage::in_bath) {
        s.drained = s.drained || entry.kind == EntryKind::drained;
        break;
      }
      s.drained = entry.kind == EntryKind::drained;
      s.stage = Stage::wet;
      s.out_of_bath = entry.at;
      break;
    case EntryKind::into_oven:
      s.stage = Stage::in_oven;
      s.load = entry.text(Field::load);
      s.into_oven = entry.at;
      break;
    case EntryKind::out_of_oven:
      s.stage = Stage::cured;
      s.out_of_oven = entry.at;
      break;
    case EntryKind::graded:
      grade(s, entry);
      break;
    case EntryKind::filled:
      s.filled = true;
      break;
    case EntryKind::squared:
      s.stage = Stage::squared;
      if (is_above_0(size_of(entry))) s.squared_size = size_of(entry);
      break;
    case EntryKind::bored:
      s.stage = Stage::bored;
      if (axis_of(entry).over > Length{}) s.bore = axis_of(entry);
      break;
    case EntryKind::glued:
      s.glued = entry.at;
      break;
    case EntryKind::stud_measured:
      s.stage = Stage::stud_set;
      if (axis_of(entry).over > Length{}) s.stud = axis_of(entry);
      break;
    case EntryKind::turned:
      s.stage = Stage::turned;
      break;
    case EntryKind::inspected:
      inspect(s, entry);
      break;
    case EntryKind::promised:
      s.promised = entry.text(Field::order);
      break;
    case EntryKind::sent:
      s.stage = Stage::sent;
      s.sent = entry.at;
      break;
    case EntryKind::witness_cut:
      cut_open(s, entry);
      break;
    case EntryKind::stud_pulled:
      s.stage = Stage::cut_open;
      s.pulled = entry.get<Force>(Field::force);
      break;
    case EntryKind::scrapped:
      s.stage = Stage::scrapped;
      s.reason = entry.text(Field::reason);
      break;
    case EntryKind::withdrawn:
      s.stage = Stage::withdrawn;
      break;
    case EntryKind::done:
      s.done[entry.text(Field::operation)] = entry.at;
      break;
    default:  // said of something that is no blank
      break;
  }
  if (s.stage != Stage::begun) s.is_drying = false;
  return s;
}

BlankState state_of(const std::vector<Entry>& entries) {
  BlankState state;
  for (const Entry* entry : holding(entries)) state = after(std::move(state), *entry);
  if (!entries.empty()) {  // a correction is the last word too
    state.last = entries.back().number;
  }
  return state;
}

std::optional<Refusal> refusal(const BlankState& s, const Entry& entry) {
  BW_EXPECT(s.id.has_value());
  if (entry.kind == EntryKind::issued) {
    return Refusal{Refused::too_late, fmt::format("{} has been issued already", s.id->shown())};
  }
  if (s.is_over()) {
    const std::string why = s.stage == Stage::scrapped && !s.reason.empty() ? ": " + s.reason : "";
    return Refusal{Refused::over, fmt::format("{} is {}{}", s.id->shown(),
                                              s.stage == Stage::cut_open ? "cut open" : name_of(s.stage), why)};
  }
  if (!holds_anywhere(entry.kind)) {
    if (auto r = not_in_shop(s)) return r;
  }
  if (auto r = still_drying(s, entry.kind)) return r;
  if (auto r = out_of_turn(s, entry.kind)) return r;
  switch (entry.kind) {
    case EntryKind::weighed:
      return mass_impossible(s, entry);
    case EntryKind::bored:
    case EntryKind::stud_measured:
      return axis_impossible(s, entry);
    default:
      return std::nullopt;
  }
}

}  // namespace blankwright
