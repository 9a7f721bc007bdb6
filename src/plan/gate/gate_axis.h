#pragma once

#include <array>
#include <vector>

#include "diagnose/saying.h"
#include "entries/blank_state.h"
#include "plan/gate/verdict.h"
#include "plan/part/finished_form.h"
#include "read/shop.h"

namespace blankwright {

enum class AxisAnswer {
  cleans_up,  ///< with all of the allowance for finishing
  tight,      ///< the form lies in the wood, or may, within the measuring error; less than the allowance is left
  fails       ///< at one place at least the form lies outside the wood
};
Verdict verdict_of(AxisAnswer answer);

/// Wood between the finished form and one face, or between two in a rounded blank, where it is least.
struct FaceMargin {
  int face = 1;      ///< 1 to 4, clockwise as seen from the seat
  int and_face = 0;  ///< the other one of two; 0 for one alone
  Length margin{};   ///< below 0 where the form lies outside
  Length along{};    ///< from the seat
  Length error{};    ///< of measuring, there
};

/// Does the form lie in the blank, about the axis that it has?
struct AxisGate {
  AxisAnswer answer = AxisAnswer::cleans_up;
  std::array<FaceMargin, 4> faces;
  FaceMargin least;       ///< of all directions
  Length clear_diameter;  ///< of the largest cylinder about the axis that lies in the wood over the form's length
  double factor = 1;      ///< the largest one on all diameters with which the form keeps its allowance; down to 0.001
};

/// How far a reading may be off: of the rod's distance to a face, and of its lean over its length. Common practice,
/// no source: a caliper and a rule against a rod.
struct ReadingError {
  Length face = 0.1 * mm;
  Length lean = 0.1 * mm;
};

/// What a blank is bounded by when it is bored.
enum class Section {
  square,  ///< four faces
  round    ///< a circle, rounded between centres
};

/// As the shop's boring method leaves it.
inline Section section_bored(const Shop& shop) {
  return shop.boring.method.value == BoringMethod::lathe ? Section::round : Section::square;
}

struct AxisGateInput {
  const FinishedForm& form;
  const AxisSeen& seen;
  Length allowance;  ///< for finishing and bow, on the radius
  Section section = Section::square;
  ReadingError error{};
};

/// The distance of the axis to each face at z from the seat is what was measured there, and changes along the blank
/// by the rod's lean over its length: the rod leans outside, so the axis comes nearer to the opposite face inside.
///
///   margin(z) = distance to the face at z − D(z)/2        error(z) = error of the face + error of the lean · z/over
///   factor    = min over z and faces of 2 (distance − allowance)/D(z)
///
/// A rounded blank ends at a circle. What was measured are chords through the rod: its centre lies off the axis by
/// half of their differences, c, and its radius is R² = (half the one chord)² + (the other's c)², the lesser of two.
/// Towards the nearest wood, which mostly lies between two faces, the distance is R − |c(z)|.
///
/// By direction, so it is exact where the printed limits are only sufficient. Over the whole curve of the form. What
/// was measured needs faces and `over` above 0, which refusal() has seen to; otherwise BW_EXPECT. Source: geometry.
AxisGate axis_gate(const AxisGateInput& in);

/// In words, without the blank's ID.
Saying says_of(const AxisGate& gate, UnitSystem units);

/// Each face with its margin and where that is least, then the largest cylinder about the axis: a line each.
std::vector<Saying> by_direction(const AxisGate& gate, UnitSystem units);

}  // namespace blankwright
