#include "commands/scanner_layout.h"

#include <algorithm>
#include <array>
#include <utility>

#include "read/entry_text.h"

namespace blankwright {

std::optional<std::string> from_azerty(std::string_view typed, std::string_view unit) {
  static constexpr std::array<std::pair<std::string_view, char>, 12> keys{{{"&", '1'},
                                                                           {"é", '2'},
                                                                           {"\"", '3'},
                                                                           {"'", '4'},
                                                                           {"(", '5'},
                                                                           {"-", '6'},
                                                                           {"è", '7'},
                                                                           {"_", '8'},
                                                                           {"ç", '9'},
                                                                           {"à", '0'},
                                                                           {":", '.'},
                                                                           {",", 'm'}}};
  const bool is_one_sign = typed.find_first_not_of(typed.front()) == std::string_view::npos;
  if (is_one_sign || typed.find_first_of("0123456789") != std::string_view::npos) return std::nullopt;
  std::string out;
  while (!typed.empty()) {
    const auto* const key = std::ranges::find_if(keys, [&](const auto& k) { return typed.starts_with(k.first); });
    out += key == keys.end() ? typed.front() : key->second;
    typed.remove_prefix(key == keys.end() ? 1 : key->first.size());
  }
  const bool has_unit = !unit.empty() && out.ends_with(unit);
  const std::string figure{trimmed(std::string_view{out}.substr(0, out.size() - (has_unit ? unit.size() : 0)))};
  return figure.find_first_not_of("0123456789.") == std::string::npos ? std::optional{figure} : std::nullopt;
}

}  // namespace blankwright
