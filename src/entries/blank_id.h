#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace blankwright {

/// All symbols of an ID, in the order of their values.
inline constexpr std::string_view id_symbols = "23456789BCDFGHJKNPRSTVX";

/// Why a typed or scanned text is no blank's ID.
enum class IdFault {
  symbol,  ///< it holds something that is not in the alphabet
  length,  ///< it has more or fewer than seven symbols
  check,   ///< the check symbol does not fit: mistyped, or swapped
};

/// The name of one blank, on its bath tag, dry tag and end mark: six data symbols and a check symbol.
///
/// Alphabet, 23 symbols of value 0 to 22: `23456789BCDFGHJKNPRSTVX`. It leaves out 0/O and 1/I/L, all vowels (no
/// words), and A Q W Z Y M, which change places between QWERTY, QWERTZ and AZERTY keyboards. Rule: the symbols weigh
/// 5^1 … 5^6 from the left and the check symbol 1; the weighted sum of the values is 0 modulo 23. As 23 is prime and
/// the weights differ, every single wrong symbol and every swap of two positions is caught. One random text in 23
/// passes, so a lookup in the register has to follow.
class BlankId {
 public:
  /// How many IDs there are: 23^6.
  static constexpr std::uint32_t count = 148'035'889;

  /// The n-th ID of all, n in [0, count). No two n share one, and neighbours do not look alike. A register gives them
  /// out from where its own series begins (see after()).
  ///
  /// A contract that never changes, since tags that are out there were made by it: with h = 23^3,
  ///   left = n / h, right = n % h; four rounds r = 1 … 4: (left, right) = (right, (left + mix(right + r·h)) % h);
  ///   the data symbols are the base-23 digits of left·h + right, highest first.
  ///   mix(x), in unsigned 64 bits: x *= 0x9E3779B97F4A7C15; x ^= x >> 32; x *= 0xBF58476D1CE4E5B9; x ^= x >> 32.
  /// Each round can be undone, whatever mix() gives, which is why no two n meet.
  static BlankId nth(std::uint32_t n);

  /// The k-th ID of the series that begins with this one, k in [0, count): nth((n + k) % count), where this is
  /// nth(n).
  BlankId after(std::uint32_t k) const;
  /// The k for which `first.after(k)` is this one.
  std::uint32_t place_in_series_of(const BlankId& first) const;

  /// Reads what somebody typed or a scanner sent. Case, spaces and hyphens do not matter. Where that gives no ID, the
  /// text is taken as sent by a scanner through an AZERTY layout (& é " ' ( - è _ ç à for 1 to 0) and tried again.
  /// Nothing is guessed: a text with a fault is refused.
  static tl::expected<BlankId, IdFault> read(std::string_view typed);

  std::string shown() const;    ///< for people: "K7T-4X54"
  std::string encoded() const;  ///< for codes and for storing: "K7T4X54"

  auto operator<=>(const BlankId&) const = default;

 private:
  explicit BlankId(const std::array<char, 7>& symbols) : symbols_{symbols} {}
  std::uint32_t number() const;
  static tl::expected<BlankId, IdFault> checked(std::string_view symbols);
  std::array<char, 7> symbols_;
};

}  // namespace blankwright
