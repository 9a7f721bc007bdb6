#pragma once

namespace blankwright {

/// Of ASCII, whatever the language of the machine.
constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace blankwright
