#include "entries/blank_id.h"

#include <cstddef>
#include <optional>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

constexpr std::uint32_t base = 23;
constexpr std::uint32_t half = base * base * base;
constexpr std::array<std::uint32_t, 6> weights{5, 2, 10, 4, 20, 8};  // 5^1 … 5^6 modulo 23
static_assert(id_symbols.size() == base && half * half == BlankId::count);

/// The scattering's mixing step; part of the contract of BlankId::nth.
std::uint32_t mix(std::uint64_t x) {
  x *= 0x9E3779B97F4A7C15U;
  x ^= x >> 32U;
  x *= 0xBF58476D1CE4E5B9U;
  x ^= x >> 32U;
  return static_cast<std::uint32_t>(x % half);
}

std::uint32_t scattered(std::uint32_t n) {
  std::uint32_t left = n / half;
  std::uint32_t right = n % half;
  for (std::uint32_t round = 1; round <= 4; ++round) {
    const std::uint32_t next = (left + mix(right + round * half)) % half;
    left = right;
    right = next;
  }
  return left * half + right;
}

/// What scattered() made `code` of, its rounds undone from the last to the first.
std::uint32_t gathered(std::uint32_t code) {
  std::uint32_t left = code / half;
  std::uint32_t right = code % half;
  for (std::uint32_t round = 4; round >= 1; --round) {
    const std::uint32_t before = (right + half - mix(left + round * half)) % half;
    right = left;
    left = before;
  }
  return left * half + right;
}

/// Upper case, without spaces (also those that a scanner adds at the end) and hyphens.
std::string tidied(std::string_view typed) {
  std::string out;
  for (const char c : typed) {
    if (std::string_view{" \t\r\n-"}.find(c) != std::string_view::npos) continue;
    out += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  }
  return out;
}

/// What was meant by a text that went through an AZERTY layout. None where it holds a plain digit: such a layout
/// sends none, so it is a person's text, and its hyphen must not fill in for a symbol that was forgotten.
std::optional<std::string> from_azerty(std::string_view typed) {
  constexpr std::array<std::string_view, 10> keys{"à", "&", "é", "\"", "'", "(", "-", "è", "_", "ç"};
  if (typed.find_first_of("0123456789") != std::string_view::npos) return std::nullopt;
  std::string out;
  while (!typed.empty()) {
    std::size_t digit = 0;
    while (digit < keys.size() && !typed.starts_with(keys.at(digit))) ++digit;
    const bool found = digit < keys.size();
    out += found ? static_cast<char>('0' + digit) : typed.front();
    typed.remove_prefix(found ? keys.at(digit).size() : 1);
  }
  return out;
}

}  // namespace

BlankId BlankId::nth(std::uint32_t n) {
  BW_EXPECT(n < count);
  std::array<char, 7> symbols{};
  std::uint32_t rest = scattered(n);
  std::uint32_t sum = 0;
  for (std::size_t place = weights.size(); place-- > 0; rest /= base) {
    symbols.at(place) = id_symbols.at(rest % base);
    sum += weights.at(place) * (rest % base);
  }
  symbols.back() = id_symbols.at((base - sum % base) % base);
  return BlankId{symbols};
}

BlankId BlankId::after(std::uint32_t k) const {
  BW_EXPECT(k < count);
  return nth(static_cast<std::uint32_t>((std::uint64_t{number()} + k) % count));
}

std::uint32_t BlankId::place_in_series_of(const BlankId& first) const {
  return (number() + count - first.number()) % count;
}

/// The n of which this is the n-th.
std::uint32_t BlankId::number() const {
  std::uint32_t code = 0;
  for (std::size_t place = 0; place < weights.size(); ++place) {
    code = code * base + static_cast<std::uint32_t>(id_symbols.find(symbols_.at(place)));
  }
  return gathered(code);
}

tl::expected<BlankId, IdFault> BlankId::checked(std::string_view symbols) {
  if (symbols.find_first_not_of(id_symbols) != std::string_view::npos) return tl::make_unexpected(IdFault::symbol);
  std::array<char, 7> own{};
  if (symbols.size() != own.size()) return tl::make_unexpected(IdFault::length);
  std::size_t sum = id_symbols.find(symbols.back());
  for (std::size_t place = 0; place < weights.size(); ++place) {
    sum += weights.at(place) * id_symbols.find(symbols.at(place));
  }
  if (sum % base != 0) return tl::make_unexpected(IdFault::check);
  symbols.copy(own.data(), own.size());
  return BlankId{own};
}

tl::expected<BlankId, IdFault> BlankId::read(std::string_view typed) {
  auto plain = checked(tidied(typed));
  if (plain) return plain;
  const std::optional<std::string> meant = from_azerty(typed);
  auto mapped = checked(tidied(meant.value_or("")));
  return mapped ? mapped : plain;
}

std::string BlankId::shown() const {
  const std::string plain = encoded();
  return plain.substr(0, 3) + "-" + plain.substr(3);
}

std::string BlankId::encoded() const { return std::string(symbols_.data(), symbols_.size()); }

}  // namespace blankwright
