#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "plan/figure/worked.h"

namespace blankwright {

/// A diameter at a length from the seat.
struct FormPoint {
  Length along, diameter;
};

/// The finished form: a diameter for every length from the seat. Straight from station to station, or monotone smooth
/// (piecewise cubic with Fritsch and Butland's slopes, as Boost's pchip), which never bulges beyond its stations.
class FinishedForm {
 public:
  /// Stations rising from 0 with diameters > 0, at least two; smooth needs four. Otherwise BW_EXPECT.
  FinishedForm(std::vector<FormPoint> stations, bool smooth);

  Length length() const { return stations_.back().along; }
  /// 0 <= along <= length, else the nearest end's.
  Length diameter(Length along) const;
  const std::vector<FormPoint>& stations() const { return stations_; }
  bool smooth() const { return smooth_ != nullptr; }

  /// Lengths at which something that is least or greatest over the form may be so: the stations and, for a smooth
  /// form, a fine division between them.
  const std::vector<Length>& places() const { return places_; }
  /// The stretch from one length to another by places, both ends included.
  std::vector<Length> places_between(Length from, Length to) const;

 private:
  std::vector<FormPoint> stations_;
  std::vector<Length> places_;
  std::shared_ptr<const std::function<double(double)>> smooth_;  ///< metres to metres
};

/// Where `what` is least on the form between two lengths, to a hundredth of a millimetre: over the whole curve, not
/// only at stations. To the tail where no end is named.
Length where_least(const FinishedForm& form, const std::function<double(Length)>& what, Length from = {},
                   std::optional<Length> to = {});

struct FormFigures {
  Length length, largest_diameter;
  Volume volume;
  Area surface;
};

/// Size of the finished form, the bore not taken off. Volume and surface by Gauss' rule of seven points between
/// stations: exact for straight forms. Source: geometry of solids of revolution.
Worked<FormFigures> form_figures(const FinishedForm& form);

}  // namespace blankwright
