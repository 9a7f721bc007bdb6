#include "plan/gate/gate_axis.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "diagnose/failure.h"
#include "diagnose/says_gate.h"

namespace blankwright {
namespace {

/// Distance of the axis to a face along the blank: at the seat, and what is added for each length from there.
struct ToFace {
  Length at_seat;
  double slope = 0;
  Length at(Length z) const { return at_seat + slope * z; }
};

std::array<ToFace, 4> distances(const AxisSeen& seen) {
  const double lean_1 = seen.lean_1 / seen.over;
  const double lean_2 = seen.lean_2 / seen.over;
  return {ToFace{seen.to_face[0], lean_1}, ToFace{seen.to_face[1], lean_2}, ToFace{seen.to_face[2], -lean_1},
          ToFace{seen.to_face[3], -lean_2}};
}

using Distance = std::function<Length(Length)>;

/// The wood beside the form where it is least, by the axis's distance to where the wood ends.
FaceMargin margin_to(const AxisGateInput& in, const Distance& distance) {
  const auto margin = [&](Length z) { return distance(z) - in.form.diameter(z) / 2; };
  FaceMargin out;
  out.along = where_least(in.form, [&](Length z) { return margin(z) / metre; });
  out.margin = margin(out.along);
  out.error = in.error.face + in.error.lean * (out.along / in.seen.over);
  return out;
}

double factor_to(const AxisGateInput& in, const Distance& distance) {
  const auto factor = [&](Length z) { return 2 * (distance(z) - in.allowance) / in.form.diameter(z); };
  return factor(where_least(in.form, factor));
}

/// The circle of a rounded blank, seen from the axis: its centre lies towards face 1 and face 2 by so much.
struct Circle {
  ToFace towards_1, towards_2;
  Length radius;

