#include "entries/blank_rules.h"

#include <algorithm>
#include <array>
#include <utility>

#include "diagnose/failure.h"
#include "entries/readings.h"

namespace blankwright {
namespace {

/// Dry wood draws moisture, so it is weighed and measured in one go.
constexpr std::chrono::hours one_go{12};

/// Wood that has lost as much since it was measured was wet then.
constexpr double dried_since = 0.97;

/// What it drew before is out again, or was weighed.
void forget_lying(BlankState& s) {
  s.open_before = {};
  s.open_since.reset();
  s.sealed_before = {};
  s.sealed_since.reset();
}

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
  forget_lying(s);
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
  if (const auto thread = outcome_of(entry, Field::thread)) s.thread = thread;
  if (const auto projection = entry.get<Length>(Field::projection)) s.projection = projection;
  if (const auto squareness = entry.get<Length>(Field::squareness)) s.squareness = squareness;
  s.result = s.thread == Outcome::fail ? s.thread : outcome_of(entry, Field::result);  // nobody screws it in
  s.reason = entry.text(Field::reason);
}

void dry(BlankState& s, const Entry& entry) {
  if (!s.into_drying) take_as_sawn(s);
  s.into_drying = entry.at;
  s.is_drying = true;
  s.drying_load = entry.text(Field::load);
  forget_lying(s);
}

void take_out_dry(BlankState& s, const Entry& entry) {
  if (s.is_drying && !s.dry.empty()) s.open_since = entry.at;
  s.out_of_drying = entry.at;
  s.is_drying = false;
}

/// From now on it lies sealed, or open.
void seal_or_open(BlankState& s, const Entry& entry) {
  if (s.open_since) s.open_before += entry.at - *s.open_since;
  if (s.sealed_since) s.sealed_before += entry.at - *s.sealed_since;
  const bool sealed = entry.kind == EntryKind::sealed;
  s.open_since = sealed ? std::nullopt : std::optional{entry.at};
  s.sealed_since = sealed ? std::optional{entry.at} : std::nullopt;
}

void cut_open(BlankState& s, const Entry& entry) {
  s.stage = Stage::cut_open;
  const CutOpen seen = cut_of(entry);
  s.through = seen.through;
  s.hard = seen.hard;
  s.result = seen.through && seen.hard ? Outcome::pass : Outcome::fail;
  s.reason = entry.text(Field::reason);
}

void grade(BlankState& s, const Entry& entry) {
  s.verdict = graded_of(entry);
  if (s.verdict == Graded::fill) s.filled = false;  // what was filled before was not enough
  if (s.verdict != Graded::scrap) return;
  s.stage = Stage::scrapped;
  s.reason = entry.text(Field::reason);
}

void issue(BlankState& s, const Entry& entry) {
  s.id = entry.blank;
  s.order = s.promised = entry.text(Field::order);
  s.witness = entry.text(Field::role) == "witness";
}

void bathe(BlankState& s, const Entry& entry) {
  if (!s.bath.empty()) s.earlier_baths.push_back({s.bath, s.out_of_bath});
  s.stage = Stage::in_bath;
  s.bath = entry.text(Field::bath);
  s.is_drying = false;
  s.into_bath = entry.at;
  s.drained = false;
  s.wet.clear();
}

/// Nobody drains a blank in the bath: then it is out of it as well.
void take_out_wet(BlankState& s, const Entry& entry) {
  const bool drained = entry.kind == EntryKind::drained;
  if (s.stage != Stage::in_bath) {
    s.drained = s.drained || drained;
    return;
  }
  s.drained = drained;
  s.stage = Stage::wet;
  s.out_of_bath = entry.at;
}

void cure(BlankState& s, const Entry& entry) {
  s.stage = Stage::in_oven;
  s.load = entry.text(Field::load);
  s.into_oven = entry.at;
}

void take_out_cured(BlankState& s, const Entry& entry) {
  s.stage = Stage::cured;
  s.out_of_oven = entry.at;
}

void square(BlankState& s, const Entry& entry) {
  s.stage = Stage::squared;
  if (is_above_0(size_of(entry))) s.squared_size = size_of(entry);
}

void bore(BlankState& s, const Entry& entry) {
  s.stage = Stage::bored;
  if (axis_of(entry).over > Length{}) s.bore = axis_of(entry);
}

void set_stud(BlankState& s, const Entry& entry) {
  s.stage = Stage::stud_set;
  if (axis_of(entry).over > Length{}) s.stud = axis_of(entry);
}

void send(BlankState& s, const Entry& entry) {
  s.stage = Stage::sent;
  s.sent = entry.at;
}

void pull_stud(BlankState& s, const Entry& entry) {
  s.stage = Stage::cut_open;
  s.pulled = entry.get<Force>(Field::force);
}

void scrap(BlankState& s, const Entry& entry) {
  s.stage = Stage::scrapped;
  s.reason = entry.text(Field::reason);
}

constexpr Stage last = Stage::withdrawn;

constexpr auto rules = std::to_array<BlankRule>({
    {EntryKind::issued, issue, Stage::begun, last, "", "", Where::in_shop, Of::its_id},
    {EntryKind::sawn, [](BlankState& s, const Entry& entry) { s.board = entry.text(Field::board); }, Stage::begun, Stage::begun, "", "has been in a bath already"},
    {EntryKind::measured, measure, Stage::begun, last, "", ""},
    {EntryKind::weighed, weigh, Stage::begun, last, "", ""},
    {EntryKind::moisture, [](BlankState& s, const Entry& entry) { s.moisture = entry.get<Share>(Field::moisture); }, Stage::begun, Stage::begun, "", "has been in a bath already"},
    {EntryKind::into_drying, dry, Stage::begun, Stage::begun, "", "has been in a bath already"},
    {EntryKind::out_of_drying, take_out_dry, Stage::begun, Stage::begun, "", "has been in a bath already"},
    {EntryKind::sealed, seal_or_open, Stage::begun, Stage::begun, "", "has been in a bath already"},
    {EntryKind::opened, seal_or_open, Stage::begun, Stage::begun, "", "has been in a bath already"},
    {EntryKind::into_bath, bathe, Stage::begun, Stage::wet, "", "is cured, and cured wood takes no resin"},
    {EntryKind::out_of_bath, take_out_wet, Stage::in_bath, Stage::in_bath, "is in no bath", "is in no bath any more", Where::anywhere},
    {EntryKind::drained, take_out_wet, Stage::in_bath, Stage::wet, "has not been in a bath", "is cured already", Where::anywhere},
    {EntryKind::into_oven, cure, Stage::wet, Stage::wet, "has not been in a bath", "has been in the oven already"},
    {EntryKind::out_of_oven, take_out_cured, Stage::in_oven, Stage::in_oven, "is not in the oven", "is not in the oven any more", Where::anywhere},
    {EntryKind::graded, grade, Stage::cured, Stage::stud_set, "is not cured", "is turned already"},
    {EntryKind::filled, [](BlankState& s, const Entry&) { s.filled = true; }, Stage::cured, Stage::stud_set, "is not cured", "is turned already"},
    {EntryKind::squared, square, Stage::cured, Stage::squared, "is not cured", "is bored already"},
    // Rounded between centres, it need not be squared.
    {EntryKind::bored, bore, Stage::cured, Stage::bored, "is not cured", "has its stud already"},
    {EntryKind::glued, [](BlankState& s, const Entry& entry) { s.glued = entry.at; }, Stage::bored, Stage::bored, "has no bore", "has its stud already"},
    {EntryKind::stud_measured, set_stud, Stage::bored, Stage::stud_set, "has no bore", "is turned already"},
    {EntryKind::turned, [](BlankState& s, const Entry&) { s.stage = Stage::turned; }, Stage::bored, Stage::turned, "has no bore", "was inspected already"},
    {EntryKind::inspected, inspect, Stage::turned, Stage::inspected, "is not turned", "was sent already"},
    {EntryKind::promised, [](BlankState& s, const Entry& entry) { s.promised = entry.text(Field::order); }, Stage::begun, last, "", "", Where::anywhere, Of::its_id},
    {EntryKind::sent, send, Stage::stud_set, Stage::inspected, "has no stud", "was sent already"},
    {EntryKind::witness_cut, cut_open, Stage::cured, Stage::stud_set, "is not cured", "is turned already"},
    {EntryKind::stud_pulled, pull_stud, Stage::bored, Stage::stud_set, "has no bore", "is turned already"},
    {EntryKind::scrapped, scrap, Stage::begun, last, "", "", Where::anywhere},
    {EntryKind::withdrawn, [](BlankState& s, const Entry&) { s.stage = Stage::withdrawn; }, Stage::begun, last, "", "", Where::in_shop, Of::its_id},
    {EntryKind::done, [](BlankState& s, const Entry& entry) { s.done[entry.text(Field::operation)] = entry.at; }, Stage::begun, last, "", "", Where::anywhere},
});

}  // namespace

const BlankRule* rule_of(EntryKind kind) {
  const auto* const found = std::ranges::find(rules, kind, &BlankRule::kind);
  BW_EXPECT((found != rules.end()) == facts_of(kind).of_blank);
  return found == rules.end() ? nullptr : found;
}

}  // namespace blankwright
