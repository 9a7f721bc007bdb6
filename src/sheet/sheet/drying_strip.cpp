#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <variant>

#include "plan/figure/figure.h"
#include "sheet/paper/card_figure.h"
#include "sheet/paper/limits.h"
#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

/// How long to dry at least: the order's own time, or that of others in its baths that need longer.
Printed least_drying(const Dossier& d) {
  const Printed own = card_figure(d, d.plan.figures, Figure::drying_least_time);
  if (!d.plan.figures.known(Figure::drying_least_time)) return own;
  Duration least = std::get<double>(d.plan.figures.get(Figure::drying_least_time)) * second;
  bool is_own = true;
  for (const BathOnPaper& bath : d.baths) {
    is_own = is_own && bath.planned->drying <= least;
    least = std::max(least, bath.planned->drying);
  }
  return is_own ? own : at_least(least);
}

/// The ovens that the blanks are planned to be dried in, each once.
std::vector<const OvenFacts*> drying_ovens(const Dossier& d) {
  std::vector<const OvenFacts*> ovens;
  for (std::size_t step = 0; step < d.times.routing.size(); ++step) {
    if (!d.times.routing.at(step)->is(PlannedWork::drying)) continue;
    for (const PlannedRun& run : d.times.planned.operations.at(step).runs) {
      const auto oven =
          std::ranges::find(d.shop.ovens, run.resource, [](const OvenFacts& one) { return one.name.value; });
      if (oven != d.shop.ovens.end() && std::ranges::find(ovens, &*oven) == ovens.end()) ovens.push_back(&*oven);
    }
  }
  return ovens;
}

/// "dial 105 °C"; where several ovens would do, of each that is used: "dial: bench oven 105 °C, second oven 103 °C".
std::string dial_text(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const std::vector<const OvenFacts*> ovens = drying_ovens(d);
  if (!d.plan.figures.known(Figure::drying_dial)) return w[Word::oven_true_small];
  if (d.plan.process.ovens.size() < 2 || ovens.empty())
    return fmt::format("{} {}", w[Word::oven_dial], shown(d, card_figure(d, d.plan.figures, Figure::drying_dial)));
  std::string out;
  for (const OvenFacts* oven : ovens) {
    Figures figures;
    if (const auto dial = dial_for(oven->calibration, d.plan.process.drying.oven))
      figures.set(Figure::drying_dial, (*dial - Temperature{}) / kelvin);
    out += fmt::format("{} {} {}", out.empty() ? w[Word::oven_dial] + ":" : ",", oven->name.value,
                       shown(d, card_figure(d, figures, Figure::drying_dial)));
  }
  return out;
}

}  // namespace

void put_drying(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  if (d.plan.process.resin == nullptr) return;
  const WordTable& w = d.sheet_template.words;
  const auto figure = [&](Figure f) { return card_figure(d, d.plan.figures, f); };
  const DryingFacts& facts = d.shop.drying;
  const std::array settings{
      CardSetting{w[Word::oven_drying_air], figure(Figure::drying_oven), dial_text(d)},
      CardSetting{
          w[Word::oven_drying_least], least_drying(d),
          fmt::format("{} {} {} {}", w[Word::oven_two_weighings], shown(d, at_least(facts.between_weighings.value)),
                      w[Word::oven_within], shown(d, at_most(facts.stable.value)))},
      CardSetting{w[Word::oven_cool], figure(Figure::drying_cool), w[Word::oven_cool_small]},
      CardSetting{w[Word::oven_regain], figure(Figure::drying_regain_time),
                  fmt::format("{} {}", w[Word::oven_room_moisture], shown(d, figure(Figure::drying_room_moisture)))},
  };
  const Length cell = whole_room(flow).width / static_cast<double>(settings.size());
  const Length row = least_settings_row(canvas_of(flow), cell, d.sheet_template, settings);
  const Box strip = next_strip(flow, std::max(14 * mm, row));
  Canvas canvas = canvas_of(flow);
  draw_card_settings(canvas, strip, d.sheet_template, settings, settings.size());
  take_strip(flow, std::min(1.5 * mm, free_room(flow).height));
}

}  // namespace blankwright
