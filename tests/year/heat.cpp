#include "heat.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace simulated {
namespace {

constexpr std::size_t across = 5;  // cells from the middle to a face
constexpr std::size_t along = 8;   // and to an end
constexpr std::size_t cells = across * across * along;

constexpr std::size_t at(std::size_t x, std::size_t y, std::size_t z) { return (x * across + y) * along + z; }

/// Flow into one cell from its two neighbours on a line, or from the air where it lies at the surface, per volume.
struct Line {
  double between;  // conductance over volume between two cells, W/(m³ K)
  double surface;  // and from the outermost cell to the air
};

Line line(double conductivity_W_mK, double cell_m, double film_W_m2K) {
  const double resistance = cell_m / 2 / conductivity_W_mK + 1 / film_W_m2K;
  return {conductivity_W_mK / (cell_m * cell_m), 1 / resistance / cell_m};
}

}  // namespace

std::vector<double> core_by_minute_C(const HeatedBlank& blank, const std::function<double(double)>& air_C,
                                     int minutes) {
  const double wide_m = blank.section_mm / 2000 / across;
  const double long_m = blank.length_mm / 2000 / along;
  const Line cross = line(blank.across_W_mK, wide_m, blank.film_W_m2K);
  const Line grain = line(blank.along_W_mK, long_m, blank.film_W_m2K);
  const double stored_J_m3K = blank.density_kg_m3 * blank.capacity_J_kgK;
  // Half of what stays stable: 1 / (sum of all conductances).
  const double longest_s = stored_J_m3K / (4 * cross.between + 2 * grain.between + cross.surface + grain.surface);
  const int steps = std::max(2, static_cast<int>(std::ceil(60 / (longest_s * 0.8))));
  const double share = 60.0 / steps / stored_J_m3K;

  std::array<double, cells> now{};
  now.fill(blank.start_C);
  std::array<double, cells> next{};
  std::vector<double> core_C{blank.start_C};
  core_C.reserve(static_cast<std::size_t>(minutes) + 1);
  for (int minute = 0; minute < minutes; ++minute) {
    for (int step = 0; step < steps; ++step) {
      const double air = air_C(minute + static_cast<double>(step) / steps);
      for (std::size_t x = 0; x < across; ++x)
        for (std::size_t y = 0; y < across; ++y)
          for (std::size_t z = 0; z < along; ++z) {
            const double here = now[at(x, y, z)];
            double flow = 0;
            if (x > 0) flow += cross.between * (now[at(x - 1, y, z)] - here);
            flow += x + 1 < across ? cross.between * (now[at(x + 1, y, z)] - here) : cross.surface * (air - here);
            if (y > 0) flow += cross.between * (now[at(x, y - 1, z)] - here);
            flow += y + 1 < across ? cross.between * (now[at(x, y + 1, z)] - here) : cross.surface * (air - here);
            if (z > 0) flow += grain.between * (now[at(x, y, z - 1)] - here);
            flow += z + 1 < along ? grain.between * (now[at(x, y, z + 1)] - here) : grain.surface * (air - here);
            next[at(x, y, z)] = here + share * flow;
          }
      now.swap(next);
    }
    core_C.push_back(now[at(0, 0, 0)]);
  }
  return core_C;
}

double held_C(const std::vector<double>& core_C, int hold_minutes) {
  const auto hold = static_cast<std::size_t>(hold_minutes);
  double best_C = core_C.front();
  for (std::size_t from = 0; from + hold < core_C.size(); ++from) {
    const auto first = core_C.begin() + static_cast<std::ptrdiff_t>(from);
    best_C = std::max(best_C, *std::min_element(first, first + static_cast<std::ptrdiff_t>(hold) + 1));
  }
  return best_C;
}

}  // namespace simulated
