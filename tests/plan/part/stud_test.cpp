#include "plan/part/stud.h"

#include <cmath>
#include <numbers>

#include <doctest/doctest.h>

#include "planning.h"

using namespace blankwright;
using std::numbers::pi;

namespace {

StudInput stud_input(const Thread& t) {
  return {.thread = t,
          .enters = given(14 * mm),
          .hole_depth = {},
          .embedded = {},
          .pull = {},
          .torque = {},
          .bore = t.major + 0.5 * mm,
          .shear_strength = given(2 * megapascal),
          .wood_shear_strength = given(50 * megapascal),
          .safety_factor = given(1),
          .least_embedded = given(100 * percent),
          .step = 1e-6 * mm};
}

}  // namespace

TEST_CASE("a glued stud is as long as its pull asks of the bond") {
  // L = F/(π d τ): 4000 N on a hole of 11 mm at 2.0 N/mm² takes 57.9 mm, printed to 0.1. Worked example of uniform
  // bond shear. In strong wood the same is asked of a stud's own surface.
  StudInput in = stud_input(thread_of("M10"));
  in.bore = 11 * mm;
  in.shear_strength = given(50 * megapascal);
  in.wood_shear_strength = given(2 * megapascal);
  in.pull = given(4 * kilonewton);
  CHECK(std::abs(stud(in).value.embedded / mm - 57.9) <= 0.05);
  Thread eleven = thread_of("M12");
  eleven.major = 11 * mm;
  StudInput at_metal = stud_input(eleven);
  at_metal.pull = given(4 * kilonewton);
  CHECK(std::abs(stud(at_metal).value.embedded / mm - 57.9) <= 0.05);
  // With a safety factor three times as long, and rounded up to the step.
  in.safety_factor = given(3);
  in.step = 1 * mm;
  CHECK(3 * 4000 / (pi * 11 * 2) > 173);
  CHECK(stud(in).value.embedded / mm == doctest::Approx(174));
}

TEST_CASE("a bond lets go where it is weaker, at the metal or in the wood") {
  StudInput in = stud_input(thread_of("M8"));
  in.embedded = given(25 * mm);
  for (const double wood : {0.5, 1.0, 1.8, 1.9, 4.0}) {
    CAPTURE(wood);
    in.bore = 8.5 * mm;
    in.wood_shear_strength = given(wood * megapascal);
    // 8 mm × 2 MPa = 8.5 mm × 1.88 MPa
    const double expected = wood < 1.88 ? pi * 8.5 * 25 * wood : pi * 8 * 25 * 2;
    CHECK(*stud(in).value.bond_capacity / newton == doctest::Approx(expected).epsilon(1e-12));
  }
}

TEST_CASE("a glued stud is as long as the torque in use asks of the bond") {
  // L = 2 T/(π d² τ): 3 N m on 8 mm at 2 N/mm² take 14.92 mm, three times as much with the factor.
  StudInput in = stud_input(thread_of("M8"));
  in.safety_factor = given(3);
  in.torque = given(3 * newton_metre);
  CHECK(stud(in).value.embedded / mm == doctest::Approx(3 * 2 * 3000 / (pi * 64 * 2)).epsilon(1e-6));
  in.bore = 9 * mm;
  in.shear_strength = given(50 * megapascal);
  in.wood_shear_strength = given(1 * megapascal);
  CHECK(stud(in).value.embedded / mm == doctest::Approx(3 * 2 * 3000 / (pi * 81)).epsilon(1e-6));
  in.pull = given(4 * kilonewton);
  CHECK(stud(in).value.embedded / mm == doctest::Approx(3 * 4000 / (pi * 9)).epsilon(1e-6));
}

TEST_CASE("a stud is never shorter in the wood than the shop's multiple of its diameter") {
  StudInput in = stud_input(thread_of("M8"));
  in.least_embedded = given(300 * percent);
  in.step = 1 * mm;
  CHECK(stud(in).value.embedded / mm == doctest::Approx(24));
  in.pull = given(100 * newton);
  CHECK(stud(in).value.embedded / mm == doctest::Approx(24));
  in.pull = given(1300 * newton);  // 1300/(π 8 2) = 25.9
  CHECK(stud(in).value.embedded / mm == doctest::Approx(26));
  in.glued = false;
  CHECK(stud(in).value.embedded / mm == doctest::Approx(24));
  CHECK_FALSE(stud(in).value.bond_capacity.has_value());
}

