#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace blankwright {

/// The CRC-32 of a row of values: of a damaged row it differs (always where the damage lies within 32 bits, otherwise
/// all but once in 4 thousand million times). Registers and exports hold it, so how it is counted never changes: of
/// each value a letter for its kind (N none, I whole number, D number, T text), eight bytes, the lowest first (the
/// whole number, the number's IEEE 754 bits, the text's length; 0 for none), then the text's bytes.
/// Source of the polynomial and its check value: ITU-T V.42, 8.1.1.6.2, as in zlib.
class Checksum {
 public:
  template <class... Values>
  static Checksum of(const Values&... values) {
    Checksum sum;
    (sum.add(values), ...);
    return sum;
  }

  void add(std::int64_t value);
  void add(double value);  ///< -0.0 counts as 0.0: a database keeps no difference
  void add(std::string_view text);
  void add_none();
  template <class Value>
  void add(const std::optional<Value>& value) {
    if (value) {
      add(*value);
    } else {
      add_none();
    }
  }
  /// Bytes as they are, without a kind.
  void add_bytes(std::string_view bytes);

  std::int64_t value() const { return sum_; }

 private:
  void add_head(char kind, std::uint64_t bits);
  std::uint32_t sum_ = 0;
};

}  // namespace blankwright
