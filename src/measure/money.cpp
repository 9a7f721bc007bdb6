#include "measure/money.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace blankwright {

std::optional<Money> read_money(std::string_view text) {
  const auto space = text.find(' ');
  if (space == std::string_view::npos) return std::nullopt;
  const std::string_view digits = text.substr(0, space);
  const std::string_view currency = text.substr(space + 1);
  const auto is_capital = [](char c) { return c >= 'A' && c <= 'Z'; };
  if (currency.size() != 3 || !std::all_of(currency.begin(), currency.end(), is_capital)) return std::nullopt;
  Money money{0, std::string{currency}};
  const auto [end, error] =
      std::from_chars(digits.data(), digits.data() + digits.size(), money.amount, std::chars_format::fixed);
  if (error != std::errc{} || end != digits.data() + digits.size() || !(money.amount >= 0) || money.amount > 1e9) {
    return std::nullopt;
  }
  return money;
}

std::string text(const Money& money) { return fmt::format("{:.2f} {}", money.amount, money.currency); }

}  // namespace blankwright