TEST_CASE("the bond bears what its length says, before the safety factor") {
  StudInput in = stud_input(thread_of("M8"));
  in.embedded = given(25 * mm);
  in.safety_factor = given(3);
  CHECK(*stud(in).value.bond_capacity / newton == doctest::Approx(pi * 8 * 25 * 2).epsilon(1e-12));
  // Whatever length the pull leads to bears the pull times the factor.
  for (double pull = 50; pull < 5000; pull += 37) {
    StudInput loaded = stud_input(thread_of("5/16-18"));
    loaded.pull = given(pull * newton);
    loaded.safety_factor = given(4);
    loaded.step = inch / 16;
    CHECK(*stud(loaded).value.bond_capacity / newton >= 4 * pull * (1 - 1e-6));
  }
}

TEST_CASE("a stud is cut to what is in the wood and what enters the client's part") {
  StudInput in = stud_input(thread_of("M8"));
  in.embedded = given(25 * mm);
  in.hole_depth = given(17 * mm);
  const Stud s = stud(in).value;
  CHECK(s.projection / mm == doctest::Approx(14));
  CHECK(s.cut_length / mm == doctest::Approx(25 + 14));
  CHECK(*s.bottom_clearance / mm == doctest::Approx(17 - 14).epsilon(1e-12));
  in.hole_depth.reset();
  CHECK_FALSE(stud(in).value.bottom_clearance.has_value());
}

TEST_CASE("tensile stress area of a stud is the published one, metric and inch not mixed up") {
  struct Row {
    std::string_view thread;
    Area area;
    Area last_digit;
  };
  const Row published[] = {
      // ISO 898-1, coarse pitch, nominal stress area.
      {"M4", 8.78 * mm2, 0.05 * mm2},
      {"M5", 14.2 * mm2, 0.05 * mm2},
      {"M6", 20.1 * mm2, 0.05 * mm2},
      {"M8", 36.6 * mm2, 0.05 * mm2},
      {"M10", 58.0 * mm2, 0.05 * mm2},
      {"M12", 84.3 * mm2, 0.05 * mm2},
      {"M14", 115 * mm2, 0.5 * mm2},
      {"M16", 157 * mm2, 0.5 * mm2},
      // ISO 898-1, fine pitch (from memory).
      {"M8x1", 39.2 * mm2, 0.05 * mm2},
      {"M10x1", 64.5 * mm2, 0.05 * mm2},
      {"M10x1.25", 61.2 * mm2, 0.05 * mm2},
      {"M16x1.5", 167 * mm2, 0.5 * mm2},
      // ASME B1.1 appendix B.
      {"#10-24", 0.0175 * inch2, 6e-5 * inch2},
      {"3/8-16", 0.0775 * inch2, 6e-5 * inch2},
      {"7/16-14", 0.1063 * inch2, 6e-5 * inch2},
      {"1/2-13", 0.1419 * inch2, 6e-5 * inch2},
      {"5/8-11", 0.226 * inch2, 6e-4 * inch2},
      {"#8-36", 0.01474 * inch2, 6e-5 * inch2},
      {"#10-32", 0.02 * inch2, 6e-5 * inch2},
      {"1/4-28", 0.0364 * inch2, 6e-5 * inch2},
      {"5/16-24", 0.058 * inch2, 1e-4 * inch2},
      {"3/8-24", 0.0878 * inch2, 6e-5 * inch2},
      {"1/2-20", 0.1599 * inch2, 6e-5 * inch2},
      {"5/8-18", 0.256 * inch2, 6e-4 * inch2},
  };
  for (const Row& row : published) {
    CAPTURE(std::string{row.thread});
    CHECK(abs(stud(stud_input(thread_of(row.thread))).value.tensile_area - row.area) <= row.last_digit);
  }
}
