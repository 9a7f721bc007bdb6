#include "plan/part/blank_size.h"

#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/wood.h"

namespace blankwright {
namespace {

Traced<double> share_term(const std::string& name, Share share, std::string origin) {
  return term(name, share / whole, std::move(origin));
}

/// 1 − (1 − S0)/(1 − S0 (30 − M)/30) as it is printed; the value is that of the wood table's function.
Traced<double> shrinkage(const BlankSizeInput& in) {
  const Share capped = std::min(in.moisture.value, fibre_saturation);
  const auto s0 = share_term("S0 tangential", in.tangential, "species table");
  const auto m = share_term("moisture", capped, origin_text(in.moisture));
  const auto saturation = share_term("30 %", fibre_saturation, "Wood Handbook, fibre saturation");
  return 1_exactly - (1_exactly - s0) / (1_exactly - s0 * (saturation - m) / saturation);
}

Traced<double> lengthwise(const BlankSizeInput& in) {
  if (in.end_grain_all_round) {
    return share_term("S lengthwise", shrinkage_to_dry(in.tangential, in.moisture.value),
                      "burl, as across; common practice, no source");
  }
  return share_term("S lengthwise", shrinkage_to_dry(longitudinal_shrinkage, in.moisture.value),
                    "Wood Handbook ch. 4");
}

/// Sizes carried down from the sawn ones, so that everything later uses the sizes that really result.
void carry_down(const BlankSizeInput& in, const Traced<Length>& sawn_section, const Traced<Length>& sawn_length,
                const Traced<double>& s, Worked<BlankSize>& out) {
  const auto planing = term("planing", in.allowances.planing);
  const auto dry = (sawn_section - planing) * (1_exactly - s);
  out.value.dry_section = out.step(Figure::blank_dry_section, dry, StepNote{Note::from_sawn_section});
  const auto squared_section = term("dry section", dry.value(), "above") - term("squaring", in.allowances.squaring);
  out.value.squared_section = out.step(Figure::blank_squared_section, squared_section);
  const auto dry_length = sawn_length * (1_exactly - lengthwise(in));
  out.value.dry_length = out.step(Figure::blank_dry_length, dry_length, StepNote{Note::from_sawn_length});
  const auto squared_length =
      term("dry length", dry_length.value(), "above") - term("end squaring", in.allowances.end_squaring);
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
  const auto shrinks = term("S", s.value(), "above");

  const Length z =
      where_least(in.form, [&](Length at) { return -((in.form.diameter(at) + 2 * in.axis.tilt * at) / metre); });
  const auto needed = term("D", in.form.diameter(z), "form at the place that governs") +
                      2_exactly * term("finish", a.finish) + 2_exactly * term("bow", a.bow) +
                      2_exactly * (term("e", in.axis.offset, "axis error") +
                                   term("z", z, "place that governs") * term("t", in.axis.tilt, "axis error")) +
                      term("section tolerance", a.section_tolerance);
  const auto wanted = (needed + term("squaring", a.squaring)) / (1_exactly - shrinks) + term("planing", a.planing);
  const auto sawn = phrase("rounded up to the saw's increment",
                           up_to_increment(wanted.value(), a.saw_increment.value), {wanted.expression()});
  out.value.sawn_section =
      out.step(Figure::blank_sawn_section, sawn, StepNote{Note::saw_increment, a.saw_increment.value});

  const auto squared_length =
      term("handle", in.form.length(), "job") + term("seat facing", a.seat_facing) + term("tail waste", a.tail_waste);
  const auto wanted_length = (squared_length + term("end squaring", a.end_squaring)) / (1_exactly - lengthwise(in));
  const auto sawn_length =
      phrase("rounded up to the saw's increment", up_to_increment(wanted_length.value(), a.saw_increment.value),
             {wanted_length.expression()});
  out.value.sawn_length =
      out.step(Figure::blank_sawn_length, sawn_length, StepNote{Note::saw_increment, a.saw_increment.value});

  carry_down(in, term("sawn section", sawn.value(), "above"), term("sawn length", sawn_length.value(), "above"),
             shrinks, out);
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
    out.value.sawn_section = out.step(Figure::blank_sawn_section, term("section given", section));
    out.value.sawn_length = out.step(Figure::blank_sawn_length, term("length given", length));
    carry_down(in, term("section given", section), term("length given", length), term("S", s.value(), "above"), out);
    return out;
  }
  if (state == SectionState::dry) {
    out.value.dry_section = out.step(Figure::blank_dry_section, term("section given", section));
    out.value.squared_section = out.step(Figure::blank_squared_section,
                                         term("section given", section) - term("squaring", in.allowances.squaring));
    out.value.dry_length = out.step(Figure::blank_dry_length, term("length given", length));
    out.value.squared_length =
        out.step(Figure::blank_squared_length,
                 term("length given", length) - term("end squaring", in.allowances.end_squaring));
    return out;
  }
  out.value.squared_section = out.step(Figure::blank_squared_section, term("section given", section));
  out.value.squared_length = out.step(Figure::blank_squared_length, term("length given", length));
  return out;
}

}  // namespace blankwright
