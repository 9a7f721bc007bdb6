#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "sheet/drawing/tray_drawing.h"
#include "sheet/frame/flowing_text.h"
#include "sheet/paper/card_figure.h"
#include "sheet/paper/said_times.h"
#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

constexpr Length gap = 2 * mm;
constexpr double settings_share = 0.42;  // of the width
constexpr TextStyle note_text{.capitals = 2.2 * mm, .least = 2.2 * mm};
constexpr const char* none = "–";

const PlannedBath& bath_of(const Dossier& d, const LoadOnPaper& load) {
  const auto found = std::ranges::find(d.baths, load.bath_number, &BathOnPaper::number);
  BW_EXPECT(found != d.baths.end());
  return *found->planned;
}

Tray tray_of(const LoadOnPaper& load) {
  Tray tray{load.planned, 0};
  for (const BlankShare& share : load.planned->shares) tray.count += share.total();
  return tray;
}

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

void put_drying(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const auto figure = [&](Figure f) { return card_figure(d, d.plan.figures, f); };
  const DryingFacts& facts = d.shop.drying;
  const std::array settings{
      CardSetting{w[Word::oven_drying_air], figure(Figure::drying_oven),
                  d.plan.figures.known(Figure::drying_dial)
                      ? fmt::format("{} {}", w[Word::oven_dial], shown(d, figure(Figure::drying_dial)))
                      : w[Word::oven_true_small]},
      CardSetting{
          w[Word::oven_drying_least], least_drying(d),
          fmt::format("{} {} {} {}", w[Word::oven_two_weighings], shown(d, at_least(facts.between_weighings.value)),
                      w[Word::oven_within], shown(d, at_most(facts.stable.value)))},
      CardSetting{w[Word::oven_cool], figure(Figure::drying_cool), w[Word::oven_cool_small]},
      CardSetting{w[Word::oven_room_moisture], figure(Figure::drying_room_moisture),
                  fmt::format("{} {}", w[Word::oven_regain], shown(d, figure(Figure::drying_regain_time)))},
  };
  const Box strip = take_strip(flow, 16 * mm);
  Canvas canvas = canvas_of(flow);
  draw_card_settings(canvas, strip, d.sheet_template, settings, settings.size());
  take_strip(flow, gap);
}

void put_facts(OrderFlow& flow, const LoadOnPaper& load) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  put_card_facts(flow, std::array{
                           CardFact{w[Word::oven_load], fmt::format("{}", load.number), 0.10},
                           CardFact{w[Word::oven_of_bath], fmt::format("{}", load.bath_number), 0.12},
                           CardFact{w[Word::oven_name], load.planned->oven->name.value, 0.22},
                           CardFact{w[Word::bath_resin], bath_of(d, load).bath.resin->name.value, 0.21},
                           CardFact{w[Word::bath_blanks], count_text(w, load.shares), 0.13},
                           CardFact{w[Word::oven_planned],
                                    load.planned->cure ? moment_text(d, load.planned->cure->from) : none, 0.22},
                       });
}

/// The order's figures, with the times of the load's slowest blanks: every card of a load says the same.
Figures cure_figures(const Dossier& d, const LoadOnPaper& load) {
  Figures figures = d.plan.figures;
  if (!load.planned->cures) return figures;
  const Cure& cure = *load.planned->cures;
  const auto set = [&](Figure figure, const std::optional<Duration>& time) {
    if (time) figures.set(figure, *time / second);
  };
  set(Figure::cure_core_time, cure.core_time);
  set(Figure::cure_core_time_cautious, cure.core_time_cautious);
  set(Figure::cure_total, cure.total);
  return figures;
}

/// Where the core is measured: in the coldest place, in a blank of the slowest ones.
const std::string& core_place(const Dossier& d, const LoadOnPaper& load) {
  const bool in_witness = load.shares.at(load.planned->slowest).witness_count > 0;
  return d.sheet_template.words[in_witness ? Word::oven_core_witness : Word::oven_core_small];
}

/// In a load of several orders, whose.
std::string whose_core(const Dossier& d, const LoadOnPaper& load) {
  if (load.shares.size() < 2) return {};
  return fmt::format(" {} {}: {}.", d.sheet_template.words[Word::oven_core], core_place(d, load),
                     load.shares.at(load.planned->slowest).order_id);
}

