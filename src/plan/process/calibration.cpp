#include "plan/process/cure.h"

namespace blankwright {

std::optional<Temperature> dial_for(const std::vector<CalibrationPair>& calibration, Temperature wanted) {
  if (calibration.empty() || wanted < calibration.front().shown.value || wanted > calibration.back().shown.value) {
    return std::nullopt;
  }
  std::size_t upper = 0;
  while (calibration.at(upper).shown.value < wanted) ++upper;
  const CalibrationPair& above = calibration.at(upper);
  if (above.shown.value == wanted) return above.dial.value;
  const CalibrationPair& below = calibration.at(upper - 1);
  const double part = (wanted - below.shown.value) / (above.shown.value - below.shown.value);
  return below.dial.value + part * (above.dial.value - below.dial.value);
}

}  // namespace blankwright
