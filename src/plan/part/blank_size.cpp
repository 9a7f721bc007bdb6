#include "plan/part/blank_size.h"

#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/wood.h"

namespace blankwright {
namespace {

Traced<double> share_term(Term name, Share share, TermSource origin) {
  return term(name, share / whole, std::move(origin));
}

/// 1 − (1 − S0)/(1 − S0 (30 − M)/30) as it is printed; the value is that of the wood table's function.
Traced<double> shrinkage(const BlankSizeInput& in) {
  const Share capped = std::min(in.moisture.value, fibre_saturation);
  const auto s0 = share_term(Term::shrinkage_tangential, in.tangential, TermFrom::species_table);
  const auto m = share_term(Term::moisture, capped, origin_of(in.moisture));
  const auto saturation = share_term(Term::thirty_percent, fibre_saturation, TermFrom::wood_handbook_saturation);
  return 1_exactly - (1_exactly - s0) / (1_exactly - s0 * (saturation - m) / saturation);
}

Traced<double> lengthwise(const BlankSizeInput& in) {
  if (in.end_grain_all_round) {
    return share_term(Term::shrinkage_lengthwise, shrinkage_to_dry(in.tangential, in.moisture.value),
                      TermFrom::burl_as_across);
  }
  return share_term(Term::shrinkage_lengthwise, shrinkage_to_dry(longitudinal_shrinkage, in.moisture.value),
                    TermFrom::wood_handbook_ch_4);
}

/// Sizes carried down from the sawn ones, so that everything later uses the sizes that really result.
void carry_down(const BlankSizeInput& in, const Traced<Length>& sawn_section, const Traced<Length>& sawn_length,
                const Traced<double>& s, Worked<BlankSize>& out) {
  const auto planing = term(Term::planing, in.allowances.planing);
  const auto dry = (sawn_section - planing) * (1_exactly - s);
  out.value.dry_section = out.step(Figure::blank_dry_section, dry, StepNote{Note::from_sawn_section});
  const auto squared_section =
      term(Term::dry_section, dry.value(), TermFrom::above) - term(Term::squaring, in.allowances.squaring);
  out.value.squared_section = out.step(Figure::blank_squared_section, squared_section);
  const auto dry_length = sawn_length * (1_exactly - lengthwise(in));
  out.value.dry_length = out.step(Figure::blank_dry_length, dry_length, StepNote{Note::from_sawn_length});
  const auto squared_length = term(Term::dry_length, dry_length.value(), TermFrom::above) -
                              term(Term::end_squaring, in.allowances.end_squaring);
  out.value.squared_length = out.step(Figure::blank_squared_length, squared_length);
}

Length up_to_increment(Length wanted, Length increment) {
  return rounded(wanted / increment, 1, Round::up) * increment;
}

}  // namespace

AllowanceFacts allowances_for(const Order& order, const Shop& shop) {
  AllowanceFacts a = shop.allowances;
  if (order.seat.form.value == SeatForm::spigot && order.seat.height) {
    a.seat_facing.value = a.seat_facing.value + order.seat.height->value;
  }
  return a;
}

Worked<BlankSize> blank_size(const BlankSizeInput& in) {
  const AllowanceFacts& a = in.allowances;
  Worked<BlankSize> out;
  const auto s = shrinkage(in);
  out.value.shrinkage = out.step(Figure::blank_shrinkage, s) * whole;
  const auto shrinks = term(Term::shrinkage, s.value(), TermFrom::above);

  const Length z =
      where_least(in.form, [&](Length at) { return -((in.form.diameter(at) + 2 * in.axis.tilt * at) / metre); });
  const auto needed = term(Term::form_diameter, in.form.diameter(z), TermFrom::form_at_the_place_that_governs) +
                      2_exactly * term(Term::finish, a.finish) + 2_exactly * term(Term::bow, a.bow) +
                      2_exactly * (term(Term::axis_offset, in.axis.offset, TermFrom::axis_error) +
                                   term(Term::place, z, TermFrom::place_that_governs) *
                                       term(Term::axis_tilt, in.axis.tilt, TermFrom::axis_error)) +
                      term(Term::section_tolerance, a.section_tolerance);
  const auto wanted =
      (needed + term(Term::squaring, a.squaring)) / (1_exactly - shrinks) + term(Term::planing, a.planing);
  const auto sawn = phrase(Term::rounded_up_to_the_saw_increment,
                           up_to_increment(wanted.value(), a.saw_increment.value), {wanted.expression()});
  out.value.sawn_section =
      out.step(Figure::blank_sawn_section, sawn, StepNote{Note::saw_increment, a.saw_increment.value});

  const auto squared_length = term(Term::handle, in.form.length(), TermFrom::job) +
                              term(Term::seat_facing, a.seat_facing) + term(Term::tail_waste, a.tail_waste);
  const auto wanted_length =
      (squared_length + term(Term::end_squaring, a.end_squaring)) / (1_exactly - lengthwise(in));
  const auto sawn_length =
      phrase(Term::rounded_up_to_the_saw_increment, up_to_increment(wanted_length.value(), a.saw_increment.value),
             {wanted_length.expression()});
  out.value.sawn_length =
      out.step(Figure::blank_sawn_length, sawn_length, StepNote{Note::saw_increment, a.saw_increment.value});

  carry_down(in, term(Term::sawn_section, sawn.value(), TermFrom::above),
             term(Term::sawn_length, sawn_length.value(), TermFrom::above), shrinks, out);
  return out;
}

Worked<BlankSize> given_blank_size(const BlankSizeInput& in, const BlankFacts& blank) {
  const SectionState state = blank.state.value;
  const Given<Length>& section = blank.section;
  const Given<Length>& length = blank.length;
  Worked<BlankSize> out;
  const auto s = shrinkage(in);
  if (state == SectionState::sawn) {
    out.value.shrinkage = out.step(Figure::blank_shrinkage, s) * whole;
    out.value.sawn_section = out.step(Figure::blank_sawn_section, term(Term::section_given, section));
    out.value.sawn_length = out.step(Figure::blank_sawn_length, term(Term::length_given, length));
    carry_down(in, term(Term::section_given, section), term(Term::length_given, length),
               term(Term::shrinkage, s.value(), TermFrom::above), out);
    return out;
  }
  if (state == SectionState::dry) {
    out.value.dry_section = out.step(Figure::blank_dry_section, term(Term::section_given, section));
    out.value.squared_section =
        out.step(Figure::blank_squared_section,
                 term(Term::section_given, section) - term(Term::squaring, in.allowances.squaring));
    out.value.dry_length = out.step(Figure::blank_dry_length, term(Term::length_given, length));
    out.value.squared_length =
        out.step(Figure::blank_squared_length,
                 term(Term::length_given, length) - term(Term::end_squaring, in.allowances.end_squaring));
    return out;
  }
  out.value.squared_section = out.step(Figure::blank_squared_section, term(Term::section_given, section));
  out.value.squared_length = out.step(Figure::blank_squared_length, term(Term::length_given, length));
  return out;
}

}  // namespace blankwright