  Length off(Length z) const { return hypotenuse(towards_1.at(z), towards_2.at(z)); }
  /// From the axis in the direction of a face: 0 to 3.
  Length along_face(std::size_t face, Length z) const {
    const Length c = (face < 2 ? 1.0 : -1.0) * (face % 2 == 0 ? towards_1 : towards_2).at(z);
    const double r = radius / metre, o = off(z) / metre, along = c / metre;
    return c + std::sqrt(std::max(0.0, r * r - o * o + along * along)) * metre;
  }
  static Length hypotenuse(Length a, Length b) { return std::hypot(a / metre, b / metre) * metre; }
};

Circle circle_of(const AxisSeen& seen) {
  const auto& f = seen.to_face;
  const Length off_1 = (f[0] - f[2]) / 2, off_2 = (f[1] - f[3]) / 2;
  const Length radius =
      std::min(Circle::hypotenuse((f[0] + f[2]) / 2, off_2), Circle::hypotenuse((f[1] + f[3]) / 2, off_1));
  return {{off_1, seen.lean_1 / seen.over}, {off_2, seen.lean_2 / seen.over}, radius};
}

AxisAnswer answer_of(const AxisGate& gate, Length allowance) {
  AxisAnswer answer = AxisAnswer::cleans_up;
  const auto judge = [&](const FaceMargin& face) {
    if (face.margin + face.error < Length{}) {
      answer = AxisAnswer::fails;
    } else if (face.margin - face.error < allowance && answer != AxisAnswer::fails) {
      answer = AxisAnswer::tight;
    }
  };
  std::ranges::for_each(gate.faces, judge);
  judge(gate.least);
  return answer;
}

/// Within this share of the offset along the other direction, wood is nearest towards one face alone.
constexpr double one_face = 0.1;

void judge_round(const AxisGateInput& in, AxisGate& gate) {
  const Circle circle = circle_of(in.seen);
  for (std::size_t i = 0; i < 4; ++i) {
    gate.faces.at(i) = margin_to(in, [&](Length z) { return circle.along_face(i, z); });
    gate.faces.at(i).face = static_cast<int>(i) + 1;
  }
  const Distance nearest = [&](Length z) { return circle.radius - circle.off(z); };
  gate.least = margin_to(in, nearest);
  // The wood is nearest on the side away from the circle's centre.
  const Length c_1 = circle.towards_1.at(gate.least.along), c_2 = circle.towards_2.at(gate.least.along);
  const int near_1 = c_1 > Length{} ? 3 : 1, near_2 = c_2 > Length{} ? 4 : 2;
  gate.least.face = abs(c_1) >= abs(c_2) ? near_1 : near_2;
  const Length larger = std::max(abs(c_1), abs(c_2)), smaller = std::min(abs(c_1), abs(c_2));
  if (smaller > one_face * larger) gate.least.and_face = gate.least.face == near_1 ? near_2 : near_1;
  gate.factor = factor_to(in, nearest);
  // A line is farthest from a point at an end, so the clear cylinder is found at the seat or at the tail.
  gate.clear_diameter = 2 * std::min(nearest(Length{}), nearest(in.form.length()));
}

void judge_square(const AxisGateInput& in, AxisGate& gate) {
  const auto to_face = distances(in.seen);
  gate.factor = std::numeric_limits<double>::max();
  // A straight line is least at an end, so the clear cylinder is found at the seat or at the tail.
  Length clear = to_face[0].at_seat;
  for (std::size_t i = 0; i < 4; ++i) {
    const Distance distance = [&](Length z) { return to_face.at(i).at(z); };
    gate.faces.at(i) = margin_to(in, distance);
    gate.faces.at(i).face = static_cast<int>(i) + 1;
    gate.factor = std::min(gate.factor, factor_to(in, distance));
    clear = std::min({clear, to_face.at(i).at_seat, to_face.at(i).at(in.form.length())});
  }
  gate.least = *std::ranges::min_element(gate.faces, {}, &FaceMargin::margin);
  gate.clear_diameter = 2 * clear;
}

}  // namespace

Verdict verdict_of(AxisAnswer answer) { return answer == AxisAnswer::fails ? Verdict::held : Verdict::goes_on; }

AxisGate axis_gate(const AxisGateInput& in) {
  BW_EXPECT(in.seen.over > Length{});
  AxisGate gate;
  in.section == Section::round ? judge_round(in, gate) : judge_square(in, gate);
  gate.factor = std::max(0.0, rounded(gate.factor, 0.001, Round::down));
  gate.answer = answer_of(gate, in.allowance);
  return gate;
}

Saying says_of(const AxisGate& gate, UnitSystem units) {
  const FaceMargin& face = gate.least;
  const Printing fine{units, Round::nearest, Fineness::measured};
  const Printed along = printed(face.along, fine), error = printed(face.error, fine);
  const Saying where = face.and_face == 0 ? say(says::axis_where, along, face.face)
                                          : say(says::axis_where_two, along, face.face, face.and_face);
  const Saying factor = say(says::axis_factor, decimal(gate.factor, 3));
  switch (gate.answer) {
    case AxisAnswer::cleans_up:
      return say(says::axis_cleans_up, printed(face.margin, fine), where);
    case AxisAnswer::tight:
      return say(says::axis_tight, printed(face.margin, fine), error, where, factor);
    case AxisAnswer::fails:
      return say(says::axis_outside, printed(-face.margin, fine), where, factor);
  }
  return {};
}

std::vector<Saying> by_direction(const AxisGate& gate, UnitSystem units) {
  const Printing fine{units, Round::nearest, Fineness::measured};
  std::vector<Saying> lines;
  for (const FaceMargin& face : gate.faces) {
    lines.push_back(say(says::axis_towards, face.face, printed(face.margin, fine), printed(face.error, fine),
                        printed(face.along, fine)));
  }
  lines.push_back(
      say(says::axis_clear, printed(gate.clear_diameter, Printing{units, Round::down, Fineness::measured})));
  return lines;
}

}  // namespace blankwright
