#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace blankwright {

/// Why a text cannot be taken.
enum class TextFaultKind {
  not_utf8,               ///< not a well-formed byte sequence (Unicode Standard, table 3-7)
  control_character,      ///< general category Cc: tab, newline where none may stand, escape …
  loose_combining_mark,   ///< a mark that no letter of the text can be composed with
  right_to_left,          ///< a letter, digit or control of right-to-left writing
  unsupported_character,  ///< the fonts lack it
};

struct TextFault {
  TextFaultKind kind;
  char32_t code_point = 0;  ///< of the fault; for not_utf8 the offending byte
  std::size_t offset = 0;   ///< bytes from the beginning of the text as it was given
};

/// Whether a text may have several lines, parted by U+000A.
enum class Lines { one, several };

/// The text in canonical composition (NFC, Unicode Standard Annex 15), made of supported characters only; or the
/// first thing that is wrong with it. "e" and a combining acute come out as "é", the ohm sign as the Greek omega.
tl::expected<std::string, TextFault> normalised(std::string_view given, Lines lines = Lines::one);

/// The offset of the first byte that does not belong to UTF-8, if there is one.
std::optional<std::size_t> invalid_utf8_at(std::string_view bytes);

/// What is wrong, as the tail of a message: "character U+0416 'Ж' is not among those that can be printed". A
/// character that would upset a terminal or attach itself to its neighbours is named by its number only.
std::string in_words(const TextFault& fault);

/// The code points of a text. Bytes that are not UTF-8 become U+FFFD, one for each byte.
std::u32string code_points(std::string_view utf8);

/// How many code points the text has; bytes that are not UTF-8 count one each. (Columns in messages.)
std::size_t code_point_count(std::string_view utf8);

/// The code point in UTF-8; a value that is none (a surrogate, beyond U+10FFFF) becomes U+FFFD.
std::string to_utf8(char32_t code_point);

/// Whether the code point is a small letter of any alphabet (Unicode's category Ll).
bool is_small_letter(char32_t code_point);

/// A to Z become a to z; every other byte stays.
std::string ascii_lower(std::string_view text);

}  // namespace blankwright
