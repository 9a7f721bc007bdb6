#include "plan/part/rounded_blank.h"

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"

namespace blankwright {

Worked<RoundedBlank> rounded_blank(const RoundedBlankInput& in) {
  BW_EXPECT(in.held.value >= 0 * mm);
  const auto allowed = term(Term::offset_allowed, in.seat_offset, TermFrom::centring);
  const bool held_is_enough = in.seat_offset > in.held.value;
  const auto marking =
      held_is_enough ? term(Term::offset_held, in.held) : larger(term(Term::nothing, 0 * mm), allowed / 2_exactly);
  Worked<RoundedBlank> out;
  out.value.marking = out.step(Figure::rounded_marking, marking,
                               held_is_enough ? std::nullopt : std::optional{StepNote{Note::truer_than_held}});
  const auto k = term(Term::marking, out.value.marking, TermFrom::above);
  out.value.diameter =
      out.step(Figure::rounded_diameter, term(Term::squared_section, in.squared_section, TermFrom::blank) -
                                             term(Term::section_tolerance, in.section_tolerance) -
                                             2_exactly * term(Term::bow, in.bow) - 2_exactly * k);
  out.value.runout = out.step(Figure::rounded_runout, 2_exactly * (allowed - k));
  return out;
}

}  // namespace blankwright
