#pragma once

#include <cmath>
#include <cstddef>
#include <vector>

#include "plan/process/cure.h"

namespace blankwright {

/// 38 × 38 × 150 mm, alike in all directions, into 200 °F: its middle is at 85 °C after 4532.8 s by the series of
/// Incropera et al., ch. 5, and after 4531.6 s by explicit finite volumes in three dimensions.
inline HeatingInput block_of_two_answers() {
  return {.across = 38 * mm,
          .along = 150 * mm,
          .k_across = 0.20,
          .k_along = 0.20,
          .heat_capacity = 1600,
          .density = 950 * kilogram_per_m3,
          .film = 10,
          .start = celsius(21),
          .air = fahrenheit(200),
          .target = celsius(85)};
}

/// A block that warms in air, step by step: finite volumes over one eighth of it, explicit in time, the film in
/// series with half a cell at its faces. An independent way to what heating_time() gets from series.
class BlockInAir {
 public:
  explicit BlockInAir(const HeatingInput& in, int cells = 10) : n_{static_cast<std::size_t>(cells)}, nz_{2 * n_} {
    const double dx = in.across / 2 / metre / static_cast<double>(n_);
    const double dz = in.along / 2 / metre / static_cast<double>(nz_);
    const double stored = in.density / kilogram_per_m3 * in.heat_capacity;
    inside_x_ = in.k_across / (stored * dx * dx);
    inside_z_ = in.k_along / (stored * dz * dz);
    face_x_ = 1 / (1 / in.film + dx / 2 / in.k_across) / (stored * dx);
    face_z_ = 1 / (1 / in.film + dz / 2 / in.k_along) / (stored * dz);
    step_ = 0.9 / (4 * inside_x_ + 2 * inside_z_);
    cold_.assign(n_ * n_ * nz_, 1);
    next_ = cold_;
  }

  /// Seconds until the middle is left with that part of the difference between start and air.
  double until(double left) {
    double t = 0;
    double before = 1;
    double now = 1;
    while (now > left) {
      advance();
      t += step_;
      before = now;
      now = middle();
    }
    return t - step_ * (left - now) / (before - now);
  }

 private:
  std::size_t at(std::size_t i, std::size_t j, std::size_t k) const { return (i * n_ + j) * nz_ + k; }

  void advance() {
    for (std::size_t i = 0; i < n_; ++i) {
      for (std::size_t j = 0; j < n_; ++j) {
        for (std::size_t k = 0; k < nz_; ++k) {
          const std::size_t here = at(i, j, k);
          const double u = cold_[here];
          double gain = i + 1 < n_ ? inside_x_ * (cold_[here + n_ * nz_] - u) : -face_x_ * u;
          gain += j + 1 < n_ ? inside_x_ * (cold_[here + nz_] - u) : -face_x_ * u;
          gain += k + 1 < nz_ ? inside_z_ * (cold_[here + 1] - u) : -face_z_ * u;
          if (i > 0) gain += inside_x_ * (cold_[here - n_ * nz_] - u);
          if (j > 0) gain += inside_x_ * (cold_[here - nz_] - u);
          if (k > 0) gain += inside_z_ * (cold_[here - 1] - u);
          next_[here] = u + step_ * gain;
        }
      }
    }
    cold_.swap(next_);
  }

  /// From the cells next to it: even in every direction, so that a parabola goes through the first two.
  double middle() const {
    double sum = 0;
    for (std::size_t i = 0; i < 2; ++i) {
      for (std::size_t j = 0; j < 2; ++j) {
        for (std::size_t k = 0; k < 2; ++k) sum += weight(i) * weight(j) * weight(k) * cold_[at(i, j, k)];
      }
    }
    return sum;
  }
  static double weight(std::size_t i) { return i == 0 ? 9.0 / 8 : -1.0 / 8; }

  std::size_t n_, nz_;
  double inside_x_ = 0, inside_z_ = 0, face_x_ = 0, face_z_ = 0;  ///< per second
  double step_ = 0;
  std::vector<double> cold_, next_;  ///< (T − air)/(start − air)
};

}  // namespace blankwright
