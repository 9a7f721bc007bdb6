#pragma once

#include <string_view>

namespace blankwright {

/// The bytes of a font, a template or a part of the register's page that is built into the program, by its file name;
/// empty where there is none.
std::string_view shipped(std::string_view name);

}  // namespace blankwright
