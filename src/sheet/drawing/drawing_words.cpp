#include "sheet/drawing/drawing_words.h"

#include <fmt/format.h>

#include "plan/figure/figure.h"

namespace blankwright {
namespace {

/// "Ø0.55/100": the axis of the stud within a cylinder of that width over that length.
std::string lean_text(const Dossier& d) {
  const Printed lean = printed_figure(d, Figure::centring_tilt);
  if (!lean.per) return shown(d, lean);
  return fmt::format("Ø{}/{}", shown(d, lean.amounts.front().number), shown(d, lean.per->number));
}

}  // namespace

DrawingWords drawing_words(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const OrderPlan& plan = d.plan;
  const auto figure = [&](Figure f, Length length) { return drawn_text(d, length, figure_printing(d, f)); };
  const Printing measured = size_printing(d, Fineness::measured);
  DrawingWords out;
  out.thread = fmt::format("{} {} × {}", w[Word::stud], d.order.stud.thread.value.designation,
                           figure(Figure::stud_cut_length, plan.stud.cut_length));
  out.position = plan.rounded ? figure(Figure::rounded_runout, plan.rounded->runout)
                              : "Ø" + figure(Figure::centring_seat_position, 2 * plan.centring.seat_offset);
  out.lean = lean_text(d);
  out.squareness = drawn_at_most(d, d.order.seat.squareness.value);
  out.projection = figure(Figure::stud_projection, plan.stud.projection);
  out.metal_zone = fmt::format("{} {}", w[Word::metal_zone], figure(Figure::stud_embedded, plan.stud.embedded));
  out.bore = {fmt::format("{} Ø{} × {} {}", w[Word::bore], drawn_text(d, plan.bore.drill.diameter, measured),
                          figure(Figure::bore_depth, plan.depth.full), w[Word::deep]),
              fmt::format("{} {}", w[Word::reservoir], drawn_text(d, d.shop.boring.reservoir.value, measured))};
  const SeatFacts& seat = d.order.seat;
  out.seat = w[Word::seat];
  if (seat.diameter && seat.height) {
    const bool spigot = seat.form.value == SeatForm::spigot;
    const std::string diameter = drawn_text(d, seat.diameter->value, measured);
    const std::string height = drawn_text(d, seat.height->value, measured);
    out.seat += spigot ? fmt::format(", {} Ø{} × {}", w[Word::spigot], diameter, height)
                       : fmt::format(", {} Ø{} × {} {}", w[Word::recess], diameter, height, w[Word::deep]);
  }
  if (d.order.ferrule) {
    const FerruleFacts& ferrule = *d.order.ferrule;
    const bool glued = ferrule.fit.value == FerruleFit::glued;
    const std::string wood =
        ferrule.inside_diameter
            ? fmt::format("{} Ø{}", w[Word::ferrule_wood], drawn_text(d, ferrule.inside_diameter->value, measured))
            : w[Word::ferrule_wood_fitted];
    out.ferrule = {
        fmt::format("{} Ø{} × {}, {}", w[Word::ferrule], drawn_text(d, ferrule.outside_diameter.value, measured),
                    drawn_text(d, ferrule.length.value, measured),
                    w[glued ? Word::ferrule_glued : Word::ferrule_pressed]),
        fmt::format("{}: {}", numbers_under_ferrule(sheet_stations(d)), wood)};
  }
  return out;
}

}  // namespace blankwright
