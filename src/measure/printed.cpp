#include "measure/printed.h"

#include <fmt/format.h>

#include <algorithm>

namespace blankwright {

std::string joined(std::initializer_list<std::string> parts) {
  std::string out;
  for (const std::string& part : parts) {
    if (!part.empty()) out += (out.empty() ? "" : " ") + part;
  }
  return out;
}

Number decimal(double value, int decimals) {
  return {fmt::format("{:.{}f}", value == 0 ? 0 : value, decimals)};  // minus zero is not a thing to print
}

Number shortest(double value, int digits) { return {fmt::format("{:.{}g}", value, digits)}; }

std::array<std::string, unit_words.size()> Spelling::english_units() {
  std::array<std::string, unit_words.size()> units;
  std::ranges::copy(unit_words, units.begin());
  return units;
}

const Spelling& english_spelling() {
  static const Spelling spelling;
  return spelling;
}

std::string text(const Number& number, const Spelling& spelling) {
  std::string out;
  for (const char c : number.digits) out += c == '.' ? spelling.decimal_sign : std::string(1, c);
  return out;
}

std::string text(const Amount& amount, const Spelling& spelling) {
  return joined({text(amount.number, spelling), spelling[amount.unit]});
}

std::string amounts_text(const Printed& printed, const Spelling& spelling) {
  if (!printed.known()) return spelling.not_known;
  std::string out = printed.words;
  for (const Amount& amount : printed.amounts) out = joined({out, text(amount, spelling)});
  return out;
}

std::string aside_text(const Printed& printed, const Spelling& spelling) {
  return printed.aside ? fmt::format("({})", text(*printed.aside, spelling)) : std::string{};
}

std::string per_text(const Printed& printed, const Spelling& spelling) {
  return printed.per ? joined({spelling.per, text(*printed.per, spelling)}) : std::string{};
}

std::string text(const Printed& printed, const Spelling& spelling) {
  return joined({amounts_text(printed, spelling), aside_text(printed, spelling), per_text(printed, spelling)});
}

}  // namespace blankwright
