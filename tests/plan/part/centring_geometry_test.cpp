#include <algorithm>
#include <cmath>
#include <numbers>

#include <doctest/doctest.h>

#include "plan/figure/figure.h"
#include "plan/part/blank_size.h"
#include "plan/part/centring.h"
#include "planning.h"
#include "random_numbers.h"

using namespace blankwright;

// Whether the limits on the turner's sheet do what they promise: an axis within them, whichever way it is off and
// whichever way it leans, leaves the form with its finish allowance inside the blank. Checked here by solid geometry,
// without small angles and without the program's margins.

namespace {

constexpr double slack = 2e-6;  // mm: what looking for the tightest place to a hundredth of a millimetre may miss

struct CentringCase {
  FinishedForm form;
  AllowanceFacts allowances;
  AxisError axis;
};

FinishedForm random_form(RandomNumbers& random) {
  const bool smooth = random.yes();
  const int count = random.whole(smooth ? 4 : 2, 7);
  std::vector<FormPoint> stations;
  Length along{};
  const double most = random.between(15, 60);
  for (int i = 0; i < count; ++i) {
    stations.push_back({along, random.between(most / 3, most) * mm});
    along += (random.share() < 0.2 ? random.between(0.1, 2) : random.between(5, 50)) * mm;
  }
  return {std::move(stations), smooth};
}

CentringCase random_centring(RandomNumbers& random, double most_tilt) {
  AllowanceFacts a;
  a.finish = given(random.between(0, 2) * mm);
  a.bow = given(random.between(0, 1) * mm);
  a.section_tolerance = given(random.between(0, 1) * mm);
  a.saw_increment = given(random.between(0.5, 6) * mm);
  return {random_form(random), a, {random.between(0, 2) * mm, random.between(0, most_tilt)}};
}

BlankSize blank_of(const CentringCase& c) {
  return blank_size({.form = c.form,
                     .axis = c.axis,
                     .allowances = c.allowances,
                     .tangential = 8 * percent,
                     .moisture = given(12 * percent)})
      .value;
}

Centring centring_of(const CentringCase& c, Length squared) {
  return centring({.form = c.form,
                   .squared_section = squared,
                   .section_tolerance = c.allowances.section_tolerance,
                   .finish = c.allowances.finish,
                   .bow = c.allowances.bow,
                   .axis = c.axis,
                   .spread_offset = 0 * mm,
                   .spread_tilt = 0})
      .value;
}

/// By how many millimetres the form, turned about the axis, stands out of the four faces of the smallest blank that
/// the section's tolerance allows, bowed as far as it may be. Negative: so much wood is left.
///
/// Looked at in 300 steps, at the stations, closely behind the seat, and `also` at one more place.
/// A circle of radius r whose plane is square to the unit vector u reaches r √(1 − ux²) from its middle towards x.
double stands_out(const CentringCase& c, Length squared, const Axis& axis, Length also = {}) {
  const double half = (squared - c.allowances.section_tolerance.value) / mm / 2 - c.allowances.bow.value / mm;
  const double norm = std::sqrt(1 + axis.slope_x * axis.slope_x + axis.slope_y * axis.slope_y);
  const double ux = axis.slope_x / norm;
  const double uy = axis.slope_y / norm;
  const double length = c.form.length() / mm;
  double most = -1e9;
  const auto look = [&](double s) {
    const double r = c.form.diameter(s * mm) / mm / 2 + c.allowances.finish.value / mm;
    for (const int side : {-1, 1}) {
      most = std::max(most, side * (axis.x / mm + s * ux) + r * std::sqrt(1 - ux * ux) - half);
      most = std::max(most, side * (axis.y / mm + s * uy) + r * std::sqrt(1 - uy * uy) - half);
    }
  };
  look(also / mm);
  for (int i = 0; i <= 300; ++i) look(length * i / 300);
  for (int i = 1; i <= 40; ++i) look(std::min(1.0, length) * i / 40);  // right behind the seat
  for (const FormPoint& station : c.form.stations()) look(station.along / mm);
  return most;
}

Axis leaning(double offset_mm, double towards, double slope, double leans_to) {
  return {offset_mm * std::cos(towards) * mm, offset_mm * std::sin(towards) * mm, slope * std::cos(leans_to),
          slope * std::sin(leans_to)};
}

struct PrintedLimits {
  double radius_mm, slope;
};

/// As a person reads them from the sheet.
PrintedLimits printed(const Centring& c, UnitSystem system) {
  const double si = 2 * (c.seat_offset / metre);
  const std::string position = text(Figure::centring_seat_position, si, system);
  const std::string rod = text(Figure::centring_tilt, c.tilt, system);
  if (system == UnitSystem::metric) return {std::stod(position) / 2, std::stod(rod) / 100};
  return {std::stod(position) * 25.4 / 2, std::stod(rod) / 4};
}

double direction(RandomNumbers& random) {
  constexpr double quarter = std::numbers::pi / 2;
  return random.yes() ? quarter * random.whole(0, 3) : random.between(0, 4 * quarter);
}

}  // namespace

