#pragma once

#include <cstdint>
#include <random>
#include <string_view>
#include <vector>

namespace simulated {

/// Chance by a seed. The distributions are our own: those of the standard differ from library to library, and a seed
/// has to give the same year everywhere.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : engine_{seed} {}
  /// Another stream of the same seed, so that a draw more in one part does not move all the others.
  Chance fork(std::string_view name);

  double between(double low, double high);  ///< evenly
  int whole(int low, int high);             ///< evenly, both ends included
  bool yes(double share);
  /// Normal about 0, drawn again beyond three times its spread: what a person would not believe is read again.
  double error(double spread);
  template <class T>
  const T& one_of(const std::vector<T>& list) {
    return list.at(static_cast<std::size_t>(whole(0, static_cast<int>(list.size()) - 1)));
  }

 private:
  std::mt19937_64 engine_;
};

}  // namespace simulated
