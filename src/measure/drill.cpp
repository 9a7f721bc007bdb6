#include "measure/drill.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "measure/size_text.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

/// #1 to #80 in inches, ANSI/ASME B94.11M. Seen in public copies: #1 to #4, 7, 10, 21, 25, 42 to 47, 49, 50, 52, 53;
/// the rest from memory.
constexpr std::array number_sizes{
    0.2280, 0.2210, 0.2130, 0.2090, 0.2055, 0.2040, 0.2010, 0.1990, 0.1960, 0.1935,  // #1
    0.1910, 0.1890, 0.1850, 0.1820, 0.1800, 0.1770, 0.1730, 0.1695, 0.1660, 0.1610,  // #11
    0.1590, 0.1570, 0.1540, 0.1520, 0.1495, 0.1470, 0.1440, 0.1405, 0.1360, 0.1285,  // #21
    0.1200, 0.1160, 0.1130, 0.1110, 0.1100, 0.1065, 0.1040, 0.1015, 0.0995, 0.0980,  // #31
    0.0960, 0.0935, 0.0890, 0.0860, 0.0820, 0.0810, 0.0785, 0.0760, 0.0730, 0.0700,  // #41
    0.0670, 0.0635, 0.0595, 0.0550, 0.0520, 0.0465, 0.0430, 0.0420, 0.0410, 0.0400,  // #51
    0.0390, 0.0380, 0.0370, 0.0360, 0.0350, 0.0330, 0.0320, 0.0310, 0.0292, 0.0280,  // #61
    0.0260, 0.0250, 0.0240, 0.0225, 0.0210, 0.0200, 0.0180, 0.0160, 0.0145, 0.0135,  // #71
};

/// A to Z in inches, ANSI/ASME B94.11M. A, F, I, J, Q, R, U, X, Y, Z seen in public copies; the rest from memory.
constexpr std::array letter_sizes{0.234, 0.238, 0.242, 0.246, 0.250, 0.257, 0.261, 0.266, 0.272,
                                  0.277, 0.281, 0.290, 0.295, 0.302, 0.316, 0.323, 0.332, 0.339,
                                  0.348, 0.358, 0.368, 0.377, 0.386, 0.397, 0.404, 0.413};

constexpr Length thinnest = 0.3 * mm;
constexpr Length thickest = 80 * mm;

Drill number_drill(int number) {
  return {{{fmt::format("#{}", number)}}, number_sizes.at(static_cast<std::size_t>(number) - 1) * inch};
}

Drill letter_drill(char letter) {
  return {{{std::string(1, letter)}}, letter_sizes.at(static_cast<std::size_t>(letter - 'A')) * inch};
}

/// `hundredths` of a millimetre, so that no step accumulates an error.
Drill metric_drill(int hundredths) {
  const double size = hundredths / 100.0;
  return {{{fmt::format("{}", size)}, PrintedUnit::millimetres}, size * mm};
}

Drill fraction_drill(int sixty_fourths) {
  const Length size = sixty_fourths / 64.0 * inch;
  const bool is_whole = sixty_fourths % 64 == 0;
  return {{{vulgar_fraction(size, Round::nearest)}, is_whole ? PrintedUnit::inches : PrintedUnit::none}, size};
}

void sort_by_diameter(std::vector<Drill>& drills) {
  std::stable_sort(drills.begin(), drills.end(),
                   [](const Drill& a, const Drill& b) { return a.diameter < b.diameter; });
}

/// The name of a diameter that was given as a quantity.
Drill named(Length diameter, bool in_millimetres) {
  if (in_millimetres)
    return {{{fmt::format("{}", std::round(diameter / mm * 1e4) / 1e4)}, PrintedUnit::millimetres}, diameter};
  const double sixty_fourths = diameter / inch * 64;
  const double whole = std::round(sixty_fourths);
  if (std::abs(sixty_fourths - whole) < 1e-6) return fraction_drill(static_cast<int>(whole));
  return {{{fmt::format("{}", std::round(diameter / inch * 1e5) / 1e5)}, PrintedUnit::inches}, diameter};
}

