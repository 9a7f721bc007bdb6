#include "measure/thread_series.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace blankwright {
namespace {

constexpr double too_coarse = 1.2;

/// Numbered sizes: D = 0.060 in + N × 0.013 in (ASME B1.1).
constexpr std::array unified{
    UnifiedSize{"#0", 0.060, 0, 80, 0},     UnifiedSize{"#1", 0.073, 64, 72, 0},
    UnifiedSize{"#2", 0.086, 56, 64, 0},    UnifiedSize{"#3", 0.099, 48, 56, 0},
    UnifiedSize{"#4", 0.112, 40, 48, 0},    UnifiedSize{"#5", 0.125, 40, 44, 0},
    UnifiedSize{"#6", 0.138, 32, 40, 0},    UnifiedSize{"#8", 0.164, 32, 36, 0},
    UnifiedSize{"#10", 0.190, 24, 32, 0},   UnifiedSize{"#12", 0.216, 24, 28, 32},
    UnifiedSize{"1/4", 0.25, 20, 28, 32},   UnifiedSize{"5/16", 0.3125, 18, 24, 32},
    UnifiedSize{"3/8", 0.375, 16, 24, 32},  UnifiedSize{"7/16", 0.4375, 14, 20, 28},
    UnifiedSize{"1/2", 0.5, 13, 20, 28},    UnifiedSize{"9/16", 0.5625, 12, 18, 24},
    UnifiedSize{"5/8", 0.625, 11, 18, 24},  UnifiedSize{"11/16", 0.6875, 0, 0, 24},
    UnifiedSize{"3/4", 0.75, 10, 16, 20},   UnifiedSize{"13/16", 0.8125, 0, 0, 20},
    UnifiedSize{"7/8", 0.875, 9, 14, 20},   UnifiedSize{"15/16", 0.9375, 0, 0, 20},
    UnifiedSize{"1", 1.0, 8, 12, 20},       UnifiedSize{"1-1/16", 1.0625, 0, 0, 18},
    UnifiedSize{"1-1/8", 1.125, 7, 12, 18}, UnifiedSize{"1-3/16", 1.1875, 0, 0, 18},
    UnifiedSize{"1-1/4", 1.25, 7, 12, 18},  UnifiedSize{"1-5/16", 1.3125, 0, 0, 18},
    UnifiedSize{"1-3/8", 1.375, 6, 12, 18}, UnifiedSize{"1-7/16", 1.4375, 0, 0, 18},
    UnifiedSize{"1-1/2", 1.5, 6, 12, 18},
};

constexpr std::array constant_pitch{4, 6, 8, 12, 16, 20, 28, 32};

constexpr std::array metric{
    MetricSize{1, 0.25, {}},
    MetricSize{1.2, 0.25, {}},
    MetricSize{1.6, 0.35, {}},
    MetricSize{2, 0.4, {}},
    MetricSize{2.5, 0.45, {}},
    MetricSize{3, 0.5, {0.35}},
    MetricSize{3.5, 0.6, {}},
    MetricSize{4, 0.7, {0.5}},
    MetricSize{5, 0.8, {0.5}},
    MetricSize{6, 1, {0.75}},
    MetricSize{7, 1, {0.75}},
    MetricSize{8, 1.25, {1, 0.75}},
    MetricSize{9, 1.25, {1, 0.75}},
    MetricSize{10, 1.5, {1.25, 1, 0.75}},
    MetricSize{12, 1.75, {1.5, 1.25, 1}},
    MetricSize{14, 2, {1.5, 1.25, 1}},
    MetricSize{16, 2, {1.5, 1}},
    MetricSize{18, 2.5, {2, 1.5, 1}},
    MetricSize{20, 2.5, {2, 1.5, 1}},
    MetricSize{22, 2.5, {2, 1.5, 1}},
    MetricSize{24, 3, {2, 1.5, 1}},
    MetricSize{27, 3, {2, 1.5, 1}},
    MetricSize{30, 3.5, {2, 1.5, 1}},
    MetricSize{33, 3.5, {2, 1.5}},
    MetricSize{36, 4, {3, 2, 1.5}},
    MetricSize{39, 4, {3, 2, 1.5}},
    MetricSize{42, 4.5, {3, 2, 1.5}},
    MetricSize{45, 4.5, {3, 2, 1.5}},
    MetricSize{48, 5, {3, 2, 1.5}},
    MetricSize{52, 5, {4, 3, 2}},
    MetricSize{56, 5.5, {4, 3, 2}},
    MetricSize{60, 5.5, {4, 3, 2}},
    MetricSize{64, 6, {4, 3, 2}},
};

bool same(double a, double b) { return std::abs(a - b) < 1e-9; }

}  // namespace

std::span<const UnifiedSize> unified_sizes() { return unified; }

const UnifiedSize* find_unified(std::string_view name) {
  const auto* found = std::find_if(unified.begin(), unified.end(), [name](const auto& s) { return s.name == name; });
  return found == unified.end() ? nullptr : found;
}

std::vector<int> graded_series(const UnifiedSize& size) {
  std::vector<int> series;
  for (const int per_inch : {size.coarse, size.fine, size.extra_fine}) {
    if (per_inch != 0) series.push_back(per_inch);
  }
  return series;
}

std::string_view unified_series(const UnifiedSize* size, int per_inch) {
  if (size == nullptr) return "UNS";
  if (per_inch == size->coarse) return "UNC";
  if (per_inch == size->fine) return "UNF";
  if (per_inch == size->extra_fine) return "UNEF";
  const bool constant = std::find(constant_pitch.begin(), constant_pitch.end(), per_inch) != constant_pitch.end();
  return constant && size->inches >= 0.25 && per_inch > size->coarse ? "UN" : "UNS";
}

std::span<const MetricSize> metric_sizes() { return metric; }

const MetricSize* find_metric(double diameter) {
  const auto* found =
      std::find_if(metric.begin(), metric.end(), [diameter](const auto& s) { return same(s.diameter, diameter); });
  return found == metric.end() ? nullptr : found;
}

double greatest_metric_pitch(double diameter) {
  for (const MetricSize& size : metric) {
    if (size.diameter > diameter - 1e-9) return too_coarse * size.coarse + 1e-9;
  }
  return too_coarse * metric.back().coarse;
}

double fewest_threads_per_inch(double inches) {
  for (const UnifiedSize& size : unified) {
    if (size.coarse != 0 && size.inches > inches - 1e-9) return size.coarse / too_coarse - 1e-9;
  }
  return unified.back().coarse / too_coarse;
}

}  // namespace blankwright
