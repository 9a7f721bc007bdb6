#include "plan/part/centring.h"

#include <cmath>

#include <doctest/doctest.h>

#include "plan/figure/figure.h"
#include "planning.h"
#include "random_numbers.h"

using namespace blankwright;

namespace {

CentringInput bare_input(const FinishedForm& form, double squared, double tilt = 0) {
  return {.form = form,
          .squared_section = squared * mm,
          .section_tolerance = given(0 * mm),
          .finish = given(0 * mm),
          .bow = given(0 * mm),
          .axis = {.offset = 0 * mm, .tilt = tilt},
          .spread_offset = 0 * mm,
          .spread_tilt = 0};
}

}  // namespace

TEST_CASE("an axis clears a square blank face by face") {
  // Worked by hand: square of 38.0 mm, axis at (0.5, 0.2) at the bored end and at (0.8, −0.1) 60 mm deep, so at
  // (1.25, −0.55) at 150 mm. Each face by itself: D = 38 − 2 × 1.25 = 35.5.
  const Axis axis{0.5 * mm, 0.2 * mm, (0.8 - 0.5) / 60, (-0.1 - 0.2) / 60};
  CHECK((axis.x + 150 * mm * axis.slope_x) / mm == doctest::Approx(1.25).epsilon(1e-12));
  CHECK((axis.y + 150 * mm * axis.slope_y) / mm == doctest::Approx(-0.55).epsilon(1e-12));
  CHECK(clears(bare_input(cylinder(35.5), 38), axis));
  CHECK_FALSE(clears(bare_input(cylinder(35.501), 38), axis));
  // The other way round, the near face would govern.
  CHECK(clears(bare_input(cylinder(35.5), 38), {-0.5 * mm, 0.2 * mm, -0.005, -0.005}));
  CHECK_FALSE(clears(bare_input(cylinder(35.501), 38), {0.2 * mm, -0.5 * mm, -0.005, -0.005}));
}

TEST_CASE("towards a face is the unlucky way, towards a corner there is more wood") {
  // The same offset of 1.3657 mm in a square of 38.0 mm, computed: D = a − 2 E = 35.27 whichever way it is off, and
  // D = a − √2 E = 36.07 towards a corner; printed to 0.01 mm.
  const double offset = 1.3657;
  CHECK(std::abs(centring(bare_input(cylinder(35.27), 38)).value.seat_offset / mm - offset) <= 0.005);
  const Axis corner{offset / std::sqrt(2.0) * mm, -offset / std::sqrt(2.0) * mm, 0, 0};
  CHECK(clears(bare_input(cylinder(36.06), 38), corner));
  CHECK_FALSE(clears(bare_input(cylinder(36.08), 38), corner));
}

TEST_CASE("turning the blank a quarter or looking at it in a mirror does not change the judgement") {
  RandomNumbers random{3};
  const FinishedForm form = cylinder(34);
  const CentringInput in = bare_input(form, 38);
  for (int trial = 0; trial < 500; ++trial) {
    const double x = random.between(-2, 2);
    const double y = random.between(-2, 2);
    const double u = random.between(-0.01, 0.01);
    const double v = random.between(-0.01, 0.01);
    const bool clear = clears(in, {x * mm, y * mm, u, v});
    CHECK(clears(in, {-y * mm, x * mm, -v, u}) == clear);
    CHECK(clears(in, {x * mm, -y * mm, u, -v}) == clear);
    CHECK(clears(in, {y * mm, x * mm, v, u}) == clear);
  }
}

TEST_CASE("the position is a circle: twice the radial deviation") {
  // ISO 1101, ASME Y14.5: diametral position = 2 √(dx² + dy²), (0.15, 0) -> 0.30, (0.06, 0.08) -> 0.20, (0.3, 0.4)
  // -> 1.0.
  const double deviations[][3] = {{0.15, 0, 0.30}, {0.06, 0.08, 0.20}, {0.3, 0.4, 1.0}};
  for (const auto& [dx, dy, position] : deviations) {
    CAPTURE(position);
    const FinishedForm form = cylinder(30);
    const CentringInput in = bare_input(form, 30 + position);  // leaves half of it on each side
    CHECK(2 * centring(in).value.seat_offset / mm == doctest::Approx(position).epsilon(1e-9));
    CHECK(clears(in, {dx * mm, dy * mm, 0, 0}));
    CHECK(clears(in, {std::hypot(dx, dy) * 0.9999 * mm, 0 * mm, 0, 0}));
    CHECK_FALSE(clears(in, {std::hypot(dx, dy) * 1.0001 * mm, 0 * mm, 0, 0}));
  }
}

