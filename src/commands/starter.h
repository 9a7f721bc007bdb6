#pragma once

#include <string>
#include <string_view>

namespace blankwright {

/// What a shop says of itself before it has a shop file.
struct Starter {
  bool inch = false;     ///< inches, pounds and Fahrenheit instead of millimetres, grams and Celsius
  bool letter = false;   ///< paper Letter instead of A4
  bool treated = false;  ///< it draws resin into wood
  std::string name;      ///< of the shop
  std::string zone;      ///< IANA name
};

/// Makes a file to fill in of a text that has it for all shops: `<45 mm|1-3/4 in>` is the first or the second by the
/// units, `<NAME>`, `<ZONE>` and `<TEMPLATE>` stand for what the shop said, and lines from `#+ treated` or
/// `#+ untreated` to `#-` stand in the files of such a shop alone.
std::string filled_in(std::string_view text, const Starter& starter);

}  // namespace blankwright