std::array<CardSetting, 8> settings(const Dossier& d, const LoadOnPaper& load) {
  const WordTable& w = d.sheet_template.words;
  const ResinFacts& resin = *bath_of(d, load).bath.resin;
  const Figures figures = cure_figures(d, load);
  const auto figure = [&](Figure f) { return card_figure(d, figures, f); };
  const bool from_core = resin.hold_from.value == HoldFrom::core && resin.cure_core.has_value();
  return {
      CardSetting{w[Word::oven_dial], figure(Figure::cure_dial)},
      CardSetting{w[Word::oven_true], figure(Figure::cure_true), w[Word::oven_true_small]},
      CardSetting{w[Word::oven_core], figure(Figure::cure_core), core_place(d, load)},
      CardSetting{w[Word::oven_hold_time], figure(Figure::cure_hold),
                  w[from_core ? Word::oven_from_core : Word::oven_from_air]},
      CardSetting{w[Word::oven_core_likely], figure(Figure::cure_core_time)},
      CardSetting{w[Word::oven_core_cautious], figure(Figure::cure_core_time_cautious)},
      CardSetting{w[Word::oven_total], figure(Figure::cure_total), w[Word::oven_total_small]},
      CardSetting{w[Word::oven_most], resin.cure_most ? at_most(resin.cure_most->value) : printed_words(none),
                  w[Word::oven_most_small]},
  };
}

void put_drawing(OrderFlow& flow, const LoadOnPaper& load) {
  const Dossier& d = flow.dossier;
  const Box strip = next_strip(flow, tray_drawing_height);
  const Length settings_width = settings_share * strip.width;
  Canvas canvas = drawing_canvas(flow);
  draw_tray(canvas, {strip.x, strip.y, strip.width - settings_width - gap, strip.height}, d, tray_of(load));
  draw_card_settings(canvas, {strip.right() - settings_width, strip.y, settings_width, strip.height},
                     d.sheet_template, settings(d, load), 2);
}

/// How long the blanks have to be in where no core is measured: for the air of the data sheet, and for colder air.
std::string by_time(const Dossier& d, const LoadOnPaper& load) {
  const auto& cure = load.planned->cures ? load.planned->cures : d.plan.process.cure;
  if (!cure) return {};
  std::string out;
  for (const CureRung& rung : cure_ladder(*cure, d.shop.units.value)) {
    out += fmt::format("{}{} {}", out.empty() ? "" : " · ", shown(d, printed(rung.air, d.shop.units.value)),
                       shown(d, at_least(rung.time)));
  }
  return out;
}

void put_checks(OrderFlow& flow, const ResinFacts& resin) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const bool from_core = resin.hold_from.value == HoldFrom::core && resin.cure_core.has_value();
  const std::string done =
      fmt::format("{} {}", w[from_core ? Word::oven_check_until_core : Word::oven_check_until_air],
                  shown(d, at_least(resin.cure_hold.value)));
  CardChecks checks{w, whole_room(flow).width};
  checks.pair({w[Word::oven_check_in], w[Word::date_time]}, {w[Word::oven_check_air], w[Word::oven_field_air]});
  checks.pair({w[Word::oven_check_core], w[Word::date_time]}, {done, w[Word::date_time]});
  checks.pair({w[Word::oven_check_air_last], w[Word::oven_field_air]}, {w[Word::oven_check_out], w[Word::date_time]});
  checks.hold(w[Word::oven_hold]);
  checks.put(flow);
}

void put_card(OrderFlow& flow, const LoadOnPaper& load) {
  const WordTable& w = flow.dossier.sheet_template.words;
  put_facts(flow, load);
  put_strips(flow, flow.dossier.sheet_template.oven_card, gap, [&](CardStrip strip) {
    switch (strip) {
      case CardStrip::figures:
        return put_drawing(flow, load);
      case CardStrip::notes:
        put_text(flow,
                 {w[Word::oven_caution] + " " + w[Word::oven_once] + whose_core(flow.dossier, load), note_text});
        if (const std::string times = by_time(flow.dossier, load); !times.empty()) {
          put_text(flow, {fmt::format("{}: {}", w[Word::oven_by_time], times), note_text});
        }
        return;
      case CardStrip::checks:
        return put_checks(flow, *bath_of(flow.dossier, load).bath.resin);
      case CardStrip::blanks:
        return put_shares(flow, load.shares);
    }
  });
}

}  // namespace

/// A card for every load of the oven that blanks of the order are in: the shelf from above, dial and temperatures,
/// how long, what is written down meanwhile, and whose blanks they are. The first card begins with how the blanks are
/// dried before the bath. Times are those of this order's blank.
std::vector<Page> oven_cards(const Dossier& d, const FontMetrics& fonts) {
  std::vector<Page> pages;
  for (const LoadOnPaper& load : d.loads) {
    OrderFlow flow = begin_flow(d, fonts, Word::oven_card, load.number);
    if (pages.empty()) put_drying(flow);
    put_card(flow, load);
    for (Page& page : pages_of(std::move(flow))) pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace blankwright
