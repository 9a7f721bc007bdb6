#include "plan/part/rounded_blank.h"

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"

namespace blankwright {

Worked<RoundedBlank> rounded_blank(const RoundedBlankInput& in) {
  BW_EXPECT(in.held.value >= 0 * mm);
  const auto allowed = said("e*", in.seat_offset, "centring");
  const bool held_is_enough = in.seat_offset > in.held.value;
  const auto marking =
      held_is_enough ? said("offset held", in.held) : larger(said("nothing", 0 * mm), allowed / 2_said);
  Worked<RoundedBlank> out;
  out.value.marking = out.step(Figure::rounded_marking, marking,
                               held_is_enough ? std::nullopt : std::optional{StepNote{Note::truer_than_held}});
  const auto k = said("k", out.value.marking, "above");
  out.value.diameter = out.step(Figure::rounded_diameter, said("squared section", in.squared_section, "blank") -
                                                              said("section tolerance", in.section_tolerance) -
                                                              2_said * said("bow", in.bow) - 2_said * k);
  out.value.runout = out.step(Figure::rounded_runout, 2_said * (allowed - k));
  return out;
}

}  // namespace blankwright
