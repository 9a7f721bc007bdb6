#include "chance.h"

#include <cmath>
#include <numbers>

namespace simulated {

Chance Chance::fork(std::string_view name) {
  std::uint64_t hash = 1469598103934665603ULL;  // FNV-1a
  for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return Chance{engine_() ^ hash};
}

double Chance::between(double low, double high) {
  const double share = static_cast<double>(engine_() >> 11U) * 0x1.0p-53;
  return low + share * (high - low);
}

int Chance::whole(int low, int high) {
  const double drawn = between(0, static_cast<double>(high - low) + 1);
  return low + static_cast<int>(std::floor(drawn));
}

bool Chance::yes(double share) { return between(0, 1) < share; }

double Chance::error(double spread) {
  while (true) {
    const double first = 1 - between(0, 1);  // never 0, for the logarithm
    const double second = between(0, 1);
    const double drawn = std::sqrt(-2 * std::log(first)) * std::cos(2 * std::numbers::pi * second);
    if (std::abs(drawn) <= 3) return spread * drawn;
  }
}

}  // namespace simulated
