#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace blankwright {

/// Numbers of one draw, each by its name: the same on every machine, and the same whatever else is drawn, so that two
/// plans that are compared have the same luck.
class DrawnNumbers {
 public:
  explicit DrawnNumbers(std::uint64_t draw) : draw_{draw} {}

  /// Evenly between 0 and 1, which it never is.
  double even(std::string_view whose, std::string_view what) const;
  /// Normal, of mean 0 and deviation 1: Box and Muller's way.
  double normal(std::string_view whose, std::string_view what) const;

 private:
  std::uint64_t bits(std::string_view whose, std::string_view what) const;
  std::uint64_t draw_;
};

/// The value below which the part `share` of all lies, going by a sample: the k-th of n stands at k/(n + 1), straight
/// between two, the least and the greatest beyond (Weibull's plotting position: the k-th least of n is above a
/// further one with the chance k/(n + 1), whatever the distribution). `sample` rises; not empty.
double at_share(std::span<const double> sample, double share);

}  // namespace blankwright
