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
#include "sheet/paper/hold_place.h"
#include "sheet/paper/said_times.h"
#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

constexpr Length oven_gap = 0.7 * mm;

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

std::vector<CardFact> oven_facts(const Dossier& d, const LoadOnPaper& load) {
  const WordTable& w = d.sheet_template.words;
  return {
      CardFact{w[Word::oven_of_bath], fmt::format("{}", load.bath_number), 0.14},
      CardFact{w[Word::oven_name], load.planned->oven->name.value, 0.24},
      CardFact{w[Word::bath_resin], bath_of(d, load).bath.resin->name.value, 0.24},
      CardFact{w[Word::bath_blanks], count_text(w, load.shares), 0.16},
      CardFact{w[Word::oven_planned], load.planned->cure ? date_text(d, load.planned->cure->from) : no_value, 0.22},
  };
}

/// The order's figures, with the load's oven and the times of its slowest blanks: every card of a load says the same.
Figures cure_figures(const Dossier& d, const LoadOnPaper& load) {
  Figures figures = d.plan.figures;
  if (!load.planned->cures) return figures;
  const Cure& cure = *load.planned->cures;
  const auto set = [&](Figure figure, const std::optional<Duration>& time) {
    if (time) figures.set(figure, *time / second);
  };
  figures.set(Figure::cure_dial, cure.dial ? FigureValue{(*cure.dial - Temperature{}) / kelvin} : FigureValue{});
  set(Figure::cure_core_time, cure.core_time);
  set(Figure::cure_core_time_cautious, cure.core_time_cautious);
  set(Figure::cure_total, cure.total);
  return figures;
}

bool is_in_witness(const LoadOnPaper& load) { return load.shares.at(load.planned->slowest).witness_count > 0; }

/// Where the core is measured: in the coldest place, in a blank of the slowest ones.
const std::string& core_place(const Dossier& d, const LoadOnPaper& load) {
  return d.sheet_template.words[is_in_witness(load) ? Word::oven_core_witness : Word::oven_core_small];
}

/// In a load of several orders, whose.
std::string whose_core(const Dossier& d, const LoadOnPaper& load) {
  if (load.shares.size() < 2) return {};
  return fmt::format(" {}, {}: {}.", d.sheet_template.words[Word::oven_core], core_place(d, load),
                     load.shares.at(load.planned->slowest).order_id);
}

std::vector<CardSetting> oven_settings(const Dossier& d, const LoadOnPaper& load) {
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
      CardSetting{w[Word::oven_most], resin.cure_most ? at_most(resin.cure_most->value) : printed_words(no_value),
                  w[Word::oven_most_small]},
  };
}

/// In one row: what the oven is set to and how long the blanks are in it.
void put_settings(OrderFlow& flow, const LoadOnPaper& load) {
  std::vector<CardSetting> all = oven_settings(flow.dossier, load);
  all.erase(all.begin() + 4, all.begin() + 6);  // when the core may be warm
  const Length cell = whole_room(flow).width / static_cast<double>(all.size());
  const Length row = least_settings_row(canvas_of(flow), cell, flow.dossier.sheet_template, all);
  const Box strip = take_strip(flow, std::max(12 * mm, row));
  Canvas canvas = canvas_of(flow);
  draw_card_settings(canvas, strip, flow.dossier.sheet_template, all, all.size());
}

void put_oven_drawing(OrderFlow& flow, const LoadOnPaper& load, Length height) {
  if (height <= 0 * mm) return put_settings(flow, load);
  const Dossier& d = flow.dossier;
  constexpr std::size_t columns = 4;
  const std::vector<CardSetting> all = oven_settings(d, load);
  const Length settings_width = card_settings_share * whole_room(flow).width;
  const Length row = least_settings_row(canvas_of(flow), settings_width / columns, d.sheet_template, all);
  const Box strip = take_strip(flow, std::max(height, row * static_cast<double>(all.size() / columns)));
  Canvas canvas = canvas_of(flow);
  draw_tray(canvas, {strip.x, strip.y, strip.width - settings_width - oven_gap, strip.height}, d, tray_of(load));
  draw_card_settings(canvas, {strip.right() - settings_width, strip.y, settings_width, strip.height},
                     d.sheet_template, all, columns);
}

/// How long the blanks have to be in where no core is measured: for the air of the data sheet, and for colder air.
std::string by_time(const Dossier& d, const LoadOnPaper& load) {
  const auto& cure = load.planned->cures ? load.planned->cures : d.plan.process.cure;
  if (!cure) return {};
  std::string out;
  for (const CureRung& rung : cure_ladder(*cure, d.shop.units.value)) {
    out += fmt::format("{}{} ({})", out.empty() ? "" : ", ", shown(d, at_least(rung.time)),
                       shown(d, printed(rung.air, d.shop.units.value)));
  }
  return out;
}

