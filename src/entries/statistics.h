#pragma once

#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <vector>

#include "entries/fate.h"

namespace blankwright {

/// What a plan takes for a shop's yield.
struct YieldCounted {
  int good = 0, lost = 0;
  std::set<std::string> not_through;  ///< orders of which no blank counts yet
  int ended() const { return good + lost; }
};

/// Counts blanks of orders that are through: those with as many good blanks as the client wanted, or with none that
/// is to be sawn or in work. Of the others none counts, since scrap shows before success and would be counted alone.
/// In an order that is through, what was left over cured or later is good. Witnesses are no pieces and count nowhere.
/// `wanted`: pieces by order; one that is missing is through when nothing of it is in work.
YieldCounted yield_counted(std::span<const KnownBlank> blanks, const std::map<std::string, int>& wanted);

/// A sample of at least two values.
struct Spread {
  int n = 0;
  double mean = 0, deviation = 0;  ///< of the sample, with n − 1
  double least = 0, most = 0;
};
std::optional<Spread> spread_of(std::span<const double> values);

/// Gain in mass on the dry mass, wet and cured, of one kind of wood.
struct UptakeSeen {
  std::string species, condition;
  std::optional<Spread> wet, cured;
};
/// By species and condition, in their order; kinds of wood with nothing to tell are left out.
std::vector<UptakeSeen> uptake_seen(std::span<const KnownBlank> blanks);

/// How a shop's bores lie.
struct AxisSpread {
  int n = 0;              ///< blanks whose axis was measured, >= 2
  Length mean_1, mean_2;  ///< offset at the seat, towards face 1 and face 2
  double mean_slope_1 = 0, mean_slope_2 = 0;
  bool fence_off = false;  ///< the mean offset is more than chance would give: the fence is off
  bool table_off = false;  ///< the same of the slope: the table is not square to the spindle
  Length offset_95;        ///< the next bore's offset stays within with 95 of 100
  double tilt_95 = 0;      ///< the same of its slope
};

/// Offset and slope are each taken as two normal parts of one sigma about zero, so that a fence that is off counts as
/// spread. With sigma² = Σ r²/2n the next r²/2 sigma² follows F(2, 2n), which has the closed form
///   r(95 %) = sigma √(2 n (0.05^(−1/n) − 1)),   for many n sigma · 2.4477.
/// A mean is more than chance where n |mean|² > 2 s² · F(95 %; 2, 2n − 2), s² about the mean (Hotelling's test for
/// one sigma in both directions). None below two.
std::optional<AxisSpread> axis_spread(std::span<const KnownBlank> blanks);

/// Forces at which studs were pulled.
struct PulledSeen {
  int n = 0;
  Force least, mean;
};
std::optional<PulledSeen> pulled_seen(std::span<const KnownBlank> blanks);

}  // namespace blankwright
