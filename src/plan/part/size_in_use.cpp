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
  const auto saturated = term(Term::saturation, most, TermFrom::wood_handbook_ch_4);
  return size * shrinkage * (to - from) / (saturated - shrinkage * (saturated - from));
}

Worked<SizeInUse> size_in_use(const SizeInUseInput& in) {
  BW_EXPECT(in.seat > 0 * mm);
  Worked<SizeInUse> out;
  const auto seat = term(Term::seat, in.seat, TermFrom::job);
  const auto gain = [&](Term where, const Given<Share>& moisture) {
    return size_change(seat, term(Term::shrinkage_to_dry, in.tangential / whole, TermFrom::tangential_shrinkage),
                       term(Term::moisture_when_turned, 0.0, TermFrom::oven_dry),
                       term(where, moisture.value / whole, origin_of(moisture)));
  };
  out.value.gain_low = out.step(Figure::size_gain_low, gain(Term::moisture_at_the_driest, in.use.driest));
  out.value.gain_high = out.step(Figure::size_gain_high, gain(Term::moisture_at_the_dampest, in.use.dampest));
  const auto most = term(Term::gain_at_the_dampest, out.value.gain_high, TermFrom::above);
  out.value.turn_to =
      out.step(Figure::size_turn_to,
               seat / (1_exactly + most / seat) - term(Term::tolerance, in.tolerance, TermFrom::of_the_diameters));
  return out;
}

}  // namespace blankwright
