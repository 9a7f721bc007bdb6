#include "plan/order_plan.h"

#include <numbers>

#include "plan/judge.h"

namespace blankwright {
namespace {

FinishedForm form_of(const HandleFacts& handle) {
  std::vector<FormPoint> points;
  for (const Station& s : handle.stations) points.push_back({s.along.value, s.diameter.value});
  return {std::move(points), handle.form.value == FormLine::smooth};
}

StudInput stud_input(const Order& order, const Shop& shop) {
  const StudFacts& s = order.stud;
  return {.thread = s.thread.value,
          .glued = order.bore.fit.value == BoreFit::glued,
          .enters = s.enters,
          .hole_depth = s.hole_depth,
          .embedded = s.embedded,
          .pull = s.pull,
          .shear_strength = shop.glue.shear_strength,
          .safety_factor = shop.glue.safety_factor,
          .least_embedded = shop.glue.least_embedded,
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

CentringInput centring_input(const OrderPlan& plan, const Shop& shop) {
  const BoringFacts& b = shop.boring;
  const bool on_lathe = b.method.value == BoringMethod::lathe;
  return {.form = plan.form,
          .squared_section = plan.blank.squared_section,
          .section_tolerance = shop.allowances.section_tolerance,
          .finish = shop.allowances.finish,
          .bow = shop.allowances.bow,
          .axis = plan.axis,
          .spread_offset = b.offset.value,
          .spread_tilt = on_lathe ? 0 : b.tilt_per_100mm.value / (100 * mm)};
}

StartCountInput start_input(const Order& order, const Shop& shop, const Record& record) {
  StartCountInput in{.quantity = order.quantity.value,
                     .seen = std::nullopt,
                     .confidence = shop.yield.confidence,
                     .spares = shop.yield.spares,
                     .issued = static_cast<int>(record.issued_to_order.size())};
  if (shop.yield.expected) {
    const Counts& counts = shop.yield.expected->value;
    in.seen = YieldSeen{counts.good, counts.started, "shop file, a guess"};
  }
  return in;
}

/// Takes over a result: its steps become figures and working of the plan.
template <class T>
T taken(OrderPlan& plan, Worked<T> worked) {
  for (Step& step : worked.steps) {
    plan.figures.set(step.figure, step.expression->si);
    plan.working.push_back(std::move(step));
  }
  return std::move(worked.value);
}

void set_words(OrderPlan& plan, const Order& order) {
  plan.figures.set(Figure::bore_fit, order.bore.fit.value == BoreFit::glued ? "glued" : "tapped");
  plan.figures.set(Figure::bore_drill, plan.bore.drill.name);
  plan.figures.set(Figure::stud_thread, order.stud.thread.value.designation);
}

void plan_turning(OrderPlan& plan) {
  Worked<Length> swing;
  swing.value = swing.step(
      Figure::turning_swing,
      said("squared section", plan.blank.squared_section, "blank") * said("√2", std::numbers::sqrt2) +
          2_said *
              (said("e", plan.axis.offset, "axis error") +
               said("squared length", plan.blank.squared_length, "blank") * said("t", plan.axis.tilt, "axis error")));
  plan.swing = taken(plan, std::move(swing));
  plan.speed_ceiling = taken(plan, speed_ceiling(plan.swing));
}

}  // namespace

Worked<RotationalSpeed> speed_ceiling(Length swing) {
  Worked<RotationalSpeed> out;
  out.value = out.step(
      Figure::turning_speed_ceiling,
      said("6000 in per minute", 6000 * inch / minute, "common practice, no source") / said("swing", swing, "above"));
  return out;
}

std::optional<OrderPlan> plan_order(const Order& order, const Shop& shop, const Record& record, Diagnostics& out) {
  const int before = out.errors();
  const auto wood = judge_species(order.wood, out);
  const auto drill = judge_drill(order, shop, out);
  const StartCountInput start = start_input(order, shop, record);
  auto count = start_count(start);
  judge_start(start, count, order, shop, out);
  if (!wood || !drill || !count) return std::nullopt;

  OrderPlan plan{.species = wood->name, .form = form_of(order.handle)};
  plan.size = taken(plan, form_figures(plan.form));
  plan.stud = taken(plan, stud(stud_input(order, shop)));
  judge_stud(plan.stud, order, shop, out);
  const Thread& thread = order.stud.thread.value;
  plan.bore = taken(plan, order.bore.fit.value == BoreFit::glued ? glued_bore(thread, shop.glue.line, *drill)
                                                                 : tapped_bore(thread, *drill));
  plan.depth = taken(plan, bore_depth({.drill = drill->diameter,
                                       .point = shop.boring.drill_point,
                                       .embedded = plan.stud.embedded,
                                       .reservoir = shop.boring.reservoir,
                                       .facing = shop.allowances.seat_facing}));
  plan.walls = taken(plan, bore_walls({.form = plan.form,
                                       .drill = drill->diameter,
                                       .glue_line = plan.bore.glue_line,
                                       .embedded = plan.stud.embedded,
                                       .depth = plan.depth}));
  if (!judge_bore(plan, order, shop, out)) return std::nullopt;

  plan.axis = taken(plan, axis_error(axis_input(shop, plan.bore, plan.stud)));
  const BlankSizeInput sizes{.form = plan.form,
                             .axis = plan.axis,
                             .allowances = shop.allowances,
                             .tangential = wood->tangential,
                             .moisture = order.wood.moisture};
  plan.blank = taken(plan, order.blank ? given_blank_size(sizes, *order.blank) : blank_size(sizes));
  plan.centring = taken(plan, centring(centring_input(plan, shop)));
  judge_blank(plan, order, shop, out);
  plan_turning(plan);
  plan.start = taken(plan, std::move(*count));
  set_words(plan, order);
  return out.errors() == before ? std::optional{std::move(plan)} : std::nullopt;
}

}  // namespace blankwright
