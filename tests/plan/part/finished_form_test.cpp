#include "plan/part/finished_form.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include <doctest/doctest.h>

#include "monotone_cubic.h"
#include "random_numbers.h"

using namespace blankwright;
using std::numbers::pi;

namespace {

FinishedForm form(std::vector<std::pair<double, double>> stations_mm, bool smooth = false) {
  std::vector<FormPoint> points;
  for (const auto& [along, diameter] : stations_mm) points.push_back({along * mm, diameter * mm});
  return {std::move(points), smooth};
}

const std::vector<std::pair<double, double>> burnisher{{0, 25}, {12, 25.5}, {38, 31}, {66, 34}, {92, 30}, {108, 22}};

}  // namespace

TEST_CASE("a cylinder, a cone and a handle of frusta have the volume and surface of the textbook") {
  const FormFigures cylinder = form_figures(form({{0, 20}, {100, 20}})).value;
  CHECK(cylinder.volume / cm3 == doctest::Approx(pi / 4 * 2 * 2 * 10).epsilon(1e-12));
  CHECK(cylinder.surface / (cm * cm) == doctest::Approx(pi * 2 * 10 + 2 * pi / 4 * 2 * 2).epsilon(1e-12));

  // Frusta: V = π h/12 (D² + D d + d²), lateral surface π (D + d)/2 × slant.
  const FormFigures frusta = form_figures(form({{0, 26}, {30, 30}, {80, 34}, {110, 20}})).value;
  const auto volume = [](double h, double a, double b) { return pi * h / 12 * (a * a + a * b + b * b); };
  const auto side = [](double h, double a, double b) { return pi * (a + b) / 2 * std::hypot(h, (a - b) / 2); };
  CHECK(frusta.volume / (mm * mm2) ==
        doctest::Approx(volume(30, 26, 30) + volume(50, 30, 34) + volume(30, 34, 20)).epsilon(1e-12));
  const double ends = pi / 4 * (26.0 * 26 + 20 * 20);
  CHECK(frusta.surface / mm2 ==
        doctest::Approx(side(30, 26, 30) + side(50, 30, 34) + side(30, 34, 20) + ends).epsilon(1e-9));
  CHECK(frusta.length / mm == doctest::Approx(110));
  CHECK(frusta.largest_diameter / mm == doctest::Approx(34).epsilon(1e-12));

  // A cone to (nearly) a point: V = π/12 D² h.
  CHECK(form_figures(form({{0, 30}, {60, 1e-6}})).value.volume / (mm * mm2) ==
        doctest::Approx(pi / 12 * 30 * 30 * 60).epsilon(1e-6));
}

TEST_CASE("a smooth form is the monotone cubic of its stations and holds that volume") {
  const FinishedForm smooth = form(burnisher, true);
  double worst = 0;
  for (int i = 0; i <= 10800; ++i) {
    const double z = i * 0.01;
    worst = std::max(worst, std::abs(smooth.diameter(z * mm) / mm - monotone_cubic(burnisher, z)));
  }
  CHECK(worst < 1e-9);

  // Simpson's rule on 20,000 strips, each within one pair of stations.
  double volume = 0;
  double surface = pi / 4 * (25.0 * 25 + 22 * 22);
  for (std::size_t i = 1; i < burnisher.size(); ++i) {
    const double from = burnisher[i - 1].first;
    const int strips = 4000;
    const double h = (burnisher[i].first - from) / strips;
    const auto area = [&](double z) { return pi / 4 * monotone_cubic(burnisher, z) * monotone_cubic(burnisher, z); };
    for (int k = 0; k < strips; ++k) {
      const double z = from + k * h;
      volume += h / 6 * (area(z) + 4 * area(z + h / 2) + area(z + h));
      const double a = monotone_cubic(burnisher, z);
      const double b = monotone_cubic(burnisher, z + h);
      surface += pi * (a + b) / 2 * std::hypot(h, (b - a) / 2);
    }
  }
  const FormFigures figures = form_figures(smooth).value;
  CHECK(figures.volume / (mm * mm2) == doctest::Approx(volume).epsilon(1e-9));
  CHECK(figures.surface / mm2 == doctest::Approx(surface).epsilon(1e-6));
}

TEST_CASE("between two stations no form, straight or smooth, leaves their range, and it runs one way") {
  RandomNumbers random{1};
  for (int trial = 0; trial < 400; ++trial) {
    const bool smooth = trial % 2 == 0;
    const int count = random.whole(smooth ? 4 : 2, 9);
    std::vector<std::pair<double, double>> stations;
    double along = 0;
    for (int i = 0; i < count; ++i) {
      stations.emplace_back(along, random.between(5, 60));
      along += random.between(0.2, 40);
    }
    const FinishedForm made = form(stations, smooth);
    bool within = true;
    for (std::size_t i = 1; i < stations.size(); ++i) {
      const auto [from, a] = stations[i - 1];
      const auto [to, b] = stations[i];
      double before = a;
      for (int k = 0; k <= 50; ++k) {
        const double d = made.diameter((from + (to - from) * k / 50) * mm) / mm;
        within = within && d >= std::min(a, b) - 1e-9 && d <= std::max(a, b) + 1e-9;
        within = within && (b >= a ? d >= before - 1e-9 : d <= before + 1e-9);
        before = d;
      }
    }
    CAPTURE(trial);
    CHECK(within);
  }
}

TEST_CASE("beyond its ends a form has the diameter of the nearer end") {
  const FinishedForm smooth = form(burnisher, true);
  CHECK(smooth.diameter(-1 * mm) / mm == doctest::Approx(25));
  CHECK(smooth.diameter(200 * mm) / mm == doctest::Approx(22));
}

TEST_CASE("a leaning axis finds the fullest place of a smooth form between its stations") {
  // What the blank needs, D + 2 t z, is greatest off the stations; looked for here in steps of 0.001 mm.
  const FinishedForm smooth = form(burnisher, true);
  for (const double t : {0.002, 0.01, 0.0218, 0.05, 0.2}) {
    CAPTURE(t);
    double most = 0;
    double where = 0;
    for (int i = 0; i <= 108000; ++i) {
      const double need = monotone_cubic(burnisher, i * 0.001) + 2 * t * i * 0.001;
      if (need > most) {
        most = need;
        where = i * 0.001;
      }
    }
    const Length found = where_least(smooth, [&](Length z) { return -((smooth.diameter(z) + 2 * t * z) / mm); });
    CHECK((smooth.diameter(found) + 2 * t * found) / mm == doctest::Approx(most).epsilon(1e-8));
    CHECK(std::abs(found / mm - where) < 0.02);
    CHECK(std::abs(where - 66) > 0.1);  // the stations' own fullest place is another
  }
}

TEST_CASE("the least of a form is looked for only between the lengths that are asked for") {
  const FinishedForm straight = form({{0, 26}, {30, 20}, {80, 34}, {110, 10}});
  const auto diameter = [&](Length z) { return straight.diameter(z) / mm; };
  CHECK(where_least(straight, diameter) / mm == doctest::Approx(110));
  CHECK(where_least(straight, diameter, 0 * mm, 100 * mm) / mm == doctest::Approx(100));
  CHECK(where_least(straight, diameter, 0 * mm, 40 * mm) / mm == doctest::Approx(30));
  CHECK(where_least(straight, diameter, 50 * mm, 60 * mm) / mm == doctest::Approx(50));
}
