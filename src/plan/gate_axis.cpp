#include "plan/gate_axis.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diagnose/failure.h"

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

FaceMargin face_margin(const AxisGateInput& in, const ToFace& face, int number) {
  const auto margin = [&](Length z) { return face.at(z) - in.form.diameter(z) / 2; };
  FaceMargin out;
  out.face = number;
  out.along = where_least(in.form, [&](Length z) { return margin(z) / metre; });
  out.margin = margin(out.along);
  out.error = in.error.face + in.error.lean * (out.along / in.seen.over);
  return out;
}

double factor_to(const AxisGateInput& in, const ToFace& face) {
  const auto factor = [&](Length z) { return 2 * (face.at(z) - in.allowance) / in.form.diameter(z); };
  return factor(where_least(in.form, factor));
}

AxisAnswer answer_of(const std::array<FaceMargin, 4>& faces, Length allowance) {
  AxisAnswer answer = AxisAnswer::cleans_up;
  for (const FaceMargin& face : faces) {
    if (face.margin + face.error < Length{}) return AxisAnswer::fails;
    if (face.margin - face.error < allowance) answer = AxisAnswer::tight;
  }
  return answer;
}

}  // namespace

AxisGate axis_gate(const AxisGateInput& in) {
  BW_EXPECT(in.seen.over > Length{});
  const auto to_face = distances(in.seen);
  AxisGate gate;
  double factor = factor_to(in, to_face[0]);
  // A straight line is least at an end, so the clear cylinder is found at the seat or at the tail.
  Length clear = to_face[0].at_seat;
  for (std::size_t i = 0; i < 4; ++i) {
    gate.faces.at(i) = face_margin(in, to_face.at(i), static_cast<int>(i) + 1);
    factor = std::min(factor, factor_to(in, to_face.at(i)));
    clear = std::min({clear, to_face.at(i).at_seat, to_face.at(i).at(in.form.length())});
  }
  const auto least = std::ranges::min_element(gate.faces, {}, &FaceMargin::margin);
  gate.tightest = static_cast<int>(least - gate.faces.begin());
  gate.clear_diameter = 2 * clear;
  gate.factor = std::max(0.0, rounded(factor, 0.001, Round::down));
  gate.answer = answer_of(gate.faces, in.allowance);
  return gate;
}

std::string in_words(const AxisGate& gate, UnitSystem units) {
  const FaceMargin& face = gate.faces.at(static_cast<std::size_t>(gate.tightest));
  const Printing fine{units, Round::nearest, Fineness::measured};
  const std::string where = fmt::format("{} from the seat, towards face {}", text(face.along, fine), face.face);
  const std::string factor = fmt::format("all diameters times {:.3f} would keep the allowance", gate.factor);
  switch (gate.answer) {
    case AxisAnswer::cleans_up:
      return fmt::format("cleans up: {} of wood at the tightest place, {}", text(face.margin, fine), where);
    case AxisAnswer::tight:
      return fmt::format("tight: {} of wood (± {}) {}; {}", text(face.margin, fine), text(face.error, fine), where,
                         factor);
    case AxisAnswer::fails:
      return fmt::format("HOLD: the form lies {} outside the wood {}; {}", text(-face.margin, fine), where, factor);
  }
  return {};
}

std::vector<std::string> by_direction(const AxisGate& gate, UnitSystem units) {
  const Printing fine{units, Round::nearest, Fineness::measured};
  std::vector<std::string> lines;
  for (const FaceMargin& face : gate.faces) {
    lines.push_back(fmt::format("towards face {}: {} (± {}) of wood, {} from the seat", face.face,
                                text(face.margin, fine), text(face.error, fine), text(face.along, fine)));
  }
  lines.push_back(fmt::format("clear round the axis: a cylinder of Ø {}",
                              text(gate.clear_diameter, Printing{units, Round::down, Fineness::measured})));
  return lines;
}

}  // namespace blankwright
