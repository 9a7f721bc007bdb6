#include "plan/part/axis_error.h"

#include <doctest/doctest.h>

#include "planning.h"

using namespace blankwright;

namespace {

AxisErrorInput press() {
  return {.offset = given(0.5 * mm),
          .tilt_per_100mm = given(0.6 * mm),
          .end_squareness_per_100mm = given(0.2 * mm),
          .glue_line = 0.25 * mm,
          .embedded = 25 * mm,
          .jig_offset = {},
          .jig_tilt_per_100mm = {}};
}

}  // namespace

TEST_CASE("a stud may stand aside in its bore by the glue line and lean from wall to wall") {
  // Design, section 4, step 2, by hand: e = 0.5 + 0.25 = 0.75 mm, t = 0.006 + 2 × 0.25/25 + 0.002 = 0.028.
  const AxisError axis = axis_error(press()).value;
  CHECK(axis.offset / mm == doctest::Approx(0.5 + 0.25).epsilon(1e-12));
  CHECK(axis.tilt == doctest::Approx(0.006 + 0.5 / 25 + 0.002).epsilon(1e-12));
}

TEST_CASE("a stud held by its thread leaves only what the drill and the end do") {
  AxisErrorInput tapped = press();
  tapped.glue_line = 0 * mm;
  const AxisError axis = axis_error(tapped).value;
  CHECK(axis.offset / mm == doctest::Approx(0.5).epsilon(1e-12));
  CHECK(axis.tilt == doctest::Approx(0.008).epsilon(1e-12));
}

TEST_CASE("a centring jig's measured residual stands instead of what the glue line would allow") {
  AxisErrorInput with_jig = press();
  with_jig.jig_offset = given(0.2 * mm);
  CHECK(axis_error(with_jig).value.offset / mm == doctest::Approx(0.7).epsilon(1e-12));
  CHECK(axis_error(with_jig).value.tilt == doctest::Approx(0.028).epsilon(1e-12));
  with_jig.jig_tilt_per_100mm = given(0.3 * mm);
  CHECK(axis_error(with_jig).value.tilt == doctest::Approx(0.006 + 0.003 + 0.002).epsilon(1e-12));
}

TEST_CASE("a blank rounded between centres and bored true to that has no tilt from the drill") {
  AxisErrorInput lathe = press();
  lathe.on_lathe = true;
  CHECK(axis_error(lathe).value.offset / mm == doctest::Approx(0.75).epsilon(1e-12));
  CHECK(axis_error(lathe).value.tilt == doctest::Approx(0.5 / 25 + 0.002).epsilon(1e-12));
}

TEST_CASE("the bound covers every way in which a stud can stand in its bore") {
  // The stud touches the walls anywhere at its two ends: a at the seat, b at its inner end, both within ±g.
  const double g = 0.25;
  const double embedded = 25;
  const AxisError axis = axis_error(press()).value;
  for (double a = -g; a <= g; a += g / 4) {
    for (double b = -g; b <= g; b += g / 4) {
      for (double z = 0; z <= 150; z += 5) {
        const double off = 0.5 + 0.008 * z + std::abs(a + (b - a) * z / embedded);
        CHECK(off <= axis.offset / mm + axis.tilt * z + 1e-12);
      }
    }
  }
}

TEST_CASE("a longer stud never leans more, and a wider glue line never less") {
  for (int embedded = 10; embedded < 60; embedded += 5) {
    AxisErrorInput in = press();
    in.embedded = embedded * mm;
    const double before = axis_error(in).value.tilt;
    in.embedded = (embedded + 5) * mm;
    CHECK(axis_error(in).value.tilt <= before);
    in.glue_line = 0.5 * mm;
    CHECK(axis_error(in).value.tilt >= axis_error(press()).value.tilt * 25 / (embedded + 5));
  }
}