void put_oven_checks(OrderFlow& flow, const ResinFacts& resin) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const bool from_core = resin.hold_from.value == HoldFrom::core && resin.cure_core.has_value();
  const std::string done =
      fmt::format("{} {}", w[from_core ? Word::oven_check_until_core : Word::oven_check_until_air],
                  shown(d, at_least(resin.cure_hold.value)));
  const std::string& time = w[Word::date_time];
  put_checks(flow, std::array{CardCheck{w[Word::oven_check_in], time},
                              CardCheck{w[Word::oven_check_air], w[Word::oven_field_air]},
                              CardCheck{w[Word::oven_check_core], time}, CardCheck{done, time},
                              CardCheck{hold_words(d, PlannedWork::cure, Word::oven_hold), {}, true},
                              CardCheck{w[Word::oven_check_out], w[Word::oven_field_air]}});
}

/// "Between ≥ 20 mm, to the walls ≥ 40 mm.": where no shelf is drawn.
std::string apart_text(const Dossier& d, const OvenFacts& oven) {
  const WordTable& w = d.sheet_template.words;
  const auto least = [&](Word word, Length length) {
    const Printing how = at_least_printing(d, Fineness::sawn);
    const Number size = how.system == UnitSystem::metric ? drawn_number(length, how) : rule_number(length, how);
    return fmt::format("{} ≥ {}", w[word], shown(d, Amount{size, column_unit<Length>(how.system)}));
  };
  return least(Word::oven_gap, oven.gap.value) + ", " + least(Word::oven_clearance, oven.clearance.value) + ".";
}

/// Without the drawing they say what it shows, in narrow letters.
void put_oven_notes(OrderFlow& flow, const LoadOnPaper& load, CardSize size) {
  const WordTable& w = flow.dossier.sheet_template.words;
  const bool with_drawing = size == CardSize::half;
  put_text(flow, {w[Word::oven_caution], {.size = Lettering::hand, .face = Face::bold, .least = Lettering::hand}});
  std::string notes;
  const auto add = [&notes](const std::string& text) { notes += (notes.empty() ? "" : " ") + text; };
  if (size != CardSize::least) add(w[Word::oven_once]);
  if (!with_drawing) add(apart_text(flow.dossier, *load.planned->oven));
  notes += whose_core(flow.dossier, load);
  if (size != CardSize::least && !is_in_witness(load)) add(w[Word::oven_dummy]);
  if (const std::string times = by_time(flow.dossier, load); !times.empty()) {
    notes += fmt::format(" {}: {}", w[Word::oven_by_time], times);
  }
  put_text(flow, {notes, with_drawing ? hand_note : narrowed(hand_note)});
}

void put_oven_card(OrderFlow& flow, const LoadOnPaper& load, CardSize size, Length drawing) {
  bool is_below = false;
  for (const auto& strip : flow.dossier.sheet_template.oven_card) {
    if (strip.value == CardStrip::blanks) continue;  // at the head of every card
    if (std::exchange(is_below, true)) take_strip(flow, oven_gap);
    switch (strip.value) {
      case CardStrip::figures:
        put_oven_drawing(flow, load, drawing);
        break;
      case CardStrip::notes:
        put_oven_notes(flow, load, size);
        break;
      case CardStrip::checks:
        put_oven_checks(flow, *bath_of(flow.dossier, load).bath.resin);
        break;
      case CardStrip::blanks:
        break;
    }
  }
}

}  // namespace

/// Each says: the shelf from above, dial and temperatures, how long, what is written down meanwhile, and whose blanks
/// they are. Times are those of this order's blank.
std::vector<Cards> oven_cards_of(const Dossier& d, const FontMetrics& fonts, CardSize size) {
  std::vector<Cards> cards;
  for (const LoadOnPaper& load : d.loads) {
    const CardHead head{Word::oven_card, load.number, name_for_entries('L', load.shares), oven_facts(d, load),
                        load.shares};
    cards.push_back(made_cards(d, fonts, head, size,
                               [&](OrderFlow& flow, Length drawing) { put_oven_card(flow, load, size, drawing); }));
  }
  return cards;
}

void oven_cards(OrderFlow& flow) { put_cards(flow, oven_cards_of(flow.dossier, flow.fonts, CardSize::half)); }

}  // namespace blankwright
