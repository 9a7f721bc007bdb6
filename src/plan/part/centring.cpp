#include "plan/part/centring.h"

#include <cmath>
#include <numbers>

#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/statistics.h"

namespace blankwright {
namespace {

constexpr int draws = 4096;

/// At the seat itself a slope has no value; within a hundredth of a millimetre of it none changes visibly.
constexpr Length nearest_to_seat = 0.01 * mm;

/// The n-th point of a sequence that fills the unit cube of four dimensions evenly: fixed, so that the same inputs
/// give the same chance, and closer to the truth than as many random draws. Roberts' generalised golden ratio:
/// the root of x^5 = x + 1.
std::array<double, 4> evenly(int n) {
  constexpr double root = 1.1673039782614187;
  std::array<double, 4> point{};
  double step = 1;
  for (double& coordinate : point) {
    step /= root;
    coordinate = std::fmod(0.5 + n * step, 1.0);
  }
  return point;
}

/// Margins at the places that can matter. An axis is a straight line, and a line stays below all margins where it
/// stays below the corners of their lower convex hull; so only those are kept, which are few even on a smooth form.
struct Margins {
  std::vector<double> along, margin;  // metres
  double least = 0;                   // of the margins
};

Margins margins(const CentringInput& in) {
  Margins m;
  const auto bulges = [&](double z, double value) {
    const std::size_t n = m.along.size();
    const double slope_last = (m.margin[n - 1] - m.margin[n - 2]) / (m.along[n - 1] - m.along[n - 2]);
    return slope_last >= (value - m.margin[n - 1]) / (z - m.along[n - 1]);
  };
  for (const Length place : in.form.places()) {
    const double z = place / metre;
    const double value = margin_at(in, place) / metre;
    while (m.along.size() > 1 && bulges(z, value)) {
      m.along.pop_back();
      m.margin.pop_back();
    }
    m.along.push_back(z);
    m.margin.push_back(value);
  }
  m.least = *std::min_element(m.margin.begin(), m.margin.end());
  return m;
}

bool inside(const Margins& m, double x, double y, double slope_x, double slope_y) {
  constexpr double slack = 1e-9;
  // The axis is farthest off at an end; where even that is less than the least margin there is nothing to look at.
  const double length = m.along.back();
  const double farthest = std::max(std::max(std::abs(x), std::abs(x + length * slope_x)),
                                   std::max(std::abs(y), std::abs(y + length * slope_y)));
  if (farthest <= m.least + slack) return true;
  for (std::size_t i = 0; i < m.along.size(); ++i) {
    const double z = m.along[i];
    if (std::max(std::abs(x + z * slope_x), std::abs(y + z * slope_y)) > m.margin[i] + slack) return false;
  }
  return true;
}

/// An axis drawn with a sigma of one for offset and tilt.
struct Draw {
  double x, y, slope_x, slope_y;
};

/// The draws are the same for every order, so they are made once.
const std::vector<Draw>& unit_draws() {
  static const std::vector<Draw> all = [] {
    std::vector<Draw> out;
    for (int n = 0; n < draws; ++n) {
      const auto u = evenly(n);
      const double offset = std::sqrt(-2 * std::log(1 - u[0]));
      const double tilt = std::sqrt(-2 * std::log(1 - u[1]));
      const double a = 2 * std::numbers::pi * u[2];
      const double b = 2 * std::numbers::pi * u[3];
      out.push_back({offset * std::cos(a), offset * std::sin(a), tilt * std::cos(b), tilt * std::sin(b)});
    }
    return out;
  }();
  return all;
}

double chance_clean(const CentringInput& in) {
  const Margins m = margins(in);
  const double sigma_offset = in.spread_offset / metre / rayleigh_radius(0.95);
  const double sigma_tilt = in.spread_tilt / rayleigh_radius(0.95);
  int clean = 0;
  for (const Draw& d : unit_draws()) {
    if (inside(m, sigma_offset * d.x, sigma_offset * d.y, sigma_tilt * d.slope_x, sigma_tilt * d.slope_y)) ++clean;
  }
  return static_cast<double>(clean) / draws;
}

Traced<Length> said_margin(const CentringInput& in, Length z) {
  const auto square = term(Term::squared_section, in.squared_section, TermFrom::blank);
  const auto form = term(Term::form_diameter, in.form.diameter(z), TermFrom::form_at_the_place_that_governs);
  return (square - term(Term::section_tolerance, in.section_tolerance) - form) / 2_exactly -
         term(Term::finish, in.finish) - term(Term::bow, in.bow);
}

}  // namespace

Length margin_at(const CentringInput& in, Length along) {
  return (in.squared_section - in.section_tolerance.value - in.form.diameter(along)) / 2 - in.finish.value -
         in.bow.value;
}

AxisRoom room_for_axis(const CentringInput& in) {
  const auto offset_beside = [&](double tilt) {
    const auto left = [&](Length z) { return margin_at(in, z) - z * tilt; };
    return left(where_least(in.form, [&](Length z) { return left(z) / metre; }));
  };
  const Length offset = offset_beside(in.axis.tilt);
  if (offset <= Length{}) return {offset_beside(0), 0};
  const auto slope = [&](Length z) { return (margin_at(in, z) - offset) / z; };
  return {offset, slope(where_least(in.form, slope, nearest_to_seat))};
}

bool clears(const CentringInput& in, const Axis& axis) {
  return inside(margins(in), axis.x / metre, axis.y / metre, axis.slope_x, axis.slope_y);
}

Worked<Centring> centring(const CentringInput& in) {
  Worked<Centring> out;
  Centring& c = out.value;
  c.seat_governing = where_least(in.form, [&](Length z) { return (margin_at(in, z) - z * in.axis.tilt) / metre; });
  const auto offset =
      said_margin(in, c.seat_governing) - term(Term::place, c.seat_governing, TermFrom::place_that_governs) *
                                              term(Term::axis_tilt, in.axis.tilt, TermFrom::axis_error);
  c.seat_offset = offset.value();
  out.step(Figure::centring_seat_governing, term(Term::place, c.seat_governing, TermFrom::place_that_governs));
  out.step(Figure::centring_seat_position, 2_exactly * offset, StepNote{Note::governed, c.seat_governing});

  c.tilt_governing = where_least(
      in.form, [&](Length z) { return (margin_at(in, z) - c.seat_offset) / z; }, nearest_to_seat);
  const auto tilt = (said_margin(in, c.tilt_governing) - term(Term::offset_allowed, c.seat_offset, TermFrom::above)) /
                    term(Term::place, c.tilt_governing, TermFrom::place_that_governs);
  c.tilt = out.step(Figure::centring_tilt, tilt, StepNote{Note::governed, c.tilt_governing});
  out.step(Figure::centring_tilt_governing, term(Term::place, c.tilt_governing, TermFrom::place_that_governs));
  c.chance_clean = out.step(Figure::centring_chance_clean,
                            phrase(Term::share_of_draws_clear, chance_clean(in),
                                   {term(Term::offset_95_of_100, in.spread_offset, in.spread_from).expression(),
                                    term(Term::tilt_95_of_100, in.spread_tilt, in.spread_from).expression()}));
  return out;
}

}  // namespace blankwright
