#pragma once

#include <string>
#include <string_view>

namespace blankwright {

/// Text from outside as it may go to a terminal: a tab is a space, and what steers a terminal is a question mark, as
/// are the marks that turn the direction of writing (Unicode Standard Annex 9, section 2) or part lines, and bytes
/// that are not UTF-8 are U+FFFD. A column a character.
std::string harmless(std::string_view text);
std::string harmless(std::u32string_view text);

}  // namespace blankwright
