#include "plan/part/size_in_use.h"

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/wood.h"

namespace blankwright {

Traced<Length> size_change(const Traced<Length>& size, const Traced<double>& shrinkage, const Traced<double>& from,
                           const Traced<double>& to) {
  const double most = fibre_saturation / whole;
  BW_EXPECT(shrinkage.value() >= 0 && shrinkage.value() < 1);
  BW_EXPECT(from.value() >= 0 && from.value() <= most && to.value() >= 0 && to.value() <= most);
  const auto saturated = term("fibre saturation", most, "Wood Handbook ch. 4");
  return size * shrinkage * (to - from) / (saturated - shrinkage * (saturated - from));
}

Worked<SizeInUse> size_in_use(const SizeInUseInput& in) {
  BW_EXPECT(in.seat > 0 * mm);
  Worked<SizeInUse> out;
  const auto seat = term("seat", in.seat, "job");
  const auto gain = [&](const char* where, const Given<Share>& moisture) {
    return size_change(seat, term("S0", in.tangential / whole, "tangential shrinkage"),
                       term("moisture when turned", 0.0, "oven-dry"),
                       term(where, moisture.value / whole, origin_text(moisture)));
  };
  out.value.gain_low = out.step(Figure::size_gain_low, gain("moisture at the driest", in.use.driest));
  out.value.gain_high = out.step(Figure::size_gain_high, gain("moisture at the dampest", in.use.dampest));
  const auto most = term("gain at the dampest", out.value.gain_high, "above");
  out.value.turn_to = out.step(
      Figure::size_turn_to, seat / (1_exactly + most / seat) - term("tolerance", in.tolerance, "of the diameters"));
  return out;
}

}  // namespace blankwright
