#include "plan/part/judge_seat.h"

#include <fmt/format.h>

#include <algorithm>

#include "diagnose/problem.h"
#include "plan/figure/judge_words.h"

namespace blankwright {
namespace {

/// A face that the stud goes right through is none.
void judge_part_face(const Order& order, const Shop& shop, Diagnostics& out) {
  const auto& face = order.seat.part_diameter;
  const Given<Thread>& thread = order.stud.thread;
  if (!face || face->value > thread.value.major) return;
  out.error(Problem::keys_disagree, face->at,
            fmt::format("client's face of Ø {} is no larger than the stud of Ø {}", in_units(face->value, shop),
                        in_units(thread.value.major, shop)))
      .label(thread.at, "the stud")
      .hint("leave `part_diameter` out where it is not known");
}

void judge_flat_seat(const SeatFacts& seat, Diagnostics& out) {
  const bool has_diameter = seat.diameter.has_value();
  if (!has_diameter && !seat.height) return;
  out.error(Problem::keys_disagree, has_diameter ? seat.diameter->at : seat.height->at,
            fmt::format("`{}` has no effect on a flat seat", has_diameter ? "diameter" : "height"))
      .hint("form = \"spigot\"  or  form = \"recess\"");
}

bool is_from_file(const Place& place) { return place.source != nullptr; }

/// The seat can only be drier at its driest.
bool judge_use(const UseFacts& use, Diagnostics& out) {
  if (use.driest.value <= use.dampest.value) return true;
  const bool at_driest = is_from_file(use.driest.at);
  auto& said = out.error(
      Problem::keys_disagree, at_driest ? use.driest.at : use.dampest.at,
      fmt::format("`driest` is {}, damper than `dampest`, {}", text(use.driest.value), text(use.dampest.value)));
  said.hint(at_driest ? fmt::format("dampest = \"{:.1f} %\"", rounded(use.driest.value / percent, 0.1, Round::up))
                      : fmt::format("driest = \"{:.1f} %\"", rounded(use.dampest.value / percent, 0.1, Round::down)));
  if (at_driest) said.label(use.dampest.at, "`dampest`");
  return false;
}

}  // namespace

void judge_seat(const Order& order, const Shop& shop, Diagnostics& out) {
  judge_part_face(order, shop, out);
  const SeatFacts& seat = order.seat;
  if (seat.form.value == SeatForm::flat) return judge_flat_seat(seat, out);
  const char* name = seat.form.value == SeatForm::spigot ? "spigot" : "recess";
  if (!seat.diameter) {
    out.error(Problem::missing_key, seat.form.at, fmt::format("`diameter` of the {} is missing", name))
        .hint("diameter = \"20 mm\"");
  }
  if (!seat.height) {
    out.error(Problem::missing_key, seat.form.at, fmt::format("`height` of the {} is missing", name))
        .hint("height = \"3 mm\"");
  }
  const Given<Length>& whole_seat = order.handle.stations.front().diameter;
  if (seat.diameter && !fits(whole_seat.value, seat.diameter->value)) {
    out.error(Problem::keys_disagree, seat.diameter->at,
              fmt::format("{} of Ø {} is larger than the seat of Ø {}", name, in_units(seat.diameter->value, shop),
                          in_units(whole_seat.value, shop)))
        .label(whole_seat.at, "the seat");
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
    out.error(Problem::ferrule_disagrees, inside.at,
              fmt::format("ferrule of Ø {} inside has no wall", in_units(inside.value, shop)))
        .label(ferrule.outside_diameter.at, "its outside");
  } else if (!fits(form.diameter(thinnest), inside.value)) {
    out.error(Problem::ferrule_disagrees, inside.at,
              fmt::format("ferrule of Ø {} inside is loose: at {} from the seat the form is Ø {}",
                          in_units(inside.value, shop), in_units(thinnest, shop),
                          in_units(form.diameter(thinnest), shop)))
        .hint(fmt::format("inside_diameter = \"{}\"", pasted(form.diameter(thinnest), shop)));
  }
  const Length wall = (inside.value - bore) / 2;
  if (!fits(wall, shop.boring.least_wall.value)) {
    out.error(Problem::wall_too_thin, inside.at,
              fmt::format("bore of Ø {} leaves a wall of {} under the ferrule; the shop asks for {}",
                          in_units(bore, shop), in_units(std::max(wall, 0 * mm), shop, Round::down),
                          in_units(shop.boring.least_wall.value, shop)))
        .label(shop.boring.least_wall.at, "asked for here");
  }
}

}  // namespace

void judge_ferrule(const Order& order, const FinishedForm& form, Length bore, const Shop& shop, Diagnostics& out) {
  if (!order.ferrule) return;
  const FerruleFacts& ferrule = *order.ferrule;
  if (!fits(form.length(), ferrule.length.value)) {
    out.error(Problem::ferrule_disagrees, ferrule.length.at,
              fmt::format("ferrule is {} long; the handle is {}", in_units(ferrule.length.value, shop),
                          in_units(form.length(), shop)))
        .label(order.handle.stations.back().along.at, "the handle");
  }
  const Length end = std::min(ferrule.length.value, form.length());
  const Length thickest = where_least(
      form, [&](Length z) { return -(form.diameter(z) / metre); }, 0 * mm, end);
  if (!fits(ferrule.outside_diameter.value, form.diameter(thickest))) {
    out.error(Problem::ferrule_disagrees, ferrule.outside_diameter.at,
              fmt::format("ferrule of Ø {} does not go on: under it, at {} from the seat, the form is Ø {}",
                          in_units(ferrule.outside_diameter.value, shop), in_units(thickest, shop),
                          in_units(form.diameter(thickest), shop)))
        .label(order.handle.stations.front().diameter.at, "the form")
        .hint(fmt::format("outside_diameter = \"{}\"", pasted(form.diameter(thickest), shop)));
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
  auto& said = out.note(Problem::size_in_use_grows, at,
                        fmt::format("seat may grow by {} from oven-dry to {} of moisture in use; its tolerance is {}",
                                    in_units(size.gain_high, shop, Round::up), text(order.use.dampest.value),
                                    in_units(order.handle.tolerance.value, shop)));
  std::string way = "let the blanks take up the moisture of use before they are turned";
  if (size.turn_to > 0 * mm) {
    way += fmt::format(", or turn the seat to {} where it must never stand proud",
                       in_units(size.turn_to, shop, Round::down));
  }
  said.hint(std::move(way));
}

}  // namespace blankwright
