#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace blankwright {

/// What people write who do not know our words yet, and what they mean by it, as far as that is among those known:
/// "customer" is `client`, "rotten" is "punky". Else the names written most alike, best first, at most two.
std::vector<std::string> names_meant(std::string_view typed, const std::vector<std::string>& known);

/// A quantity without what drawings write before and behind it: of "Ø 18 mm" and "18 mm ±0.3" the 18 mm. None where
/// there is nothing of that kind.
struct DrawnQuantity {
  std::string quantity;
  std::string tolerance;  ///< "0.3", or with its unit "0.3 mm"; empty where none was said
};
std::optional<DrawnQuantity> as_on_a_drawing(std::string_view typed);

/// Of "8-12" and "8.30 - 12" the stretch of hours as our files have it, "08:00-12:00"; none where it is none.
std::optional<std::string> hours_meant(std::string_view typed);

}  // namespace blankwright
