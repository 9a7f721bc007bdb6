#pragma once

#include <string>
#include <string_view>

namespace blankwright {

/// What a gate says of a blank.
enum class Verdict {
  goes_on,  ///< nothing stands against it
  waits,    ///< something is missing
  held      ///< something is wrong
};

/// What a gate says, with HOLD before it where something is wrong: nowhere else is that put before words.
std::string with_hold(Verdict verdict, std::string_view words);

}  // namespace blankwright
