#include "entries/statistics.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace blankwright {
namespace {

/// The quantile of F(2, 2n) that is exceeded with 5 of 100: P(F > f) = (1 + f/n)^−n.
double f_quantile(double n) { return n * (std::pow(0.05, -1 / n) - 1); }

/// Two parts of an error, of many blanks.
struct Parts {
  std::vector<std::pair<double, double>> seen;
  std::pair<double, double> mean() const {
    double x = 0, y = 0;
    for (const auto& [a, b] : seen) x += a, y += b;
    const auto n = static_cast<double>(seen.size());
    return {x / n, y / n};
  }
  double square_sum(std::pair<double, double> about) const {
    double sum = 0;
    for (const auto& [a, b] : seen) {
      sum += (a - about.first) * (a - about.first) + (b - about.second) * (b - about.second);
    }
    return sum;
  }
  double radius_95() const {
    const auto n = static_cast<double>(seen.size());
    return std::sqrt(square_sum({0, 0}) / (2 * n) * 2 * f_quantile(n));
  }
  bool mean_is_off() const {
    const auto n = static_cast<double>(seen.size());
    const auto m = mean();
    const double variance = square_sum(m) / (2 * n - 2);
    return n * (m.first * m.first + m.second * m.second) > 2 * variance * f_quantile(n - 1);
  }
};

}  // namespace

YieldCounted yield_counted(std::span<const KnownBlank> blanks, const std::map<std::string, int>& wanted) {
  struct OfOrder {
    Tally tally;
    int left_over = 0;  // of those in work, if the order is through
  };
  std::map<std::string, OfOrder> orders;
  for (const KnownBlank& known : blanks) {
    if (known.blank.witness) continue;
    OfOrder& order = orders[known.blank.order];
    order.tally.add(known.blank);
    order.left_over += fate_of(known.blank) == Fate::in_work && known.blank.stage >= Stage::cured ? 1 : 0;
  }
  YieldCounted seen;
  for (const auto& [id, order] : orders) {
    const Tally& tally = order.tally;
    const auto quantity = wanted.find(id);
    const bool enough = quantity != wanted.end() && tally.good >= quantity->second;
    if (!enough && tally.to_be_sawn + tally.in_work > 0) {
      seen.not_through.insert(id);
      continue;
    }
    seen.good += tally.good + order.left_over;
    seen.lost += tally.lost;
  }
  return seen;
}

std::optional<Spread> spread_of(std::span<const double> values) {
  if (values.size() < 2) return std::nullopt;
  Spread out;
  out.n = static_cast<int>(values.size());
  for (const double value : values) out.mean += value / out.n;
  double squares = 0;
  for (const double value : values) squares += (value - out.mean) * (value - out.mean);
  out.deviation = std::sqrt(squares / (out.n - 1));
  const auto [least, most] = std::ranges::minmax(values);
  out.least = least;
  out.most = most;
  return out;
}

std::vector<UptakeSeen> uptake_seen(std::span<const KnownBlank> blanks) {
  struct Gains {
    std::vector<double> wet, cured;
  };
  std::map<std::pair<std::string, std::string>, Gains> kinds;
  for (const auto& [blank, species, condition, dye] : blanks) {
    if (!blank.dry || *blank.dry <= Mass{}) continue;
    Gains& gains = kinds[{species, condition}];
    if (blank.wet) gains.wet.push_back(*blank.wet / *blank.dry - 1);
    if (blank.cured) gains.cured.push_back(*blank.cured / *blank.dry - 1);
  }
  std::vector<UptakeSeen> out;
  for (const auto& [kind, gains] : kinds) {
    UptakeSeen seen{kind.first, kind.second, spread_of(gains.wet), spread_of(gains.cured)};
    if (seen.wet || seen.cured) out.push_back(std::move(seen));
  }
  return out;
}

std::optional<AxisSpread> axis_spread(std::span<const KnownBlank> blanks) {
  Parts offsets, slopes;
  for (const KnownBlank& known : blanks) {
    const auto& axis = known.blank.axis;
    if (!axis) continue;
    offsets.seen.emplace_back(axis->offset_1 / metre, axis->offset_2 / metre);
    slopes.seen.emplace_back(axis->slope_1, axis->slope_2);
  }
  if (offsets.seen.size() < 2) return std::nullopt;
  AxisSpread out;
  out.n = static_cast<int>(offsets.seen.size());
  out.mean_1 = offsets.mean().first * metre;
  out.mean_2 = offsets.mean().second * metre;
  out.mean_slope_1 = slopes.mean().first;
  out.mean_slope_2 = slopes.mean().second;
  out.fence_off = offsets.mean_is_off();
  out.table_off = slopes.mean_is_off();
  out.offset_95 = offsets.radius_95() * metre;
  out.tilt_95 = slopes.radius_95();
  return out;
}

std::optional<PulledSeen> pulled_seen(std::span<const KnownBlank> blanks) {
  PulledSeen out;
  for (const KnownBlank& known : blanks) {
    if (!known.blank.pulled) continue;
    out.least = out.n == 0 ? *known.blank.pulled : std::min(out.least, *known.blank.pulled);
    out.mean += *known.blank.pulled;
    ++out.n;
  }
  if (out.n == 0) return std::nullopt;
  out.mean = out.mean / out.n;
  return out;
}

}  // namespace blankwright
