#include "plan/tables/statistics.h"

#include <algorithm>
#include <cmath>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

/// What the sum of a chance may have lost in arithmetic: a chance that is exactly the confidence is enough.
constexpr double chance_slack = 1e-11;

}  // namespace

double chance_of_at_least(int need, int started, const PastYield& past) {
  BW_EXPECT(started >= 0 && past.good >= 0 && past.started >= past.good);
  BW_EXPECT(past.prior.good > 0 && past.prior.bad > 0);
  if (need <= 0) return 1;
  const double a = past.good + past.prior.good;
  const double b = past.started - past.good + past.prior.bad;
  double log_term = 0;  // of P(started), all good
  for (int i = 0; i < started; ++i) log_term += std::log((a + i) / (a + b + i));
  double sum = 0;
  for (int k = started; k >= need; --k) {
    sum += std::exp(log_term);
    // P(k − 1)/P(k)
    log_term += std::log(k / (started - k + 1.0) * ((started - k + b) / (k - 1 + a)));
  }
  return std::min(sum, 1.0);
}

std::optional<int> smallest_start(int need, const PastYield& past, double confidence, int limit) {
  BW_EXPECT(confidence > 0 && confidence < 1);
  for (int started = std::max(need, 0); started <= limit; ++started) {
    if (chance_of_at_least(need, started, past) >= confidence - chance_slack) return started;
  }
  return std::nullopt;
}

double rayleigh_chance(double radius_in_sigmas) {
  BW_EXPECT(radius_in_sigmas >= 0);
  return -std::expm1(-radius_in_sigmas * radius_in_sigmas / 2);
}

double rayleigh_radius(double chance) {
  BW_EXPECT(chance >= 0 && chance < 1);
  return std::sqrt(-2 * std::log1p(-chance));
}

}  // namespace blankwright
