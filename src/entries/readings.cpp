#include "entries/readings.h"

#include <fmt/format.h>

namespace blankwright {

Weighing weighing_of(const Entry& entry) {
  const Mass net = entry.get<Mass>(Field::mass).value_or(Mass{}) - entry.get<Mass>(Field::tare).value_or(Mass{});
  return {entry.at, net};
}

SizeSeen size_of(const Entry& entry) {
  return {entry.get<Length>(Field::width).value_or(Length{}), entry.get<Length>(Field::depth).value_or(Length{}),
          entry.get<Length>(Field::length)};
}

AxisSeen axis_of(const Entry& entry) {
  const auto length = [&](Field field) { return entry.get<Length>(field).value_or(Length{}); };
  return {{length(Field::face_1), length(Field::face_2), length(Field::face_3), length(Field::face_4)},
          length(Field::lean_1),
          length(Field::lean_2),
          length(Field::over),
          entry.get<Length>(Field::diameter),
          entry.get<Length>(Field::length)};
}

std::optional<Graded> graded_of(const Entry& entry) { return graded_named(entry.text(Field::verdict)); }
std::optional<Outcome> outcome_of(const Entry& entry, Field field) { return outcome_named(entry.text(field)); }

bool answers_as_before(const Entry& entry) {
  return entry.kind == EntryKind::witness_cut && entry.text(Field::filled).empty() &&
         entry.text(Field::hard).empty() && outcome_of(entry, Field::result).has_value();
}

CutOpen cut_of(const Entry& entry) {
  if (answers_as_before(entry)) {
    const bool both = outcome_of(entry, Field::result) == Outcome::pass;
    return {both, both};
  }
  return {entry.text(Field::filled) == "yes", entry.text(Field::hard) == "yes"};
}

ReadingKind reading_of(EntryKind kind) {
  for (const FieldUse& use : facts_of(kind).fields) {
    if (!use.needed) continue;
    if (use.field == Field::mass) return ReadingKind::mass;
    if (use.field == Field::width) return ReadingKind::size;
    if (use.field == Field::face_1) return ReadingKind::axis;
  }
  return ReadingKind::none;
}

bool is_above_0(const SizeSeen& seen) {
  return seen.width > Length{} && seen.depth > Length{} && seen.length.value_or(mm) > Length{};
}

std::optional<Refusal> says_nothing(const Entry& entry) {
  const auto nothing = [&](std::string_view what) {
    return Refusal{Refused::nothing, fmt::format("{}{}", entry.blank ? entry.blank->shown() + ": " : "", what)};
  };
  switch (reading_of(entry.kind)) {
    case ReadingKind::mass:
      if (weighing_of(entry).net <= Mass{}) return nothing("nothing would be left of its mass without the tag");
      break;
    case ReadingKind::size:
      if (!is_above_0(size_of(entry))) return nothing("every size has to be above 0");
      break;
    case ReadingKind::axis:
      if (axis_of(entry).over <= Length{}) return nothing("the length over which the rod leans has to be above 0");
      break;
    case ReadingKind::none:
      break;
  }
  return std::nullopt;
}

}  // namespace blankwright