TEST_CASE("the limits of a handle worked out by hand are those printed") {
  const FinishedForm form{{{0 * mm, 26 * mm}, {30 * mm, 30 * mm}, {80 * mm, 34 * mm}, {110 * mm, 20 * mm}}, false};
  const CentringInput in{.form = form,
                         .squared_section = 44 * mm,
                         .section_tolerance = given(0.5 * mm),
                         .finish = given(1.5 * mm),
                         .bow = given(0.5 * mm),
                         .axis = {.offset = 0.75 * mm, .tilt = 0.02},
                         .spread_offset = 0.5 * mm,
                         .spread_tilt = 0.006};
  // m = (44 − 0.5 − D)/2 − 2: 6.75, 4.75, 2.75, 9.75 mm. m − z t: 6.75, 4.15, 1.15, 7.55: the station at 80 mm
  // governs.
  const double m[] = {(44 - 0.5 - 26) / 2 - 2, (44 - 0.5 - 30) / 2 - 2, (44 - 0.5 - 34) / 2 - 2,
                      (44 - 0.5 - 20) / 2 - 2};
  const Worked<Centring> worked = centring(in);
  const Centring& c = worked.value;
  CHECK(c.seat_offset / mm == doctest::Approx(m[2] - 80 * 0.02).epsilon(1e-12));
  CHECK(c.seat_governing / mm == doctest::Approx(80));
  // (m − 1.15)/z: 0.12, 0.02, 0.0782 at the stations, so 80 mm again; the tilt is that of the axis.
  CHECK(c.tilt == doctest::Approx((m[2] - 1.15) / 80).epsilon(1e-12));
  CHECK(c.tilt_governing / mm == doctest::Approx(80));
  CHECK(text(Figure::centring_seat_position, 2 * 1.15e-3, UnitSystem::metric) == "2.30 mm");
  CHECK(text(Figure::centring_tilt, c.tilt, UnitSystem::metric) == "2.00 mm per 100 mm");
}

TEST_CASE("where the seat is fullest the rod's limit is what the form leaves beyond it") {
  // Largest at the seat, 30 mm, tapering to 26 mm at 100 mm: e* = (33 − 30)/2 = 1.5 mm at the seat, whatever the
  // tilt; along the taper the room grows by 2 mm in 100 mm.
  const FinishedForm form{{{0 * mm, 30 * mm}, {100 * mm, 26 * mm}}, false};
  const Centring c = centring(bare_input(form, 33, 0.01)).value;
  CHECK(c.seat_offset / mm == doctest::Approx(1.5).epsilon(1e-12));
  CHECK(c.seat_governing / mm == doctest::Approx(0));
  CHECK(c.tilt == doctest::Approx(0.02).epsilon(1e-9));
}

TEST_CASE("a bead right behind the seat limits the rod too") {
  // 25 mm at the seat, 26 mm at 0.4 mm, then down to 20 mm: the bead governs offset and rod, however near it is.
  const FinishedForm form{{{0 * mm, 25 * mm}, {0.4 * mm, 26 * mm}, {100 * mm, 20 * mm}}, false};
  const Centring c = centring(bare_input(form, 30, 0.01)).value;
  CHECK(c.seat_offset / mm == doctest::Approx((30 - 26) / 2.0 - 0.4 * 0.01).epsilon(1e-12));
  CHECK(c.tilt == doctest::Approx(0.01).epsilon(1e-9));
  CHECK(c.tilt_governing / mm == doctest::Approx(0.4));
}

TEST_CASE("a blank that no axis would do has a negative limit, as much as is missing on each side") {
  const Centring c = centring(bare_input(cylinder(40), 38)).value;
  CHECK(c.seat_offset / mm == doctest::Approx(-1).epsilon(1e-12));
}

TEST_CASE("an end out of square tilts the bore by as much") {
  // Geometry: half a degree out of square is 1.309 mm at 150 mm, printed to 0.001.
  const FinishedForm form = cylinder(30);
  const double slope = std::tan(0.5 * 3.14159265358979 / 180);
  const Centring c = centring(bare_input(form, 40, slope)).value;
  CHECK(std::abs((5 - c.seat_offset / mm) - 1.309) <= 0.001);
}
