#include "plan/part/judge.h"

#include <fmt/format.h>

#include <algorithm>

#include "diagnose/problem.h"
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
    out.error(
           Problem::drill_too_small, drill.at,
           fmt::format("drill {} leaves less than the glue line of {} round a stud of {}; it has to be {} at least",
                       drill.value.name(), in_units(shop.glue.line.value, shop), in_units(thread.major, shop),
                       in_units(least, shop, Round::up)))
        .label(order.stud.thread.at, "the stud");
    return std::nullopt;
  }
  const ThreadLimits limits = thread_limits(thread);
  if (is_tap_hole(thread, drill.value.diameter)) return drill.value;
  out.error(Problem::hole_outside_thread_limits, drill.at,
            fmt::format("drill {} is {}; a hole for {} is tapped from {} to {}", drill.value.name(),
                        in_units(drill.value.diameter, shop), thread.designation,
                        in_units(limits.hole_minor_least, shop, Round::up),
                        in_units(limits.hole_minor_most, shop, Round::down)))
      .label(order.stud.thread.at, "the thread");
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
  const std::string wanted = glued ? fmt::format("of {} or a little more", in_units(least, shop, Round::up))
                                   : fmt::format("from {} to {}", in_units(limits.hole_minor_least, shop, Round::up),
                                                 in_units(limits.hole_minor_most, shop, Round::down));
  out.error(Problem::drill_missing, order.stud.thread.at,
            fmt::format("the shop owns no drill {} for {}", wanted, thread.designation))
      .hint("add one to `drills` under [boring] in the shop file");
  return std::nullopt;
}

namespace {

/// A length that the order wants may be less than the shop holds to.
void judge_embedded(const Stud& stud, const Order& order, const Shop& shop, Diagnostics& out) {
  const Length least = shop.glue.least_embedded.value / whole * order.stud.thread.value.major;
  if (!fits(stud.embedded, least)) {
    out.warning(Problem::stud_too_short, order.stud.embedded->at,
                fmt::format("stud sits {} deep in the wood; the shop asks for {:.1f} diameters, {}",
                            in_units(stud.embedded, shop), shop.glue.least_embedded.value / whole,
                            in_units(least, shop, Round::up)))
        .label(shop.glue.least_embedded.at, "asked for here")
        .hint(fmt::format("embedded = \"{}\", or leave it out to have it worked out", pasted(least, shop)));
  }
}

}  // namespace

void judge_stud(const Stud& stud, const Order& order, const Shop& shop, Diagnostics& out) {
  if (stud.bottom_clearance && *stud.bottom_clearance <= 0 * mm) {
    out.error(Problem::head_hole_too_shallow, order.stud.enters.at,
              fmt::format(
                  "stud enters {}, as deep as the client's hole of {} or deeper; it would bottom before the seat "
                  "closes",
                  in_units(order.stud.enters.value, shop), in_units(order.stud.hole_depth->value, shop)))
        .label(order.stud.hole_depth->at, "the hole");
  }
  if (!order.stud.pull) return judge_embedded(stud, order, shop, out);
  if (!stud.bond_capacity) {
    out.warning(Problem::pull_not_judged, order.stud.pull->at,
                "what a stud screwed into tapped wood bears is not worked out; only a pulled one is evidence")
        .label(order.bore.fit.at, "tapped")
        .hint("pull one out of a witness, with the factor that the load asks for; or fit = \"glued\" under [bore]");
    return;
  }
  const Force pull = order.stud.pull->value;
  const Force allowed = *stud.bond_capacity / shop.glue.safety_factor.value;
  if (pull > allowed * (1 + 1e-6)) {  // what rounding up to a step may have left off
    out.error(Problem::stud_pulls_out, order.stud.pull->at,
              fmt::format("bond of {} bears {} with the shop's safety factor of {}; the order asks for {}",
                          in_units(stud.embedded, shop), text(allowed, shop.units.value, Round::down),
                          shop.glue.safety_factor.value, text(pull, shop.units.value)))
        .label(order.stud.embedded ? order.stud.embedded->at : Place{}, "the length in the wood")
        .hint("leave `embedded` out to have it worked out");
    return;
  }
  judge_embedded(stud, order, shop, out);
  if (!stud.bond_measured) say_untested(order.stud.pull->at, shop, out);
}

