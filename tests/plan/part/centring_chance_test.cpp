#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "plan/part/centring.h"
#include "planning.h"
#include "random_numbers.h"

using namespace blankwright;

namespace {

// 95 in 100 of the radial errors of two equal normal components lie within 2.44775 sigma (Rayleigh, closed form).
const double rayleigh_95 = std::sqrt(-2 * std::log(0.05));

double chance(const FinishedForm& form, double squared, double offset_95, double tilt_95) {
  return centring({.form = form,
                   .squared_section = squared * mm,
                   .section_tolerance = given(0.5 * mm),
                   .finish = given(1 * mm),
                   .bow = given(0.25 * mm),
                   .axis = {.offset = 0.5 * mm, .tilt = 0.01},
                   .spread_offset = offset_95 * mm,
                   .spread_tilt = tilt_95})
      .value.chance_clean;
}

/// The same by plain random draws: each component of offset and tilt normal by itself.
double drawn(const FinishedForm& form, double squared, double offset_95, double tilt_95, std::uint32_t seed) {
  RandomNumbers random{seed};
  const double sigma_e = offset_95 / rayleigh_95;
  const double sigma_t = tilt_95 / rayleigh_95;
  const double length = form.length() / mm;
  std::vector<double> along;
  std::vector<double> room;
  for (int i = 0; i <= 60; ++i) along.push_back(length * i / 60);
  for (const FormPoint& station : form.stations()) along.push_back(station.along / mm);
  for (const double z : along) room.push_back((squared - 0.5 - form.diameter(z * mm) / mm) / 2 - 1 - 0.25);
  const int draws = 200000;
  int clean = 0;
  for (int n = 0; n < draws; ++n) {
    const double x = sigma_e * random.normal();
    const double y = sigma_e * random.normal();
    const double u = sigma_t * random.normal();
    const double v = sigma_t * random.normal();
    bool inside = true;
    for (std::size_t i = 0; inside && i < along.size(); ++i) {
      inside = std::max(std::abs(x + along[i] * u), std::abs(y + along[i] * v)) <= room[i];
    }
    if (inside) ++clean;
  }
  return static_cast<double>(clean) / draws;
}

}  // namespace

TEST_CASE("without tilt the chance that a bore cleans up is the normal distribution's, once for each pair of faces") {
  const FinishedForm cylinder{{{0 * mm, 30 * mm}, {100 * mm, 30 * mm}}, false};
  for (const double room : {0.1, 0.2, 0.3, 0.5, 0.8, 1.5}) {
    for (const double offset_95 : {0.3, 0.6, 1.2}) {
      CAPTURE(room);
      CAPTURE(offset_95);
      const double sigma = offset_95 / rayleigh_95;
      const double one = std::erf(room / (sigma * std::sqrt(2.0)));
      CHECK(std::abs(chance(cylinder, 30 + 0.5 + 2 * (1 + 0.25 + room), offset_95, 0) - one * one) <= 0.01);
    }
  }
}

TEST_CASE("with tilt the chance is that of plain random draws") {
  const FinishedForm straight{{{0 * mm, 26 * mm}, {30 * mm, 30 * mm}, {80 * mm, 34 * mm}, {110 * mm, 20 * mm}},
                              false};
  const FinishedForm smooth{{{0 * mm, 25 * mm},
                             {12 * mm, 25.5 * mm},
                             {38 * mm, 31 * mm},
                             {66 * mm, 34 * mm},
                             {92 * mm, 30 * mm},
                             {108 * mm, 22 * mm}},
                            true};
  const FinishedForm taper{{{0 * mm, 30 * mm}, {140 * mm, 29 * mm}}, false};
  CHECK(std::abs(chance(straight, 38.4, 0.5, 0.012) - drawn(straight, 38.4, 0.5, 0.012, 8)) <= 0.01);
  CHECK(std::abs(chance(smooth, 38.0, 0.8, 0.006) - drawn(smooth, 38.0, 0.8, 0.006, 9)) <= 0.01);
  CHECK(std::abs(chance(taper, 34.2, 0.6, 0.010) - drawn(taper, 34.2, 0.6, 0.010, 10)) <= 0.01);
  CHECK(std::abs(chance(taper, 35.5, 0.3, 0.020) - drawn(taper, 35.5, 0.3, 0.020, 11)) <= 0.01);
}

TEST_CASE("a larger section never lowers the chance, and the chance runs from none to certainty") {
  const FinishedForm form{{{0 * mm, 26 * mm}, {80 * mm, 34 * mm}, {110 * mm, 20 * mm}}, false};
  double before = 0;
  for (double squared = 35; squared < 48; squared += 0.1) {
    const double now = chance(form, squared, 0.7, 0.015);
    CHECK(now >= before);
    before = now;
  }
  CHECK(chance(form, 30, 0.7, 0.015) == 0);
  CHECK(chance(form, 60, 0.7, 0.015) == 1);
  // A shop that is never off needs 34 mm, 0.5 mm, and twice 1.25 mm.
  CHECK(chance(form, 37.01, 0, 0) == 1);
  CHECK(chance(form, 36.99, 0, 0) == 0);
}
