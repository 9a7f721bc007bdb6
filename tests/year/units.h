#pragma once

#include <limits>
#include <string>
#include <string_view>

namespace simulated {

enum class Units { metric, inch };

/// What stands for a figure that was not found.
inline constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// How a person writes a figure down, in the shop's units, as fine as the tool is read.
std::string length_text(double length_mm, Units units);
std::string mass_text(double mass_g, Units units);
std::string temperature_text(double temperature_C, Units units);
std::string gauge_text(double below_air_kPa, Units units);
std::string torque_text(double torque_Nm, Units units);
std::string density_text(double density_g_cm3, Units units);

/// What is printed, in SI again: "45.2 mm", "1-3/4 in (1.750)", "2-5/16 in", "4 ft". NaN where no length stands at
/// the front.
double length_mm_in(std::string_view text);
/// "151.2 g", "5.33 oz", "2.14 lb". NaN where none of these stands behind the number.
double mass_g_in(std::string_view text);
/// The first number of a text: "1,234.5", "-3", "2-5/16" as 2.3125. NaN where it begins with none.
double number_in(std::string_view text);

inline constexpr double mm_per_in = 25.4;
inline constexpr double g_per_oz = 28.349523125;
inline constexpr double kPa_per_inHg = 3.38639;
inline constexpr double Nm_per_lbf_in = 0.1129848;

}  // namespace simulated
