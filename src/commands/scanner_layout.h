#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace blankwright {

/// A bare figure as it arrives where a scanner types for a QWERTY keyboard and the machine has an AZERTY one. None
/// where that cannot be: such a layout sends no digit, one sign alone or repeated is a dash, and a unit other than
/// the one that was asked for was none.
std::optional<std::string> from_azerty(std::string_view typed, std::string_view unit);

}  // namespace blankwright
