#pragma once

#include "measure/quantity.h"

namespace blankwright {

inline double pascals(AbsolutePressure p) { return (p - AbsolutePressure{}) / pascal; }
inline AbsolutePressure absolute(Stress p) { return AbsolutePressure::above_zero(p); }

}  // namespace blankwright
