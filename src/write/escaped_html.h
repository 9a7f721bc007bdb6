#pragma once

#include <string>
#include <string_view>

namespace blankwright {

/// Text within an element, or an attribute in double quotes, of HTML.
std::string escaped_html(std::string_view text);

}  // namespace blankwright
