#pragma once

#include <array>
#include <optional>

#include "entries/entry.h"
#include "entries/outcome.h"
#include "entries/refusal.h"

// What was read off a scale, a rule or a caliper, as an entry says it.

namespace blankwright {

struct Weighing {
  Instant at;
  Mass net;  ///< without tag and wire
  bool operator==(const Weighing&) const = default;
};

struct SizeSeen {
  Length width, depth;
  std::optional<Length> length;
  bool operator==(const SizeSeen&) const = default;
};

/// Where a bore or a stud lies, as a rod in it (or the stud) was measured. Faces are numbered clockwise as seen from
/// the seat.
struct AxisSeen {
  std::array<Length, 4> to_face;  ///< from the rod's centre, at the seat
  /// How far the rod, which stands out of the bore, leans towards face 1 and face 2 over the length `over` away from
  /// the seat. Inside the blank the axis goes the other way.
  Length lean_1, lean_2, over;
  std::optional<Length> diameter, depth;
  bool operator==(const AxisSeen&) const = default;
};

/// What entries of a kind tell of a blank in figures, by the fields that the kind needs.
enum class ReadingKind { none, mass, size, axis };
ReadingKind reading_of(EntryKind kind);

/// Its mass without tag and wire.
Weighing weighing_of(const Entry& entry);
SizeSeen size_of(const Entry& entry);
AxisSeen axis_of(const Entry& entry);

/// What an entry says of grading, inspection or gauge; none where it does not.
std::optional<Graded> graded_of(const Entry& entry);
std::optional<Outcome> outcome_of(const Entry& entry, Field field);

/// What the cut of a witness showed.
struct CutOpen {
  bool through = false;  ///< resin to the middle
  bool hard = false;     ///< to the middle
};
/// Is it from before these were told apart? Then it has one answer, `result`, which is that to both.
bool answers_as_before(const Entry& entry);
CutOpen cut_of(const Entry& entry);

bool is_above_0(const SizeSeen& seen);

/// Why an entry says nothing, whatever the blank's state: a mass or a length that is not above 0. None where it does.
std::optional<Refusal> says_nothing(const Entry& entry);

}  // namespace blankwright
