#include "plan/part/judge_seat.h"

#include <algorithm>

#include "diagnose/problem.h"
#include "diagnose/says_part.h"
#include "plan/figure/judge_words.h"

namespace blankwright {
namespace {

/// A face that the stud goes right through is none.
void judge_part_face(const Order& order, const Shop& shop, Diagnostics& out) {
  const auto& face = order.seat.part_diameter;
  const Given<Thread>& thread = order.stud.thread;
  if (!face || face->value > thread.value.major) return;
  out.error(Problem::keys_disagree, face->at, says::face_no_larger_than_stud, measured(face->value, shop),
            measured(thread.value.major, shop))
      .label(thread.at, says::the_stud)
      .hint(says::leave_part_diameter_out);
}

void judge_flat_seat(const SeatFacts& seat, Diagnostics& out) {
  const bool has_diameter = seat.diameter.has_value();
  if (!has_diameter && !seat.height) return;
  out.error(Problem::keys_disagree, has_diameter ? seat.diameter->at : seat.height->at, says::no_effect_on_flat_seat,
            Keyword{has_diameter ? "diameter" : "height"})
      .hint(says::spigot_or_recess);
}

bool is_from_file(const Place& place) { return place.source != nullptr; }

/// The seat can only be drier at its driest.
bool judge_use(const UseFacts& use, Diagnostics& out) {
  if (use.driest.value <= use.dampest.value) return true;
  const bool at_driest = is_from_file(use.driest.at);
  auto& said = out.error(Problem::keys_disagree, at_driest ? use.driest.at : use.dampest.at, says::driest_is_damper,
                         printed(use.driest.value), printed(use.dampest.value));
  said.hint(at_driest ? say(says::assigned, Keyword{"dampest"}, printed(use.driest.value, Round::up))
                      : say(says::assigned, Keyword{"driest"}, printed(use.dampest.value, Round::down)));
  if (at_driest) said.label(use.dampest.at, says::the_dampest);
  return false;
}

}  // namespace

void judge_seat(const Order& order, const Shop& shop, Diagnostics& out) {
  judge_part_face(order, shop, out);
  const SeatFacts& seat = order.seat;
  if (seat.form.value == SeatForm::flat) return judge_flat_seat(seat, out);
  const Keyword form{seat.form.value == SeatForm::spigot ? "spigot" : "recess"};
  if (!seat.diameter) {
    out.error(Problem::missing_key, seat.form.at, says::diameter_missing, form).hint(says::such_as_seat_diameter);
  }
  if (!seat.height) {
    out.error(Problem::missing_key, seat.form.at, says::height_missing, form).hint(says::such_as_seat_height);
  }
  const Given<Length>& whole_seat = order.handle.stations.front().diameter;
  if (seat.diameter && !fits(whole_seat.value, seat.diameter->value)) {
    out.error(Problem::keys_disagree, seat.diameter->at, says::larger_than_seat, form,
              measured(seat.diameter->value, shop), measured(whole_seat.value, shop))
        .label(whole_seat.at, says::the_seat);
  }
}

namespace {

/// The wood under the ferrule: inside it, within the form, and thick enough round the bore.
void judge_wood_under(const FerruleFacts& ferrule, const FinishedForm& form, Length bore, const Shop& shop,
                      Diagnostics& out) {
  if (!ferrule.inside_diameter) return;
  const Given<Length>& inside = *ferrule.inside_diameter;
  const Length thinnest = where_least(
      form, [&](Length z) { return form.diameter(z) / metre; }, 0 * mm,
      std::min(ferrule.length.value, form.length()));
  if (!(inside.value < ferrule.outside_diameter.value)) {
    out.error(Problem::ferrule_disagrees, inside.at, says::ferrule_without_wall, measured(inside.value, shop))
        .label(ferrule.outside_diameter.at, says::its_outside);
  } else if (!fits(form.diameter(thinnest), inside.value)) {
    out.error(Problem::ferrule_disagrees, inside.at, says::ferrule_loose, measured(inside.value, shop),
              measured(thinnest, shop), measured(form.diameter(thinnest), shop))
        .hint(says::assigned, Keyword{"inside_diameter"}, pasted(form.diameter(thinnest), shop));
  }
  const Length wall = (inside.value - bore) / 2;
  if (!fits(wall, shop.boring.least_wall.value)) {
    out.error(Problem::wall_too_thin, inside.at, says::wall_under_ferrule, measured(bore, shop),
              measured(std::max(wall, 0 * mm), shop, Round::down), measured(shop.boring.least_wall.value, shop))
        .label(shop.boring.least_wall.at, says::asked_for_here);
  }
}

}  // namespace

void judge_ferrule(const Order& order, const FinishedForm& form, Length bore, const Shop& shop, Diagnostics& out) {
  if (!order.ferrule) return;
  const FerruleFacts& ferrule = *order.ferrule;
  if (!fits(form.length(), ferrule.length.value)) {
    out.error(Problem::ferrule_disagrees, ferrule.length.at, says::ferrule_too_long,
              measured(ferrule.length.value, shop), measured(form.length(), shop))
        .label(order.handle.stations.back().along.at, says::the_handle);
  }
  const Length end = std::min(ferrule.length.value, form.length());
  const Length thickest = where_least(
      form, [&](Length z) { return -(form.diameter(z) / metre); }, 0 * mm, end);
  if (!fits(ferrule.outside_diameter.value, form.diameter(thickest))) {
    out.error(Problem::ferrule_disagrees, ferrule.outside_diameter.at, says::ferrule_too_tight,
              measured(ferrule.outside_diameter.value, shop), measured(thickest, shop),
              measured(form.diameter(thickest), shop))
        .label(order.handle.stations.front().diameter.at, says::the_form)
        .hint(says::assigned, Keyword{"outside_diameter"}, pasted(form.diameter(thickest), shop));
  }
  judge_wood_under(ferrule, form, bore, shop, out);
}

bool seat_outgrows(const SizeInUse& size, const Order& order) {
  const bool told = is_from_file(order.use.driest.at) || is_from_file(order.use.dampest.at);
  return told && !fits(order.handle.tolerance.value, size.gain_high);
}

void judge_size_in_use(const SizeInUse& size, const Order& order, const Shop& shop, Diagnostics& out) {
  if (!judge_use(order.use, out) || !seat_outgrows(size, order)) return;
  const Given<Length>& seat = order.handle.stations.front().diameter;
  const Place at = is_from_file(order.use.dampest.at) ? order.use.dampest.at : seat.at;
  out.note(Problem::size_in_use_grows, at, says::seat_may_grow, measured(size.gain_high, shop, Round::up),
           printed(order.use.dampest.value), measured(order.handle.tolerance.value, shop))
      .hint(size.turn_to > 0 * mm ? say(says::let_moisture_in_or_turn, measured(size.turn_to, shop, Round::down))
                                  : say(says::let_moisture_in));
}

}  // namespace blankwright
