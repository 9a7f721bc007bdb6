#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace blankwright {

/// How much time compressing may take: `quick` for what is made by the thousand.
enum class Deflate { quick, thorough };

/// The bytes in zlib's format (RFC 1950), which a PDF reader knows as FlateDecode.
std::string deflated(std::string_view bytes, Deflate effort);
/// The bytes back, which have to be `size`; none where they are damaged.
std::optional<std::string> inflated(std::string_view bytes, std::size_t size);

}  // namespace blankwright
