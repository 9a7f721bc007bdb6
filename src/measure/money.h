#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace blankwright {

/// An amount in one currency, by its three letters (ISO 4217).
struct Money {
  double amount = 0;
  std::string currency{};
};

/// Reads "18.50 EUR": digits with at most one full stop, a space, three capital letters. Which letters are a currency
/// is not looked up; that all amounts of a plan are in one is.
std::optional<Money> read_money(std::string_view text);

/// "18.50 EUR".
std::string text(const Money& money);

}  // namespace blankwright
