#include "plan/part/finished_form.h"

#include <math.h>  // Boost 1.74's pchip calls isnan without its namespace

#include <boost/math/interpolators/pchip.hpp>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <numbers>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"

namespace blankwright {
namespace {

constexpr int divisions = 64;  // of a smooth form between two stations

std::shared_ptr<const std::function<double(double)>> smooth_curve(const std::vector<FormPoint>& stations) {
  std::vector<double> along;
  std::vector<double> diameter;
  for (const FormPoint& p : stations) {
    along.push_back(p.along / metre);
    diameter.push_back(p.diameter / metre);
  }
  using Curve = boost::math::interpolators::pchip<std::vector<double>>;
  const auto curve = std::make_shared<const Curve>(std::move(along), std::move(diameter));
  return std::make_shared<const std::function<double(double)>>([curve](double z) { return (*curve)(z); });
}

/// The least of a function between two lengths by the golden section.
Length golden(const std::function<double(Length)>& what, Length a, Length b) {
  constexpr double ratio = 0.6180339887498949;
  while (b - a > 0.005 * mm) {
    const Length c = b - ratio * (b - a);
    const Length d = a + ratio * (b - a);
    (what(c) <= what(d) ? b : a) = what(c) <= what(d) ? d : c;
  }
  return (a + b) / 2;
}

}  // namespace

FinishedForm::FinishedForm(std::vector<FormPoint> stations, bool smooth) : stations_{std::move(stations)} {
  BW_EXPECT(stations_.size() >= (smooth ? 4U : 2U) && stations_.front().along == 0 * mm);
  for (std::size_t i = 0; i < stations_.size(); ++i) {
    BW_EXPECT(stations_.at(i).diameter > 0 * mm && (i == 0 || stations_.at(i).along > stations_.at(i - 1).along));
  }
  if (smooth) smooth_ = smooth_curve(stations_);
  places_.push_back(stations_.front().along);
  for (std::size_t i = 1; i < stations_.size(); ++i) {
    const Length from = stations_.at(i - 1).along;
    const Length to = stations_.at(i).along;
    for (int part = 1; smooth && part < divisions; ++part) {
      places_.push_back(from + static_cast<double>(part) / divisions * (to - from));
    }
    places_.push_back(to);
  }
}

Length FinishedForm::diameter(Length along) const {
  const Length z = std::clamp(along, stations_.front().along, stations_.back().along);
  if (smooth_ != nullptr) return (*smooth_)(z / metre) * metre;
  const auto after =
      std::find_if(stations_.begin() + 1, stations_.end() - 1, [&](const FormPoint& p) { return p.along >= z; });
  const FormPoint& a = *(after - 1);
  const FormPoint& b = *after;
  return a.diameter + (z - a.along) / (b.along - a.along) * (b.diameter - a.diameter);
}

std::vector<Length> FinishedForm::places_between(Length from, Length to) const {
  std::vector<Length> out{from};
  for (const Length z : places_) {
    if (z > from && z < to) out.push_back(z);
  }
  if (to > from) out.push_back(to);
  return out;
}

Length where_least(const FinishedForm& form, const std::function<double(Length)>& what, Length from,
                   std::optional<Length> to) {
  const std::vector<Length> places = form.places_between(from, to.value_or(form.length()));
  std::size_t best = 0;
  for (std::size_t i = 1; i < places.size(); ++i) {
    if (what(places.at(i)) < what(places.at(best))) best = i;
  }
  if (!form.smooth()) return places.at(best);
  const Length a = places.at(best == 0 ? 0 : best - 1);
  const Length b = places.at(std::min(best + 1, places.size() - 1));
  const Length refined = golden(what, a, b);
  return what(refined) < what(places.at(best)) ? refined : places.at(best);
}

Worked<FormFigures> form_figures(const FinishedForm& form) {
  using Gauss = boost::math::quadrature::gauss<double, 7>;
  double volume = 0;
  double surface = 0;
  for (std::size_t i = 1; i < form.stations().size(); ++i) {
    const double from = form.stations().at(i - 1).along / metre;
    const double to = form.stations().at(i).along / metre;
    const double step = (to - from) * 1e-4;
    const auto d = [&](double z) { return form.diameter(z * metre) / metre; };
    volume += Gauss::integrate([&](double z) { return std::numbers::pi / 4 * d(z) * d(z); }, from, to);
    surface += Gauss::integrate(
        [&](double z) { return std::numbers::pi * d(z) * std::hypot(1, (d(z + step) - d(z - step)) / (4 * step)); },
        from, to);
  }
  const double ends = form.stations().front().diameter * form.stations().front().diameter / Area::unit() +
                      form.stations().back().diameter * form.stations().back().diameter / Area::unit();
  surface += std::numbers::pi / 4 * ends;
  const Length largest = form.diameter(where_least(form, [&](Length z) { return -(form.diameter(z) / metre); }));

  Worked<FormFigures> out;
  out.value.length = out.step(Figure::handle_length, term(Term::last_station, form.length(), TermFrom::job));
  out.value.largest_diameter =
      out.step(Figure::handle_largest_diameter, phrase(Term::largest_diameter_of_the_form, largest, {}));
  out.value.volume = out.step(Figure::handle_volume, phrase(Term::integral_of_volume, volume * Volume::unit(), {}));
  out.value.surface = out.step(Figure::handle_surface, phrase(Term::integral_of_surface, surface * Area::unit(), {}));
  return out;
}

}  // namespace blankwright
