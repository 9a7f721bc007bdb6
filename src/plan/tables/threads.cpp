#include "plan/tables/threads.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "diagnose/failure.h"
#include "plan/tables/drills.h"

namespace blankwright {
namespace {

constexpr double pitch_factor = 0.649519;           ///< 3H/4 with H = √3/2 P
constexpr double internal_minor_factor = 1.082532;  ///< 5H/4
constexpr double national_form_factor = 1.299038;   ///< 3H/2

enum class Rounding { nearest, up };

/// A preferred number of the R 40 series (ISO 3), for a value from 10 to 1000.
double preferred(double value, Rounding rounding = Rounding::nearest) {
  static constexpr std::array r40{10.0, 10.6, 11.2, 11.8, 12.5, 13.2, 14.0, 15.0, 16.0, 17.0, 18.0, 19.0, 20.0, 21.2,
                                  22.4, 23.6, 25.0, 26.5, 28.0, 30.0, 31.5, 33.5, 35.5, 37.5, 40.0, 42.5, 45.0, 47.5,
                                  50.0, 53.0, 56.0, 60.0, 63.0, 67.0, 71.0, 75.0, 80.0, 85.0, 90.0, 95.0, 100.0};
  const double decade = value >= 100 ? 10 : 1;
  const double wanted = value / decade;
  const auto* above = std::lower_bound(r40.begin(), r40.end() - 1, wanted - 1e-9);
  if (rounding == Rounding::up || above == r40.begin()) return *above * decade;
  const double below = *(above - 1);
  return (wanted - below < *above - wanted ? below : *above) * decade;
}

/// ISO 965-1 counts with the geometric mean of the range that a diameter lies in, mm.
double mean_of_range(double diameter) {
  static constexpr std::array bounds{0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0};
  const auto* upper = std::lower_bound(bounds.begin() + 1, bounds.end() - 1, diameter);
  return std::sqrt(*(upper - 1) * *upper);
}

ThreadLimits metric_limits(const Thread& thread) {
  const double p = thread.pitch / mm;
  const double size_term = std::pow(mean_of_range(thread.major / mm), 0.1);
  const Length micrometre = 1e-3 * mm;
  // es of position g, below nominal; whole micrometres, halves to the even one as in the rounded series R' 40
  const Length fundamental = std::nearbyint(preferred(15 + 11 * p)) * micrometre;
  const Length major_tolerance = preferred(180 * std::cbrt(p * p) - 3.15 / std::sqrt(p)) * micrometre;
  const double stud_pitch = 90 * std::pow(p, 0.4) * size_term;
  const double minor = p >= 1 ? 230 * std::pow(p, 0.7) : 433 * p - 190 * std::pow(p, 1.22);
  return {
      .stud_major_least = thread.major - fundamental - major_tolerance,
      .stud_pitch_least = pitch_diameter(thread) - fundamental - preferred(stud_pitch) * micrometre,
      .hole_minor_least = internal_minor_diameter(thread),
      .hole_minor_most = internal_minor_diameter(thread) + preferred(minor) * micrometre,
      .hole_pitch_most = pitch_diameter(thread) + preferred(1.32 * stud_pitch, Rounding::up) * micrometre,
  };
}

/// In inches, as the formulas of ASME B1.1 are.
double unified_minor_tolerance(double d, double p) {
  const double large = 0.25 * p - 0.4 * p * p;
  if (d >= 0.25) return large;
  const double small = 0.05 * std::cbrt(p * p) + 0.03 * p / d - 0.002;
  return std::clamp(small, large, 0.394 * p);
}

ThreadLimits unified_limits(const Thread& thread) {
  const double d = thread.major / inch;
  const double p = thread.pitch / inch;
  const double pitch_tolerance = 0.0015 * std::cbrt(d) + 0.0015 * std::sqrt(d) + 0.015 * std::cbrt(p * p);
  const Length allowance = 0.3 * pitch_tolerance * inch;
  return {
      .stud_major_least = thread.major - allowance - 0.060 * std::cbrt(p * p) * inch,
      .stud_pitch_least = pitch_diameter(thread) - allowance - pitch_tolerance * inch,
      .hole_minor_least = internal_minor_diameter(thread),
      .hole_minor_most = internal_minor_diameter(thread) + unified_minor_tolerance(d, p) * inch,
      .hole_pitch_most = pitch_diameter(thread) + 1.3 * pitch_tolerance * inch,
  };
}

constexpr std::string_view mh31 = "Machinery's Handbook, 31st ed., p. 2168, table 4";
constexpr std::string_view data_handbook = "Mechanical Engineer's Data Handbook, p. 299";
constexpr std::string_view vendor_chart = "public vendor's chart of metric tap drills";
constexpr std::string_view number_chart = "public chart of number drills";
constexpr std::string_view remembered = "usual chart, from memory";

struct TapRow {
  std::string_view thread;  ///< size and pitch as they head a designation: "#10-24", "M8×1"
  std::string_view drill;
  std::string_view source;
};
constexpr auto tap_rows = std::to_array<TapRow>({
    {"#8-32", "#29", remembered},
    {"#8-36", "#29", remembered},
    {"#10-24", "#25", number_chart},
    {"#10-32", "#21", number_chart},
    {"1/4-20", "#7", number_chart},
    {"1/4-28", "#3", mh31},
    {"5/16-18", "F", mh31},
    {"5/16-24", "I", mh31},
    {"3/8-16", "5/16", mh31},
    {"3/8-24", "Q", mh31},
    {"7/16-14", "U", mh31},
    {"7/16-20", "25/64", mh31},
    {"1/2-13", "27/64", mh31},
    {"1/2-20", "29/64", mh31},
    {"9/16-12", "31/64", mh31},
    {"9/16-18", "33/64", mh31},
    {"5/8-11", "17/32", mh31},
    {"5/8-18", "37/64", mh31},
    {"M4×0.7", "3.3 mm", data_handbook},
    {"M5×0.8", "4.2 mm", data_handbook},
    {"M6×1", "5 mm", data_handbook},
    {"M8×1.25", "6.8 mm", data_handbook},
    {"M8×1", "7 mm", vendor_chart},
    {"M10×1.5", "8.5 mm", data_handbook},
    {"M10×1.25", "8.8 mm", vendor_chart},
    {"M10×1", "9 mm", vendor_chart},
    {"M12×1.75", "10.2 mm", data_handbook},
    {"M12×1.5", "10.5 mm", remembered},
    {"M12×1.25", "10.8 mm", remembered},
    {"M14×2", "12 mm", data_handbook},
    {"M14×1.5", "12.5 mm", remembered},
    {"M16×2", "14 mm", data_handbook},
    {"M16×1.5", "14.5 mm", remembered},
});

double factor_of(PercentBasis basis) {
  return basis == PercentBasis::internal_thread ? internal_minor_factor : national_form_factor;
}

/// The designation up to the series, the tolerance or the hand.
bool heads(std::string_view row, std::string_view designation) {
  if (!designation.starts_with(row)) return false;
  return designation.size() == row.size() || designation[row.size()] == ' ' || designation[row.size()] == '-';
}

}  // namespace

Length pitch_diameter(const Thread& thread) { return thread.major - pitch_factor * thread.pitch; }

Length internal_minor_diameter(const Thread& thread) { return thread.major - internal_minor_factor * thread.pitch; }

Length external_minor_diameter(const Thread& thread) {
  return thread.major - (thread.system == ThreadSystem::metric ? 1.226869 : 1.190785) * thread.pitch;
}

double stress_area_factor(const Thread& thread) { return thread.system == ThreadSystem::metric ? 0.9382 : 0.9743; }

Area tensile_area(const Thread& thread) {
  const Length across = thread.major - stress_area_factor(thread) * thread.pitch;
  return std::numbers::pi / 4 * (across * across);
}

bool is_tap_hole(const Thread& thread, Length hole) {
  const ThreadLimits limits = thread_limits(thread);
  return hole >= limits.hole_minor_least - drill_slack && hole <= limits.hole_minor_most + drill_slack;
}

ThreadLimits thread_limits(const Thread& thread) {
  BW_EXPECT(thread.pitch > Length{} && thread.major > thread.pitch);
  return thread.system == ThreadSystem::metric ? metric_limits(thread) : unified_limits(thread);
}

std::string_view name_of(PercentBasis basis) {
  return basis == PercentBasis::internal_thread ? "of the internal thread's height, 1.0825 P"
                                                : "as tap charts count, 1.299 P";
}

Share percent_of_thread(const Thread& thread, Length hole, PercentBasis basis) {
  return (thread.major - hole) / (factor_of(basis) * thread.pitch) * whole;
}

Length hole_for_percent(const Thread& thread, Share height, PercentBasis basis) {
  return thread.major - (factor_of(basis) * (height / whole)) * thread.pitch;
}

std::optional<TapDrill> conventional_tap_drill(const Thread& thread) {
  for (const TapRow& row : tap_rows) {
    if (!heads(row.thread, thread.designation)) continue;
    const auto drill = read_drill(row.drill);
    BW_EXPECT(drill.has_value());
    return TapDrill{*drill, row.source};
  }
  return std::nullopt;
}

}  // namespace blankwright
