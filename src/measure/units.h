#pragma once

#include <span>
#include <string>
#include <string_view>

namespace blankwright {

/// What a quantity is a quantity of, as far as text goes. `share` is written in percent.
enum class Kind {
  length,
  volume,
  mass,
  duration,
  force,
  torque,
  stress,
  density,
  angle,
  share,
  rotational_speed,
  volume_flow,
  temperature,
  temperature_change,
  absolute_pressure,
  gauge_pressure
};

/// The kind in words: "length", "span of time".
std::string_view kind_name(Kind kind);

/// The same with its article: "a length", "an angle".
std::string with_article(Kind kind);

/// How a unit is written and what it is worth.
struct UnitName {
  std::string_view written;  ///< as typed, compared without regard to case only where `exact_case` is false
  Kind kind;
  double factor;      ///< SI units in one
  double offset = 0;  ///< SI value at zero of this unit (temperatures)
  bool exact_case = false;
};

/// All units that can be typed. One list: reader, help and schema use it.
std::span<const UnitName> unit_names();

/// An example of a quantity of this kind as it should be typed: "45 mm".
std::string_view example(Kind kind);

/// The unit that is proposed where none was written: "mm"; for a span of time "min".
std::string_view usual_unit(Kind kind);

}  // namespace blankwright
