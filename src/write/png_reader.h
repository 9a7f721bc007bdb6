#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "read/block.h"

namespace blankwright {

/// The pixels of a PNG file (ISO/IEC 15948) in grey, what is transparent over white; or in words why there are none:
/// not a PNG, damaged, or of more than 2,000 pixels a side.
tl::expected<GreyPixels, std::string> pixels_of_png(std::string_view bytes);

/// A number that tells one file from another one: CRC-32 (RFC 1952).
std::uint32_t fingerprint(std::string_view bytes);

}  // namespace blankwright
