#pragma once

#include <cstdint>
#include <string>

namespace blankwright {

constexpr std::int64_t newest_format = 6;

/// Throws WorldError where a register's format is none that this program knows.
void check_format(const std::string& name, std::int64_t format);

}  // namespace blankwright
