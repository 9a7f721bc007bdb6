#include "plan/process/cure.h"

#include <array>
#include <cmath>
#include <numbers>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

/// Halves [low, high] until nothing is left to halve; `below` says whether the answer lies above a value.
template <class Below>
double bisected(double low, double high, Below below) {
  for (double middle = (low + high) / 2; low < middle && middle < high; middle = (low + high) / 2) {
    (below(middle) ? low : high) = middle;
  }
  return high;
}

/// The middle of a plane wall of half thickness L that is warmed from both sides.
class PlaneWall {
 public:
  explicit PlaneWall(double biot) {
    for (std::size_t i = 0; i < terms; ++i) {
      const double z = root(biot, static_cast<double>(i) * std::numbers::pi);
      terms_.at(i) = {z * z, 4 * std::sin(z) / (2 * z + std::sin(2 * z))};
    }
  }

  /// (T − air)/(start − air) in the middle: 1 at the start, falling to 0.
  double middle(double fourier) const {
    if (fourier < untouched) return 1;
    double sum = 0;
    for (const Term& term : terms_) sum += term.coefficient * std::exp(-term.rate * fourier);
    return sum;
  }

 private:
  struct Term {
    double rate = 0;  ///< ζ²
    double coefficient = 0;
  };
  /// Before this Fourier number nothing has come to the middle: erfc(1/(2√Fo)) = 1e-110 of a sudden change. After it
  /// the terms left out are below exp(−(64 π)² 0.001) = 3e-18.
  static constexpr double untouched = 0.001;
  static constexpr std::size_t terms = 64;

  /// The root of ζ tan ζ = Bi in (kπ, kπ + π/2), where ζ sin ζ − Bi cos ζ changes its sign once; tan has a pole at
  /// the end.
  static double root(double biot, double k_pi) {
    const double sign = std::cos(k_pi);
    return bisected(k_pi, k_pi + std::numbers::pi / 2,
                    [&](double z) { return sign * (z * std::sin(z) - biot * std::cos(z)) < 0; });
  }

  std::array<Term, terms> terms_{};
};

}  // namespace

Duration heating_time(const HeatingInput& in) {
  BW_EXPECT(in.across > Length{} && in.along > Length{} && in.density > Density{});
  BW_EXPECT(in.k_across > 0 && in.k_along > 0 && in.heat_capacity > 0 && in.film > 0);
  BW_EXPECT(in.start < in.target && in.target < in.air);
  const double across = in.across / 2 / metre;
  const double along = in.along / 2 / metre;
  const PlaneWall side{in.film * across / in.k_across};
  const PlaneWall ends{in.film * along / in.k_along};
  const double stored = in.density / kilogram_per_m3 * in.heat_capacity;  // J/(m³ K)
  const double wanted = (in.air - in.target) / (in.air - in.start);
  const auto colder_at = [&](double seconds) {
    const double theta = side.middle(in.k_across * seconds / (stored * across * across));
    return theta * theta * ends.middle(in.k_along * seconds / (stored * along * along)) > wanted;
  };
  double enough = 1;
  while (colder_at(enough)) enough *= 2;
  return bisected(0, enough, colder_at) * second;
}

}  // namespace blankwright
