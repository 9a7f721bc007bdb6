#pragma once

#include <optional>

namespace blankwright {

/// The beta distribution that a yield is believed to follow before anything was counted.
struct Prior {
  double good, bad;  ///< parameters, > 0
};
inline constexpr Prior jeffreys{0.5, 0.5};
inline constexpr Prior uniform{1, 1};

/// What has come out of earlier blanks: so many good of so many started.
struct PastYield {
  int good = 0;
  int started = 0;  ///< >= good >= 0. With 0 the answers mean nothing but the prior: do not print them
  Prior prior = jeffreys;
};

/// Chance that at least `need` of `started` blanks come out good: the beta-binomial predictive
///   P(k) = C(n,k) B(k + a, n − k + b)/B(a, b),  a = good + prior.good, b = started − good + prior.bad
/// which, unlike the plain binomial, knows that the yield itself is uncertain. 1 for need <= 0, 0 for need > started.
/// Blanks of one board are alike, so that the true chance is somewhat lower. Summed by the ratio of neighbouring
/// terms in logarithms; good to 1e-11 up to thousands.
double chance_of_at_least(int need, int started, const PastYield& past);

/// The least number to start so that chance_of_at_least >= confidence; none up to `limit`. confidence in (0, 1).
std::optional<int> smallest_start(int need, const PastYield& past, double confidence, int limit);

/// Rayleigh distribution: the chance that a radial error stays within `radius_in_sigmas`, where both components are
/// normal with the same sigma, independent, without an offset. 1 − exp(−r²/2); radius >= 0.
double rayleigh_chance(double radius_in_sigmas);

/// The radius, in sigmas, that the radial error stays within with that chance; 0 <= chance < 1. 95 %: 2.44775.
double rayleigh_radius(double chance);

}  // namespace blankwright
