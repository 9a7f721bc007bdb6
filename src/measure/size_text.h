#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <tl/expected.hpp>

namespace blankwright {

/// The text of a size in plain ASCII: `×` becomes `x`, every dash a hyphen, `⅜` becomes `3/8` (`1⅜`: `1 3/8`), `″` an
/// inch mark; runs of spaces become one, those at the ends go. Otherwise why it cannot be the text of a size:
/// longer than 80 bytes, or a character that no size is written with.
tl::expected<std::string, std::string> plain_size_text(std::string_view text);

/// A number as it was written: how many decimals matters where a size was rounded to them.
struct WrittenNumber {
  double value = 0;
  int decimals = 0;  ///< 0 where there was neither a full stop nor a comma
};

/// Reads plain size text from front to back. Nothing is taken where nothing fits.
class SizeScan {
 public:
  explicit SizeScan(std::string_view text) : rest_{text} {}

  std::string_view rest() const { return rest_; }
  bool done() const { return rest_.empty(); }
  /// The next character, or 0 behind the last.
  char next() const { return rest_.empty() ? '\0' : rest_.front(); }
  bool next_is_digit() const;

  bool take(char wanted);
  /// A word, in either case; it must not run on into further letters.
  bool take_word(std::string_view upper_case);
  void skip_spaces();
  /// Spaces and at most one hyphen among them.
  void skip_separator();
  /// Digits only, at most six.
  std::optional<int> whole();
  /// Digits with at most one full stop or comma between or before digits, at most nine characters.
  std::optional<WrittenNumber> number();
  /// Letters and digits.
  std::string_view token();

 private:
  std::string_view rest_;
};

}  // namespace blankwright
