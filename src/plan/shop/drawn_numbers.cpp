#include "plan/shop/drawn_numbers.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

/// Vigna's splitmix64: its finishing steps alone.
std::uint64_t mixed(std::uint64_t z) {
  z += 0x9e3779b97f4a7c15;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
  z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
  return z ^ (z >> 31);
}

/// Fowler, Noll and Vo's hash, 64 bits, 1a.
std::uint64_t hash_of(std::string_view text, std::uint64_t hash) {
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3;
  return hash;
}
constexpr std::uint64_t hash_begins = 0xcbf29ce484222325;

double between_0_and_1(std::uint64_t bits) {
  constexpr double steps = 9007199254740992;  // 2^53
  return (static_cast<double>(bits >> 11) + 0.5) / steps;
}

}  // namespace

std::uint64_t DrawnNumbers::bits(std::string_view whose, std::string_view what) const {
  return mixed(hash_of(what, hash_of("\n", hash_of(whose, hash_begins))) ^ mixed(draw_));
}

double DrawnNumbers::even(std::string_view whose, std::string_view what) const {
  return between_0_and_1(bits(whose, what));
}

double DrawnNumbers::normal(std::string_view whose, std::string_view what) const {
  const std::uint64_t first = bits(whose, what);
  return std::sqrt(-2 * std::log(between_0_and_1(first))) *
         std::cos(2 * std::numbers::pi * between_0_and_1(mixed(first)));
}

double at_share(std::span<const double> sample, double share) {
  BW_EXPECT(!sample.empty());
  const double place =
      std::clamp(share * static_cast<double>(sample.size() + 1), 1.0, static_cast<double>(sample.size()));
  const auto below = static_cast<std::size_t>(place);
  const double beyond = place - static_cast<double>(below);
  const double low = sample[below - 1];
  return below == sample.size() ? low : low + beyond * (sample[below] - low);
}

}  // namespace blankwright
