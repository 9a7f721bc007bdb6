#include "units.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

namespace simulated {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Reads an unsigned decimal from the front of `text` and takes it away.
double take_number(std::string_view& text) {
  double value = none;
  const auto [end, problem] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (problem != std::errc{}) return none;
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  return value;
}

/// "2-5/16" leaves " in": whole inches and a fraction.
double take_fraction(std::string_view& text) {
  double value = take_number(text);
  if (std::isnan(value)) return none;
  if (text.size() > 1 && (text[0] == '-' || text[0] == ' ') && is_digit(text[1])) {
    std::string_view rest = text.substr(1);
    const double above = take_number(rest);
    if (!rest.empty() && rest[0] == '/') {
      rest.remove_prefix(1);
      const double below = take_number(rest);
      text = rest;
      return value + above / below;
    }
  }
  if (!text.empty() && text[0] == '/') {
    text.remove_prefix(1);
    value /= take_number(text);
  }
  return value;
}

}  // namespace

std::string length_text(double length_mm, Units units) {
  if (units == Units::metric) return fmt::format("{:.1f} mm", length_mm);
  return fmt::format("{:.3f} in", length_mm / mm_per_in);
}

std::string mass_text(double mass_g, Units units) {
  if (units == Units::metric) return fmt::format("{:.1f} g", mass_g);
  return fmt::format("{:.3f} oz", mass_g / g_per_oz);
}

std::string temperature_text(double temperature_C, Units units) {
  if (units == Units::metric) return fmt::format("{:.0f} °C", temperature_C);
  return fmt::format("{:.0f} °F", temperature_C * 9 / 5 + 32);
}

std::string gauge_text(double below_air_kPa, Units units) {
  if (units == Units::metric) return fmt::format("{:.1f} kPa", below_air_kPa);
  return fmt::format("{:.2f} inHg", below_air_kPa / kPa_per_inHg);
}

std::string torque_text(double torque_Nm, Units units) {
  if (units == Units::metric) return fmt::format("{:.2f} N m", torque_Nm);
  return fmt::format("{:.1f} lbf in", torque_Nm / Nm_per_lbf_in);
}

std::string density_text(double density_g_cm3, Units units) {
  if (units == Units::metric) return fmt::format("{:.3f} g/cm3", density_g_cm3);
  return fmt::format("{:.2f} lb/ft3", density_g_cm3 * 62.42796);
}

double number_in(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  const bool negative = text.starts_with('-');
  if (negative) text.remove_prefix(1);
  if (text.empty() || !is_digit(text.front())) return none;
  const double value = take_fraction(text);
  return negative ? -value : value;
}

double length_mm_in(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  if (text.empty() || !is_digit(text.front())) return none;
  const double value = take_fraction(text);
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  if (text.starts_with("mm")) return value;
  if (text.starts_with("in")) return value * mm_per_in;
  if (text.starts_with("ft")) return value * 12 * mm_per_in;
  return none;
}

double mass_g_in(std::string_view text) {
  const double value = number_in(text);
  if (text.ends_with(" g")) return value;
  if (text.ends_with(" oz")) return value * g_per_oz;
  if (text.ends_with(" lb")) return value * 16 * g_per_oz;
  return none;
}

}  // namespace simulated