TEST_CASE("an axis within the printed limits leaves the form inside the blank, whichever way it is off") {
  RandomNumbers random{4};
  double worst = -1e9;
  int tight = 0;
  for (int trial = 0; trial < 2500; ++trial) {
    const CentringCase c = random_centring(random, 0.04);
    const Length squared = blank_of(c).squared_section + random.between(-1, 4) * mm;
    const Centring limits = centring_of(c, squared);
    if (limits.seat_offset < 0 * mm) continue;
    const PrintedLimits p = printed(limits, random.yes() ? UnitSystem::metric : UnitSystem::inches);
    for (int axis = 0; axis < 4; ++axis) {
      const double towards = direction(random);
      const double offset = axis < 3 ? p.radius_mm : p.radius_mm * random.share();
      const double slope = axis < 3 ? p.slope : p.slope * random.share();
      const double out =
          stands_out(c, squared, leaning(offset, towards, slope, axis == 0 ? towards : direction(random)));
      worst = std::max(worst, out);
      if (out > -0.1) ++tight;
      if (out > slack) {
        CAPTURE(trial);
        FAIL_CHECK("stands out by " << out << " mm");
      }
    }
  }
  CHECK(worst <= slack);
  CHECK(tight > 1200);  // the limits are not merely cautious: many axes come near the faces
}

TEST_CASE("an axis one part in a hundred beyond a limit does not clear, if it is off the unlucky way") {
  RandomNumbers random{5};
  int offsets = 0;
  int tilts = 0;
  for (int trial = 0; trial < 1200; ++trial) {
    // Small tilts, so that what the exact geometry grants to a leaning axis is less than a hundredth of the limit.
    const CentringCase c = random_centring(random, 0.004);
    const Length squared = blank_of(c).squared_section;
    const Centring limits = centring_of(c, squared);
    const double e = limits.seat_offset / mm;
    CAPTURE(trial);
    if (e > 0.5) {
      ++offsets;
      CHECK(stands_out(c, squared, leaning(1.01 * e, 0, c.axis.tilt, 0), limits.seat_governing) > 0);
    }
    const double reach = c.form.diameter(limits.tilt_governing) / mm / 2;
    const double t = limits.tilt;
    const double z = limits.tilt_governing / mm;
    // Not right behind the seat, where a hundredth of the tilt is nothing; and 1 % of what the tilt does there is
    // more than the cosine of the tilt leaves of the radius.
    if (z > 5 && 0.01 * t * z > t * t * (reach + z)) {
      ++tilts;
      CHECK(stands_out(c, squared, leaning(e, 0, 1.01 * t, 0), limits.tilt_governing) > 0);
    }
  }
  CHECK(offsets > 400);
  CHECK(tilts > 200);
}

TEST_CASE("a blank that is worked out lets the shop's own error through") {
  RandomNumbers random{6};
  for (int trial = 0; trial < 800; ++trial) {
    const CentringCase c = random_centring(random, 0.04);
    const Length squared = blank_of(c).squared_section;
    const Centring limits = centring_of(c, squared);
    CAPTURE(trial);
    CHECK(limits.seat_offset / mm >= c.axis.offset / mm - 1e-5);
    CHECK(limits.tilt >= c.axis.tilt - 1e-9);
    const double towards = direction(random);
    CHECK(stands_out(c, squared, leaning(c.axis.offset / mm, towards, c.axis.tilt, towards)) <= 1e-5);
  }
}

TEST_CASE("the section as it is printed for squaring is never less than what the limits were worked out for") {
  RandomNumbers random{7};
  for (int trial = 0; trial < 500; ++trial) {
    const double squared = random.between(10, 90);
    CHECK(std::stod(text(Figure::blank_squared_section, squared / 1000, UnitSystem::metric)) >= squared - 1e-6);
    CHECK(contract_number(Figure::blank_squared_section, squared / 1000) >= squared - 1e-6);
  }
}
