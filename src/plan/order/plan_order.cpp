#include "plan/order/plan_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/order/judge_cost.h"
#include "plan/order/plan_process.h"
#include "plan/order/witnesses.h"
#include "plan/part/judge.h"
#include "plan/part/judge_seat.h"
#include "plan/part/judge_stud.h"
#include "plan/routing/judge_routing.h"
#include "plan/wood/judge_cutting.h"
#include "plan/wood/judge_start.h"
#include "plan/wood/judge_wood.h"

namespace blankwright {
namespace {

FinishedForm form_of(const HandleFacts& handle) {
  std::vector<FormPoint> points;
  for (const Station& s : handle.stations) points.push_back({s.along.value, s.diameter.value});
  return {std::move(points), handle.form.value == FormLine::smooth};
}

/// The shop's glue, with the strength that pulled studs have shown in place of what is assumed.
GlueFacts glue_of(const Shop& shop, const Record& record) {
  GlueFacts glue = shop.glue;
  if (!record.bond) return glue;
  const std::string whose = fmt::format("register, least of {} pulled", record.bond->pulled);
  glue.shear_strength = {record.bond->shear, Origin::entry, {}, whose};
  glue.wood_shear_strength = {record.bond->wood_shear, Origin::entry, {}, whose};
  glue.shear_measured = {true, Origin::entry, {}, whose};
  return glue;
}

StudInput stud_input(const Order& order, const Shop& shop, const GlueFacts& glue, Length bore) {
  const StudFacts& s = order.stud;
  return {.thread = s.thread.value,
          .glued = order.bore.fit.value == BoreFit::glued,
          .enters = s.enters,
          .hole_depth = s.hole_depth,
          .embedded = s.embedded,
          .pull = s.pull,
          .torque = s.torque,
          .bore = bore,
          .shear_strength = glue.shear_strength,
          .wood_shear_strength = glue.wood_shear_strength,
          .strength_measured = glue.shear_measured.value,
          .safety_factor = glue.safety_factor,
          .least_embedded = glue.least_embedded,
          .step = shop.units.value == UnitSystem::metric ? 1 * mm : inch / 16};
}

AxisErrorInput axis_input(const Shop& shop, const BoreDrill& bore, const Stud& stud) {
  const BoringFacts& b = shop.boring;
  return {.on_lathe = b.method.value == BoringMethod::lathe,
          .offset = b.offset,
          .tilt_per_100mm = b.tilt_per_100mm,
          .end_squareness_per_100mm = b.end_squareness_per_100mm,
          .glue_line = bore.glue_line,
          .embedded = stud.embedded,
          .jig_offset = b.jig_offset,
          .jig_tilt_per_100mm = b.jig_tilt_per_100mm};
}

/// From so many measured axes on, a shop's own spread replaces what it says that it holds.
constexpr int enough_axes = 8;

CentringInput centring_input(const OrderPlan& plan, const Shop& shop, const Record& record) {
  const BoringFacts& b = shop.boring;
  const bool on_lathe = b.method.value == BoringMethod::lathe;
  const bool seen = record.axis && record.axis->n >= enough_axes;
  return {.form = plan.form,
          .squared_section = plan.blank.squared_section,
          .section_tolerance = shop.allowances.section_tolerance,
          .finish = shop.allowances.finish,
          .bow = shop.allowances.bow,
          .axis = plan.axis,
          .spread_offset = seen ? record.axis->offset_95 : b.offset.value,
          .spread_tilt = seen       ? record.axis->tilt_95
                         : on_lathe ? 0
                                    : b.tilt_per_100mm.value / (100 * mm),
          .spread_from = seen ? TermFrom::from_register : TermFrom::shop};
}

RoundedBlankInput rounded_input(const OrderPlan& plan, const Shop& shop) {
  return {.squared_section = plan.blank.squared_section,
          .section_tolerance = shop.allowances.section_tolerance,
          .bow = shop.allowances.bow,
          .held = shop.boring.offset,
          .seat_offset = plan.centring.seat_offset};
}

StartCountInput start_input(const Order& order, const Shop& shop, const Record& record) {
  return {.quantity = order.quantity.value,
          .seen = yield_seen(record.yield, shop.yield.expected),
          .confidence = shop.yield.confidence,
          .spares = shop.yield.spares,
          .issued = static_cast<int>(record.issued_to_order.size()) - record.witnesses,
          .so_far = order_so_far(record)};
}

void set_words(OrderPlan& plan, const Order& order) {
  plan.figures.set(Figure::bore_fit, order.bore.fit.value == BoreFit::glued ? "glued" : "tapped");
  plan.figures.set(Figure::bore_drill, plan.bore.drill.name());
  plan.figures.set(Figure::stud_thread, order.stud.thread.value.designation);
}

void plan_turning(OrderPlan& plan, const Shop& shop) {
  Worked<Length> swing;
  swing.value = swing.step(Figure::turning_swing,
                           term(Term::squared_section, plan.blank.squared_section, TermFrom::blank) *
                                   term(Term::root_of_two, std::numbers::sqrt2) +
                               2_exactly * (term(Term::axis_offset, plan.axis.offset, TermFrom::axis_error) +
                                            term(Term::squared_length, plan.blank.squared_length, TermFrom::blank) *
                                                term(Term::axis_tilt, plan.axis.tilt, TermFrom::axis_error)));
  plan.swing = plan.keep_working(std::move(swing));
  plan.speed_ceiling = plan.keep_working(speed_ceiling(plan.swing, shop.lathe.fastest));
}

void count_done(OrderPlan& plan, const Record& record) {
  for (const BlankState& blank : record.blanks) {
    if (!is_to_be_bathed(record, blank)) ++(blank.witness ? plan.witnesses_done : plan.pieces_done);
    if (!blank.witness && record.soak_again.contains(*blank.id)) ++plan.pieces_again;
  }
}

bool plan_start(OrderPlan& plan, const Order& order, const Shop& shop, const Record& record, Diagnostics& out) {
  const StartCountInput start = start_input(order, shop, record);
  auto count = start_count(start);
  judge_start(start, count, order, shop, out);
  if (!count) return false;
  plan.start = plan.keep_working(std::move(*count));
  count_done(plan, record);
  // Those that were issued stay; baths that were run have had theirs.
  const int first_bathed = plan.start.pieces - plan.pieces_done - plan.pieces_again;
  const int wanted = plan.witnesses_done + witnesses_wanted(first_bathed, plan, order);
  plan.witnesses = record.no_more_witnesses ? record.witnesses : std::max(record.witnesses, wanted);
  Worked<double> witnessed;
  witnessed.value = witnessed.step(Figure::start_witnesses, term(Term::one_for_each_bath_or_load,
                                                                 static_cast<double>(plan.witnesses), TermFrom::job));
  plan.keep_working(std::move(witnessed));
  judge_stud_stock(plan.stud, order, shop, plan.start.pieces, out);
  return true;
}

void plan_cutting(OrderPlan& plan, const Order& order, const Shop& shop, Diagnostics& out) {
  if (order.wood.boards.empty() || !plan.blank.sawn_section || order.blank) return;
  plan.cutting = cutting_plan(cutting_input(order, shop, *plan.blank.sawn_section, *plan.blank.sawn_length,
                                            plan.blanks() - (plan.witnesses > 0 ? 1 : 0), plan.witnesses > 0));
  judge_cutting(*plan.cutting, order, shop, out);
}

void plan_cost(OrderPlan& plan, const Order& order, const Shop& shop, Diagnostics& out) {
  const Length section = plan.blank.sawn_section.value_or(plan.blank.squared_section);
  const Length length = plan.blank.sawn_length.value_or(plan.blank.squared_length);
  PlannedDurations durations = planned_durations(plan.process, shop);
  durations.witnessed = plan.witnesses > 0;
  CostInput in{.quantity = order.quantity.value,
               .started = plan.blanks(),
               .hands_on = hands_on_total(shop, durations, plan.blanks(), plan.witnesses),
               .sawn_wood = section * section * length,
               .resin = std::nullopt,
               .resin_facts = plan.process.resin,
               .facts = shop.costs};
  if (plan.process.uptake) {
    in.resin = plan.process.uptake->resin_high / plan.process.resin->density.value +
               film_on(*plan.process.resin, *plan.blank.dry_section, *plan.blank.dry_length);
  }
  auto worked = cost(in);
  if (!worked) return;
  plan.cost = plan.keep_working(std::move(*worked));
  plan.figures.set(Figure::cost_currency, plan.cost->currency);
  judge_cost(*plan.cost, order, out);
}

void plan_stud(OrderPlan& plan, const Order& order, const Shop& shop, const Record& record, const Drill& drill,
               Diagnostics& out) {
  const GlueFacts glue = glue_of(shop, record);
  const Thread& thread = order.stud.thread.value;
  plan.stud = plan.keep_working(stud(stud_input(order, shop, glue, drill.diameter)));
  judge_stud(plan.stud, order, shop, out);
  plan.bore = plan.keep_working(order.bore.fit.value == BoreFit::glued ? glued_bore(thread, shop.glue.line, drill)
                                                                       : tapped_bore(thread, drill));
  const bool glued = order.bore.fit.value == BoreFit::glued;
  plan.preload = plan.keep_working(
      preload({.thread = thread, .ring = contact_ring(order), .tightening = order.stud.tightening}));
  plan.strength = plan.keep_working(stud_strength({.thread = thread,
                                                   .glued = glued,
                                                   .bore = drill.diameter,
                                                   .embedded = plan.stud.embedded,
                                                   .facts = order.stud,
                                                   .glue = glue,
                                                   .preload = plan.preload.most}));
  plan.tightened = plan.keep_working(tightened({.thread = thread,
                                                .glued = glued,
                                                .bore = drill.diameter,
                                                .embedded = plan.stud.embedded,
                                                .pull = order.stud.pull,
                                                .glue = glue,
                                                .preload = plan.preload,
                                                .yield_strength = plan.strength.yield_strength,
                                                .head_strip = plan.strength.head_strip}));
  judge_stud_strength(plan.strength, order, shop, out);
  judge_tightening(plan.preload, plan.tightened, plan.stud, order, shop, out);
}

bool plan_bore(OrderPlan& plan, const Order& order, const Shop& shop, const Drill& drill, Diagnostics& out) {
  plan.depth = plan.keep_working(bore_depth({.drill = drill.diameter,
                                             .point = shop.boring.drill_point,
                                             .embedded = plan.stud.embedded,
                                             .reservoir = shop.boring.reservoir,
                                             .facing = allowances_for(order, shop).seat_facing}));
  plan.walls = plan.keep_working(bore_walls({.form = plan.form,
                                             .drill = drill.diameter,
                                             .glue_line = plan.bore.glue_line,
                                             .embedded = plan.stud.embedded,
                                             .depth = plan.depth}));
  return judge_bore({plan.form, plan.stud, plan.depth, plan.walls}, order, shop, out);
}

void plan_blank(OrderPlan& plan, const Order& order, const Shop& shop, const Record& record, const WoodFigures& wood,
                Diagnostics& out) {
  plan.axis = plan.keep_working(axis_error(axis_input(shop, plan.bore, plan.stud)));
  const AllowanceFacts allowances = allowances_for(order, shop);
  const BlankSizeInput sizes{.form = plan.form,
                             .axis = plan.axis,
                             .allowances = allowances,
                             .tangential = wood.tangential,
                             .moisture = order.wood.moisture,
                             .end_grain_all_round = order.wood.condition.value == WoodCondition::burl};
  plan.blank = plan.keep_working(order.blank ? given_blank_size(sizes, *order.blank) : blank_size(sizes));
  plan.centring = plan.keep_working(centring(centring_input(plan, shop, record)));
  if (shop.boring.method.value == BoringMethod::lathe)
    plan.rounded = plan.keep_working(rounded_blank(rounded_input(plan, shop)));
  judge_blank({plan.form, plan.axis, plan.blank, plan.centring, plan.rounded}, order, shop, out);
  plan_turning(plan, shop);
  plan.in_use = plan.keep_working(size_in_use({.seat = plan.form.diameter(0 * mm),
                                               .tolerance = order.handle.tolerance.value,
                                               .tangential = wood.tangential,
                                               .use = order.use}));
  judge_size_in_use(plan.in_use, order, shop, out);
}

}  // namespace

void OrderPlan::keep_steps(std::vector<Step> steps) {
  for (Step& step : steps) {
    figures.set(step.figure, step.expression->si);
    working.push_back(std::move(step));
  }
}

Worked<RotationalSpeed> speed_ceiling(Length swing, const Given<RotationalSpeed>& fastest) {
  Worked<RotationalSpeed> out;
  const auto by_swing = term(Term::surface_speed, 6000 * inch / minute, TermFrom::usual_practice) /
                        term(Term::swing, swing, TermFrom::above);
  out.value = out.step(Figure::turning_speed_ceiling, smaller(by_swing, term(Term::fastest_spindle, fastest)));
  return out;
}

std::optional<OrderPlan> plan_order(const Order& order, const Shop& shop, const Record& record, Diagnostics& out) {
  const int before = out.errors();
  const auto wood = judge_species(order.wood, out);
  const auto drill = judge_drill(order, shop, out);
  const bool boards = boards_make_sense(order, out);
  const bool currency = one_currency(order, shop, out);
  if (!wood || !drill || !boards || !currency) return std::nullopt;

  OrderPlan plan{.species = wood->name, .form = form_of(order.handle)};
  plan.size = plan.keep_working(form_figures(plan.form));
  judge_seat(order, shop, out);
  judge_ferrule(order, plan.form, drill->diameter, shop, out);
  plan_stud(plan, order, shop, record, *drill, out);
  if (!plan_bore(plan, order, shop, *drill, out)) return std::nullopt;
  plan_blank(plan, order, shop, record, *wood, out);
  if (!plan_process(plan, order, shop, record, out)) return std::nullopt;
  judge_routing(planned_durations(plan.process, shop), order, shop, out);
  if (!plan_start(plan, order, shop, record, out)) return std::nullopt;
  plan_cutting(plan, order, shop, out);
  plan_cost(plan, order, shop, out);
  set_words(plan, order);
  return out.errors() == before ? std::optional{std::move(plan)} : std::nullopt;
}

}  // namespace blankwright
