#include "plan/part/judge.h"

#include <algorithm>

#include "diagnose/problem.h"
#include "diagnose/says_part.h"
#include "plan/figure/judge_words.h"
#include "plan/part/judge_stud.h"
#include "plan/tables/drills.h"
#include "plan/tables/threads.h"

namespace blankwright {
namespace {

std::optional<Drill> given_drill(const Given<Drill>& drill, const Order& order, const Shop& shop, Diagnostics& out) {
  const Thread& thread = order.stud.thread.value;
  if (order.bore.fit.value == BoreFit::glued) {
    const Length least = glued_bore_least(thread, shop.glue.line.value);
    if (drill.value.diameter >= least - drill_slack) return drill.value;
    out.error(Problem::drill_too_small, drill.at, says::drill_below_glue_line, drill.value.name(),
              measured(shop.glue.line.value, shop), measured(thread.major, shop), measured(least, shop, Round::up))
        .label(order.stud.thread.at, says::the_stud);
    return std::nullopt;
  }
  const ThreadLimits limits = thread_limits(thread);
  if (is_tap_hole(thread, drill.value.diameter)) return drill.value;
  out.error(Problem::hole_outside_thread_limits, drill.at, says::drill_outside_thread, drill.value.name(),
            measured(drill.value.diameter, shop), thread.designation,
            measured(limits.hole_minor_least, shop, Round::up), measured(limits.hole_minor_most, shop, Round::down))
      .label(order.stud.thread.at, says::the_thread);
  return std::nullopt;
}

std::vector<Drill> owned_drills(const Shop& shop) {
  if (shop.boring.drills.empty()) return standard_drills(shop.units.value);
  std::vector<Drill> owned;
  for (const Given<Drill>& drill : shop.boring.drills) owned.push_back(drill.value);
  return owned;
}

}  // namespace

std::optional<Drill> judge_drill(const Order& order, const Shop& shop, Diagnostics& out) {
  if (order.bore.drill) return given_drill(*order.bore.drill, order, shop, out);
  const Thread& thread = order.stud.thread.value;
  const auto owned = owned_drills(shop);
  const bool glued = order.bore.fit.value == BoreFit::glued;
  const Length least = glued_bore_least(thread, shop.glue.line.value);
  const auto chosen = glued ? next_drill_up(owned, least) : tap_drill_among(owned, thread);
  if (chosen) return chosen;
  const ThreadLimits limits = thread_limits(thread);
  out.error(Problem::drill_missing, order.stud.thread.at,
            glued ? say(says::no_drill_to_glue, measured(least, shop, Round::up), thread.designation)
                  : say(says::no_drill_to_tap, measured(limits.hole_minor_least, shop, Round::up),
                        measured(limits.hole_minor_most, shop, Round::down), thread.designation))
      .hint(says::add_a_drill);
  return std::nullopt;
}

namespace {

/// A length that the order wants may be less than the shop holds to.
void judge_embedded(const Stud& stud, const Order& order, const Shop& shop, Diagnostics& out) {
  const Length least = shop.glue.least_embedded.value / whole * order.stud.thread.value.major;
  if (!fits(stud.embedded, least)) {
    out.warning(Problem::stud_too_short, order.stud.embedded->at, says::stud_sits_short,
                measured(stud.embedded, shop), decimal(shop.glue.least_embedded.value / whole, 1),
                measured(least, shop, Round::up))
        .label(shop.glue.least_embedded.at, says::asked_for_here)
        .hint(says::embed_or_leave_out, pasted(least, shop));
  }
}

/// Of the stations on either side of a place the one that makes the handle thin there.
const Station& thin_station(const HandleFacts& handle, Length place) {
  const auto& stations = handle.stations;
  for (std::size_t i = 1; i < stations.size(); ++i) {
    if (stations.at(i).along.value < place) continue;
    const bool before_is_thinner = stations.at(i - 1).diameter.value <= stations.at(i).diameter.value;
    return stations.at(before_is_thinner ? i - 1 : i);
  }
  return stations.front();
}

}  // namespace

void judge_stud(const Stud& stud, const Order& order, const Shop& shop, Diagnostics& out) {
  if (stud.bottom_clearance && *stud.bottom_clearance <= 0 * mm) {
    out.error(Problem::head_hole_too_shallow, order.stud.enters.at, says::stud_bottoms,
              measured(order.stud.enters.value, shop), measured(order.stud.hole_depth->value, shop))
        .label(order.stud.hole_depth->at, says::the_hole);
  }
  if (!order.stud.pull) return judge_embedded(stud, order, shop, out);
  if (!stud.bond_capacity) {
    out.warning(Problem::pull_not_judged, order.stud.pull->at, says::tapped_pull_unknown)
        .label(order.bore.fit.at, says::tapped)
        .hint(says::pull_a_witness);
    return;
  }
  const Force pull = order.stud.pull->value;
  const Force allowed = *stud.bond_capacity / shop.glue.safety_factor.value;
  if (pull > allowed * (1 + 1e-6)) {  // what rounding up to a step may have left off
    out.error(Problem::stud_pulls_out, order.stud.pull->at, says::bond_pulls_out, measured(stud.embedded, shop),
              printed(allowed, shop.units.value, Round::down), shop.glue.safety_factor.value,
              printed(pull, shop.units.value))
        .label(order.stud.embedded ? order.stud.embedded->at : Place{}, says::the_length_in_wood)
        .hint(says::leave_embedded_out);
    return;
  }
  judge_embedded(stud, order, shop, out);
  if (!stud.bond_measured) say_untested(order.stud.pull->at, shop, out);
}

bool judge_bore(const BoreToJudge& bore, const Order& order, const Shop& shop, Diagnostics& out) {
  const Station& tail = order.handle.stations.back();
  if (bore.depth.tip >= bore.form.length()) {
    out.error(Problem::handle_too_short_for_stud, tail.along.at, says::bore_deeper_than_handle,
              measured(bore.depth.tip, shop, Round::up), measured(bore.form.length(), shop))
        .label(order.stud.embedded ? order.stud.embedded->at : order.stud.thread.at, says::sets_the_bore);
    return false;
  }
  if (!fits(bore.walls.web, shop.boring.least_web.value)) {
    const Length least = bore.depth.tip + shop.boring.least_web.value;
    out.error(Problem::web_too_thin, tail.along.at, says::web_left, measured(bore.walls.web, shop, Round::down),
              measured(shop.boring.least_web.value, shop))
        .label(order.stud.embedded ? order.stud.embedded->at : Place{}, says::sets_the_bore)
        .label(shop.boring.least_web.at, says::asked_for_here)
        .hint(says::make_handle_long, pasted(least, shop));
  }
  if (!fits(bore.walls.least_wall, shop.boring.least_wall.value)) {
    const Length short_by = shop.boring.least_wall.value - bore.walls.least_wall;
    out.error(Problem::wall_too_thin, thin_station(order.handle, bore.walls.wall_at).diameter.at, says::wall_left,
              measured(bore.walls.least_wall, shop, Round::down), measured(bore.walls.wall_at, shop),
              measured(shop.boring.least_wall.value, shop))
        .label(order.stud.thread.at, says::the_stud)
        .label(shop.boring.least_wall.at, says::asked_for_here)
        .hint(says::wider_or_thinner_stud,
              measured(bore.form.diameter(bore.walls.wall_at) + 2 * short_by, shop, Round::up));
    return true;
  }
  Length thinnest = bore.form.diameter(0 * mm);
  for (const Length z : bore.form.places_between(0 * mm, bore.stud.embedded)) {
    thinnest = std::min(thinnest, bore.form.diameter(z));
  }
  const double diameters = thinnest / 2 / order.stud.thread.value.major;
  if (diameters < shop.glue.least_edge.value / whole) {
    const Length wide_enough = 2 * (shop.glue.least_edge.value / whole) * order.stud.thread.value.major;
    out.warning(Problem::edge_distance_small, order.stud.thread.at, says::surface_near_stud, decimal(diameters, 2),
                decimal(shop.glue.least_edge.value / whole, 2))
        .label(shop.glue.least_edge.at, says::asked_for_here)
        .hint(says::thinner_stud_or_wider_handle, measured(wide_enough, shop, Round::up));
  }
  return true;
}

void judge_blank(const BlankToJudge& blank, const Order& order, const Shop& shop, Diagnostics& out) {
  if (!order.blank) return;
  const AllowanceFacts a = allowances_for(order, shop);
  const Length needed_length = blank.form.length() + a.seat_facing.value + a.tail_waste.value;
  if (!fits(blank.size.squared_length, needed_length)) {
    out.error(Problem::blank_too_short, order.blank->length.at, says::blank_is_short,
              measured(blank.size.squared_length, shop, Round::down), measured(needed_length, shop, Round::up))
        .label(order.handle.stations.back().along.at, says::the_handle);
  }
  const Length e = blank.centring.seat_offset;
  if (e < 0 * mm) {
    const Length missing = -2 * e;
    const double lost = blank.size.shrinkage / whole;  // of what is added to a sawn section
    out.error(Problem::blank_too_small, order.blank->section.at, says::no_bore_would_do,
              measured(blank.centring.seat_governing, shop), measured(missing, shop, Round::up),
              measured(blank.size.squared_section, shop))
        .label(order.handle.stations.front().diameter.at, says::the_form)
        .hint(says::take_a_blank,
              pasted(order.blank->section.value + (missing + 2 * blank.axis.offset) / (1 - lost), shop));
    return;
  }
  if (!fits(e, blank.axis.offset)) {
    const double lost = blank.size.shrinkage / whole;
    const Length enough = order.blank->section.value + 2 * (blank.axis.offset - e) / (1 - lost);
    const bool is_marked_loosely = blank.rounded && blank.rounded->marking < shop.boring.offset.value;
    out.warning(Problem::bore_must_be_truer, order.blank->section.at, says::bore_truer,
                measured(2 * e, shop, Round::down), measured(2 * blank.axis.offset, shop, Round::up))
        .label(shop.boring.offset.at, says::what_the_shop_holds)
        .hint(is_marked_loosely ? say(says::mark_truer_or_take_a_blank,
                                      measured(blank.rounded->marking, shop, Round::down), pasted(enough, shop))
                                : say(says::take_a_blank, pasted(enough, shop)));
  }
}

}  // namespace blankwright
