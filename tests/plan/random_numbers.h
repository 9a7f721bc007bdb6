#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

namespace blankwright {

/// Random numbers that are the same with every library: the standard's generator, whose output is laid down, and no
/// distribution of the library's.
class RandomNumbers {
 public:
  explicit RandomNumbers(std::uint32_t seed) : bits_{seed} {}
  /// 0 <= x < 1
  double share() { return static_cast<double>(bits_()) / 4294967296.0; }
  double between(double low, double high) { return low + (high - low) * share(); }
  /// low to high, both included
  int whole(int low, int high) { return low + static_cast<int>(share() * (high - low + 1)); }
  bool yes() { return share() < 0.5; }
  /// Normal with mean 0 and deviation 1: Box and Muller.
  double normal() { return std::sqrt(-2 * std::log(1 - share())) * std::cos(2 * std::numbers::pi * share()); }

 private:
  std::mt19937 bits_;
};

}  // namespace blankwright
