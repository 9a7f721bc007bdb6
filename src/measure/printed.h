#pragma once

#include <array>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// A quantity as it is printed, its parts apart: who prints it places them, and takes no text apart again.

namespace blankwright {

// The units that figures are printed in, with what they are written as.
// clang-format off
#define BW_PRINTED_UNITS(unit) \
  unit(none, "") unit(millimetres, "mm") unit(inches, "in") unit(square_mm, "mm²") unit(square_cm, "cm²") unit(square_in, "in²") unit(cubic_cm, "cm³") \
  unit(cubic_in, "in³") unit(l, "l") unit(qt, "qt") unit(g, "g") unit(oz, "oz") unit(lb, "lb") unit(g_per_cm3, "g/cm³") \
  unit(lb_per_ft3, "lb/ft³") unit(N, "N") unit(lbf, "lbf") unit(Nm, "N m") unit(lbf_in, "lbf in") \
  unit(MPa, "MPa") unit(lbf_per_in2, "psi") unit(kPa, "kPa") unit(inHg, "inHg") unit(celsius, "°C") unit(fahrenheit, "°F") \
  unit(K, "K") unit(d, "d") unit(h, "h") unit(min, "min") unit(rpm, "rpm") unit(l_per_min, "l/min") \
  unit(ft3_per_min, "ft³/min") unit(mm_per_min, "mm/min") unit(in_per_min, "in/min") unit(m_per_s2, "m/s²") \
  unit(per_cent, "%")
// clang-format on

enum class PrintedUnit {
#define BW_ENUMERATOR(name, word) name,
  BW_PRINTED_UNITS(BW_ENUMERATOR)
#undef BW_ENUMERATOR
};

inline constexpr auto unit_words = std::to_array<std::string_view>({
#define BW_WORD(name, word) word,
    BW_PRINTED_UNITS(BW_WORD)
#undef BW_WORD
});
/// Their keys in a template's [spelling].
inline constexpr auto unit_keys = std::to_array<std::string_view>({
#define BW_KEY(name, word) #name,
    BW_PRINTED_UNITS(BW_KEY)
#undef BW_KEY
});

/// A number as it is printed, with a full stop before its decimals: "45.0", "1-49/64".
struct Number {
  std::string digits;
  bool operator==(const Number&) const = default;
};

struct Amount {
  Number number;
  PrintedUnit unit = PrintedUnit::none;
  bool operator==(const Amount&) const = default;
};

struct Printed {
  std::vector<Amount> amounts{};  ///< mostly one; a time may be of two: "2 h 30 min"
  std::optional<Number> aside{};  ///< the decimal that goes with a fraction of an inch
  std::optional<Amount> per{};    ///< the length that a slope is counted on
  std::string words{};            ///< in place of all these: a thread, a name, a dash
  bool known() const { return !amounts.empty() || !words.empty(); }
  bool operator==(const Printed&) const = default;
};

inline Printed printed(Number number, PrintedUnit unit) { return {.amounts = {{std::move(number), unit}}}; }
inline Printed printed_words(std::string words) { return {.words = std::move(words)}; }

/// A number with so many decimals, as it is.
Number decimal(double value, int decimals);
/// With so many digits at most, and no noughts at its end.
Number shortest(double value, int digits);

/// How numbers, units and days are written; in English where nobody says otherwise.
struct Spelling {
  std::string decimal_sign = ".";
  std::string per = "per";
  std::string not_known = "not known";
  std::string after_day;  ///< behind the number of a day of a month
  std::array<std::string, unit_words.size()> units = english_units();
  const std::string& operator[](PrintedUnit unit) const { return units.at(static_cast<std::size_t>(unit)); }

 private:
  static std::array<std::string, unit_words.size()> english_units();
};
const Spelling& english_spelling();

std::string text(const Number& number, const Spelling& spelling = english_spelling());
std::string text(const Amount& amount, const Spelling& spelling = english_spelling());  ///< "45.0 mm"
/// "1-49/64 in (1.766)", "0.55 mm per 100 mm", "2 h 30 min".
std::string text(const Printed& printed, const Spelling& spelling = english_spelling());
/// Those that are there, a space between them.
std::string joined(std::initializer_list<std::string> parts);
/// Its parts, for who sets them apart; empty where it has none.
std::string amounts_text(const Printed& printed, const Spelling& spelling);  ///< "1-49/64 in"; a name
std::string aside_text(const Printed& printed, const Spelling& spelling);    ///< "(1.766)"
std::string per_text(const Printed& printed, const Spelling& spelling);      ///< "per 100 mm"

}  // namespace blankwright
