#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "measure/quantity.h"
#include "measure/quantity_text.h"

namespace blankwright {

/// A drill as its size is stamped on the shank.
struct Drill {
  Amount stamped;  ///< "#7", "F", "5/16", "1 in", "0.257 in", "8.5 mm"
  Length diameter;
  std::string name() const { return text(stamped); }
};

/// Every published size, rising in diameter: what a shop can buy.
/// Inches: numbers #80 to #1 and letters A to Z (ANSI/ASME B94.11M), and sixty-fourths from 1/64 to 1-1/2 in.
/// Metric: jobber drills of ISO 235, by 0.05 mm from 0.3 to 3, by 0.1 to 14, by 0.25 to 32 mm (steps from memory).
std::vector<Drill> published_drills(UnitSystem system);

/// What a shop is taken to own that lists no drills. Common practice, no source: by 0.5 mm from 3 to 20 mm with the
/// tap drills of M4 to M12; or by 1/64 in to 1/2 in and by 1/16 in to 1 in, with the tap drills of #8 to 7/16.
/// Rising in diameter.
std::vector<Drill> standard_drills(UnitSystem system);

/// Reads a drill from a shop's list: `#7`, `F`, `5/16`, `5/16 in`, `1-1/8 in`, `8.5 mm`. A fraction is of an inch.
/// Any diameter from 0.3 mm to 80 mm is taken, published or not. The error says how to write it: a bare `8.5` could
/// be millimetres or inches, a bare `10` also the number size.
tl::expected<Drill, std::string> read_drill(std::string_view text);

}  // namespace blankwright