tl::expected<Drill, std::string> read_number_drill(SizeScan in) {
  in.skip_spaces();
  const auto number = in.whole();
  if (number && in.done() && *number >= 1 && *number <= static_cast<int>(number_sizes.size())) {
    return number_drill(*number);
  }
  return tl::unexpected{fmt::format("no such number size of a drill; #1 to #{} are", number_sizes.size())};
}

std::string bare_number_fault(std::string_view plain, WrittenNumber number) {
  std::string choices = fmt::format("\"{} mm\"", plain);
  if (number.value <= thickest / inch) choices += fmt::format(", \"{} in\"", plain);
  const bool numbered = number.decimals == 0 && number.value >= 1 && number.value <= number_sizes.size();
  if (numbered) choices += fmt::format(", \"#{}\"", number.value);
  return fmt::format("bare number where a drill belongs; write {}", choices);
}

}  // namespace

std::vector<Drill> published_drills(UnitSystem system) {
  std::vector<Drill> drills;
  if (system == UnitSystem::metric) {
    for (int size = 30; size <= 3200; size += size < 300 ? 5 : size < 1400 ? 10 : 25) {
      drills.push_back(metric_drill(size));
    }
  } else {
    for (int n = 1; n <= static_cast<int>(number_sizes.size()); ++n) drills.push_back(number_drill(n));
    for (char letter = 'A'; letter <= 'Z'; ++letter) drills.push_back(letter_drill(letter));
    for (int n = 1; n <= 96; ++n) drills.push_back(fraction_drill(n));
  }
  sort_by_diameter(drills);
  return drills;
}

std::vector<Drill> standard_drills(UnitSystem system) {
  std::vector<Drill> drills;
  if (system == UnitSystem::metric) {
    for (int size = 300; size <= 2000; size += 50) drills.push_back(metric_drill(size));
    for (const int tap_drill : {330, 420, 680, 1020}) drills.push_back(metric_drill(tap_drill));
  } else {
    for (int n = 4; n <= 32; ++n) drills.push_back(fraction_drill(n));
    for (int n = 36; n <= 64; n += 4) drills.push_back(fraction_drill(n));
    for (const int tap_drill : {29, 25, 21, 7, 3}) drills.push_back(number_drill(tap_drill));
    for (const char tap_drill : {'F', 'I', 'Q', 'U'}) drills.push_back(letter_drill(tap_drill));
  }
  sort_by_diameter(drills);
  return drills;
}

tl::expected<Drill, std::string> read_drill(std::string_view text) {
  const auto plain = plain_size_text(text);
  if (!plain) return tl::unexpected{plain.error() + " where a drill belongs"};
  if (plain->empty()) return tl::unexpected{std::string{"empty where a drill belongs; write \"8.5 mm\" or \"#7\""}};
  SizeScan in{*plain};
  if (in.take('#')) return read_number_drill(in);
  if (plain->size() == 1 && ascii_lower(*plain).find_first_of("abcdefghijklmnopqrstuvwxyz") == 0) {
    return letter_drill(static_cast<char>(ascii_lower(*plain).front() - 'a' + 'A'));
  }
  if (const auto number = in.number(); number && in.done()) {
    return tl::unexpected{bare_number_fault(*plain, *number)};
  }
  const bool fraction_alone = plain->find_first_not_of("0123456789/- ") == std::string::npos;
  const auto diameter = read_quantity<Length>(fraction_alone ? *plain + " in" : *plain);
  if (!diameter) {
    return tl::unexpected{
        fmt::format("\"{}\" is not a drill; write it as \"8.5 mm\", \"5/16 in\", \"#7\" or \"F\"", *plain)};
  }
  if (*diameter < thinnest || *diameter > thickest) {
    return tl::unexpected{fmt::format("\"{}\" is no drill's diameter; 0.3 mm to 80 mm are", *plain)};
  }
  const bool in_millimetres = plain->find_first_of("mM") != std::string::npos;
  return named(*diameter, in_millimetres);
}

}  // namespace blankwright
