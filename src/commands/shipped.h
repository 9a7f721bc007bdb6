#pragma once

#include <string_view>

namespace blankwright {

/// The bytes of a font or template that is built into the program, by its file name; empty where there is none.
std::string_view shipped(std::string_view name);

}  // namespace blankwright
