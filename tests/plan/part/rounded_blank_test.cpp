#include "plan/part/rounded_blank.h"
#include "plan/figure/figure.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "planning.h"

using namespace blankwright;

namespace {

RoundedBlankInput squared(double section, double seat_offset) {
  return {.squared_section = section * mm,
          .section_tolerance = given(0.6 * mm),
          .bow = given(0.5 * mm),
          .held = given(0.5 * mm),
          .seat_offset = seat_offset * mm};
}

}  // namespace

TEST_CASE("a rounded blank loses on either side what its centres may be off, and its runout shows the rest") {
  // By hand: 47 − 0.6 − 2 × 0.5 − 2 × 0.5 = 44.4 mm; 2 (1.5 − 0.5) = 2 mm.
  const RoundedBlank blank = rounded_blank(squared(47, 1.5)).value;
  CHECK(blank.marking / mm == doctest::Approx(0.5).epsilon(1e-12));
  CHECK(blank.diameter / mm == doctest::Approx(44.4).epsilon(1e-12));
  CHECK(blank.runout / mm == doctest::Approx(2).epsilon(1e-12));
}

TEST_CASE("where nothing would be left for the stud, centres have to be marked truer") {
  // By hand: of e* = 0.4 mm half for the centres; 42 − 0.6 − 1 − 0.4 = 40 mm; 2 × 0.2 = 0.4 mm.
  const RoundedBlank blank = rounded_blank(squared(42, 0.4)).value;
  CHECK(blank.marking / mm == doctest::Approx(0.2).epsilon(1e-12));
  CHECK(blank.diameter / mm == doctest::Approx(40).epsilon(1e-12));
  CHECK(blank.runout / mm == doctest::Approx(0.4).epsilon(1e-12));
  CHECK(rounded_blank(squared(42, 0.5)).value.marking / mm == doctest::Approx(0.25).epsilon(1e-12));
  CHECK(rounded_blank(squared(42, -0.1)).value.marking / mm == 0);
}

TEST_CASE("within runout and rod's limit the form lies in the cylinder, and the cylinder in the square") {
  // Geometry, whatever the directions: marks off by the marking at both ends, the stud off the cylinder's axis by
  // half of the runout and leaning by the rod's limit. The form is one cone with the plan's allowances on it.
  const double section = 47, allowance = 1.5 + 0.5 + 0.3, length = 120, tilt = 0.012;
  const auto form = [](double z) { return 30 + 8 * z / 120; };
  const auto margin = [&](double z) { return (section - form(z)) / 2 - allowance; };
  const double e = std::min(margin(0), margin(length) - length * tilt);
  const RoundedBlank blank = rounded_blank(squared(section, e)).value;
  const double radius = blank.diameter / mm / 2, k = blank.marking / mm, off = blank.runout / mm / 2;
  REQUIRE(k > 0);
  for (int a = 0; a < 16; ++a) {
    for (int b = 0; b < 16; ++b) {
      const double at_seat = a * std::numbers::pi / 8, at_tail = b * std::numbers::pi / 8;
      for (double z = 0; z <= length; z += 5) {
        const double s = z / length;
        const double x = k * ((1 - s) * std::cos(at_seat) + s * std::cos(at_tail));
        const double y = k * ((1 - s) * std::sin(at_seat) + s * std::sin(at_tail));
        // Of the square the section's tolerance (0.6) and the bow are lost.
        CHECK(radius + std::max(std::abs(x), std::abs(y)) <= (section - 0.6) / 2 - 0.5 + 1e-9);
        // In the cylinder: bow and tolerance are turned away, the allowance for finishing stays.
        CHECK(form(z) / 2 + 1.5 + off + z * tilt <= radius + 1e-9);
      }
    }
  }
}

TEST_CASE("a shop that bores on the lathe has the figures of the rounded blank, another one has not") {
  const OrderPlan lathe = plan_of(order_file("file-handle.toml"), order_file("shop-lathe.toml"));
  REQUIRE(lathe.rounded.has_value());
  const auto si = [&](Figure figure) { return std::get<double>(lathe.figures.get(figure)); };
  // The shop of that file holds 0.02 in.
  CHECK(si(Figure::rounded_runout) ==
        doctest::Approx(si(Figure::centring_seat_position) - 2 * 0.02 * 0.0254).epsilon(1e-12));
  const OrderPlan press = plan_of(awl(), bench());
  CHECK_FALSE(press.rounded.has_value());
  CHECK_FALSE(press.figures.known(Figure::rounded_diameter));
}