bool judge_bore(const BoreToJudge& bore, const Order& order, const Shop& shop, Diagnostics& out) {
  const Station& tail = order.handle.stations.back();
  if (bore.depth.tip >= bore.form.length()) {
    out.error(Problem::handle_too_short_for_stud, tail.along.at,
              fmt::format("bore for the stud is {} deep to its point; the handle is {} long",
                          in_units(bore.depth.tip, shop, Round::up), in_units(bore.form.length(), shop)))
        .label(order.stud.embedded ? order.stud.embedded->at : order.stud.thread.at, "this sets the bore's depth");
    return false;
  }
  if (!fits(bore.walls.web, shop.boring.least_web.value)) {
    const Length least = bore.depth.tip + shop.boring.least_web.value;
    out.error(Problem::web_too_thin, tail.along.at,
              fmt::format("bore leaves {} of wood behind its point; the shop asks for {}",
                          in_units(bore.walls.web, shop, Round::down), in_units(shop.boring.least_web.value, shop)))
        .label(order.stud.embedded ? order.stud.embedded->at : Place{}, "this sets the bore's depth")
        .label(shop.boring.least_web.at, "asked for here")
        .hint(fmt::format("make the handle at least \"{}\" long", pasted(least, shop)));
  }
  if (!fits(bore.walls.least_wall, shop.boring.least_wall.value)) {
    out.error(Problem::wall_too_thin, order.handle.stations.front().diameter.at,
              fmt::format("bore leaves a wall of {} at {} from the seat; the shop asks for {}",
                          in_units(bore.walls.least_wall, shop, Round::down), in_units(bore.walls.wall_at, shop),
                          in_units(shop.boring.least_wall.value, shop)))
        .label(order.stud.thread.at, "the stud")
        .label(shop.boring.least_wall.at, "asked for here");
    return true;
  }
  Length thinnest = bore.form.diameter(0 * mm);
  for (const Length z : bore.form.places_between(0 * mm, bore.stud.embedded)) {
    thinnest = std::min(thinnest, bore.form.diameter(z));
  }
  const double diameters = thinnest / 2 / order.stud.thread.value.major;
  if (diameters < shop.glue.least_edge.value / whole) {
    const Length wide_enough = 2 * (shop.glue.least_edge.value / whole) * order.stud.thread.value.major;
    out.warning(
           Problem::edge_distance_small, order.stud.thread.at,
           fmt::format("surface is {:.2f} diameters from the stud's axis where it is nearest; for the full strength "
                       "of a glued stud the shop asks for {:.2f}",
                       diameters, shop.glue.least_edge.value / whole))
        .label(shop.glue.least_edge.at, "asked for here")
        .hint(fmt::format(
            "a thinner stud, or a handle of Ø {} as far as the stud goes; what thinner wood bears, only a "
            "pulled witness tells",
            in_units(wide_enough, shop, Round::up)));
  }
  return true;
}

void judge_blank(const BlankToJudge& blank, const Order& order, const Shop& shop, Diagnostics& out) {
  if (!order.blank) return;
  const AllowanceFacts a = allowances_for(order, shop);
  const Length needed_length = blank.form.length() + a.seat_facing.value + a.tail_waste.value;
  if (!fits(blank.size.squared_length, needed_length)) {
    out.error(Problem::blank_too_short, order.blank->length.at,
              fmt::format("blank is {} long when squared; handle, facing and waste take {}",
                          in_units(blank.size.squared_length, shop, Round::down),
                          in_units(needed_length, shop, Round::up)))
        .label(order.handle.stations.back().along.at, "the handle");
  }
  const Length e = blank.centring.seat_offset;
  if (e < 0 * mm) {
    const Length missing = -2 * e;
    const double lost = blank.size.shrinkage / whole;  // of what is added to a sawn section
    out.error(Problem::blank_too_small, order.blank->section.at,
              fmt::format("no bore would do: at {} from the seat the form with its allowances is {} larger than the "
                          "squared blank of {}",
                          in_units(blank.centring.seat_governing, shop), in_units(missing, shop, Round::up),
                          in_units(blank.size.squared_section, shop)))
        .label(order.handle.stations.front().diameter.at, "the form")
        .hint(fmt::format("take a blank of \"{}\" or more",
                          pasted(order.blank->section.value + (missing + 2 * blank.axis.offset) / (1 - lost), shop)));
    return;
  }
  if (!fits(e, blank.axis.offset)) {
    const double lost = blank.size.shrinkage / whole;
    const Length enough = order.blank->section.value + 2 * (blank.axis.offset - e) / (1 - lost);
    std::string way = fmt::format("take a blank of \"{}\" or more", pasted(enough, shop));
    if (blank.rounded && blank.rounded->marking < shop.boring.offset.value) {
      way = fmt::format("mark the centres within {} of the middle, or ",
                        in_units(blank.rounded->marking, shop, Round::down)) +
            way;
    }
    out.warning(Problem::bore_must_be_truer, order.blank->section.at,
                fmt::format("this blank asks for a bore within Ø {} at the seat; the shop holds Ø {}",
                            in_units(2 * e, shop, Round::down), in_units(2 * blank.axis.offset, shop, Round::up)))
        .label(shop.boring.offset.at, "what the shop holds")
        .hint(std::move(way));
  }
}

}  // namespace blankwright
