#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "plan/figure/figure.h"
#include "sheet/drawing/bath_drawing.h"
#include "sheet/frame/flowing_text.h"
#include "sheet/paper/card_figure.h"
#include "sheet/paper/hold_place.h"
#include "sheet/paper/left_over_resin.h"
#include "sheet/paper/said_times.h"
#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

constexpr Length bath_gap = 1 * mm;

std::vector<CardFact> bath_facts(const Dossier& d, const BathOnPaper& bath) {
  const WordTable& w = d.sheet_template.words;
  const PlannedBath& planned = *bath.planned;
  return {
      CardFact{w[Word::bath_vessel], planned.bath.vessel->name.value, 0.24},
      CardFact{w[Word::bath_resin], planned.bath.resin->name.value, 0.24},
      CardFact{w[Word::bath_dye], planned.dye.empty() ? no_value : planned.dye, 0.16},
      CardFact{w[Word::bath_blanks], count_text(w, bath.shares), 0.14},
      CardFact{w[Word::bath_planned], planned.vacuum ? date_text(d, planned.vacuum->from) : no_value, 0.22},
  };
}

/// By the vacuum as it is in the calendar, which may run on until somebody is there.
Printed least_soak(const Dossier& d, const PlannedBath& planned) {
  return planned.least_soak > Duration{} ? at_least(planned.least_soak)
                                         : card_figure(d, d.plan.figures, Figure::vacuum_least_soak);
}

std::vector<CardSetting> bath_settings(const Dossier& d, const PlannedBath& planned) {
  const WordTable& w = d.sheet_template.words;
  const auto bath = [&](Figure figure) { return card_figure(d, planned.figures, figure); };
  const auto plan = [&](Figure figure) { return card_figure(d, d.plan.figures, figure); };
  // As much of something lighter lets the blanks float.
  const std::string ballast =
      fmt::format("{} {}", shown(d, at_least(d, d.shop.bath.ballast_density.value)), w[Word::bath_ballast_denser]);
  std::vector<CardSetting> all{{w[Word::bath_pour], bath(Figure::bath_pour)}};
  if (planned.bath.reused > 0 * litre) {
    all.push_back({w[Word::bath_fresh], bath(Figure::bath_fresh_resin)});
    all.push_back({w[Word::bath_reused], bath(Figure::bath_reused_resin)});
  }
  all.insert(all.end(), {{w[Word::bath_activator], bath(Figure::bath_activator)},
                         {w[Word::bath_ballast_least], ballast_to_weigh(d, planned.bath.ballast), ballast},
                         {w[Word::bath_gauge], plan(Figure::vacuum_gauge), w[Word::bath_gauge_below]},
                         {w[Word::bath_vacuum_hold], plan(Figure::vacuum_hold)},
                         {w[Word::bath_dip_start], bath(Figure::bath_start_dip)}});
  // Both stand in the checks, too, which have them alone where two rows are full.
  if (planned.bath.reused > 0 * litre) return all;
  all.push_back({w[Word::bath_soak], least_soak(d, planned)});
  all.push_back({w[Word::bath_dip_end], bath(Figure::bath_end_dip)});
  return all;
}

void put_bath_drawing(OrderFlow& flow, const PlannedBath& planned, Length height) {
  constexpr std::size_t columns = 4;
  const std::vector<CardSetting> all = bath_settings(flow.dossier, planned);
  const Length settings_width = card_settings_share * whole_room(flow).width;
  const Length row = least_settings_row(canvas_of(flow), settings_width / columns, flow.dossier.sheet_template, all);
  const std::size_t rows = (all.size() + columns - 1) / columns;
  const Box strip = take_strip(flow, std::max(height, row * static_cast<double>(rows)));
  Canvas canvas = canvas_of(flow);
  draw_bath(canvas, {strip.x, strip.y, strip.width - settings_width - bath_gap, strip.height}, flow.dossier, planned);
  draw_card_settings(canvas, {strip.right() - settings_width, strip.y, settings_width, strip.height},
                     flow.dossier.sheet_template, all, columns);
}

/// When the soak has to be longer than planned: two times to read off instead of a sum to do.
std::string longer_soak(const Dossier& d, const PlannedBath& planned) {
  const WordTable& w = d.sheet_template.words;
  const VacuumFacts& facts = d.shop.vacuum;
  const bool to_release = facts.soak_counts_to.value == SoakCountsTo::release;
  return fmt::format("{} {}, {} {} × {}", w[to_release ? Word::bath_soak_longer : Word::bath_soak_longer_to_bubbles],
                     shown(d, planned.hold > Duration{} ? at_least(planned.hold)
                                                        : card_figure(d, d.plan.figures, Figure::vacuum_hold)),
                     w[Word::bath_soak_then], shown(d, Number{fmt::format("{:.4g}", facts.soak.value / whole)}),
                     w[Word::bath_soak_rule]);
}

void put_bath_notes(OrderFlow& flow, const PlannedBath& planned) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  put_text(flow, {w[Word::bath_caution] + " " + w[Word::bath_never_top_up],
                  {.size = Lettering::hand, .face = Face::bold, .least = Lettering::hand}});
  std::string left_over = fmt::format(
      "{} {}; {} {}", w[Word::bath_left_over], shown(d, card_figure(d, planned.figures, Figure::bath_left_over)),
      w[Word::bath_keep_below], shown(d, at_most(d, planned.bath.resin->storage_most.value)));
  if (const auto until = use_by(planned))
    left_over += fmt::format("; {} {}", w[Word::bath_use_by], day_text(d.sheet_template, *until));
  put_text(flow, {fmt::format("{}. {}.{}{}", longer_soak(d, planned), left_over, planned.dye.empty() ? "" : " ",
                              planned.dye.empty() ? "" : w[Word::bath_light_first]),
                  hand_note});
}

void put_bath_checks(OrderFlow& flow, const PlannedBath& planned) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const std::string bubbles =
      fmt::format("{} {} {}", w[Word::bath_check_bubbles], d.shop.vacuum.bubbles.value, w[Word::bath_bubbles_rule]);
  const std::string level = fmt::format("{} {}", w[Word::bath_check_level],
                                        shown(d, card_figure(d, planned.figures, Figure::bath_end_dip)));
  const std::string soak = fmt::format("{} {}", w[Word::bath_check_soak], shown(d, least_soak(d, planned)));
  const std::string& time = w[Word::date_time];
  put_checks(flow,
             std::array{CardCheck{w[Word::bath_check_start], time},
                        CardCheck{w[Word::bath_check_gauge], w[Word::bath_reading]},
                        CardCheck{w[Word::bath_check_target], time}, CardCheck{bubbles, time},
                        CardCheck{hold_words(d, PlannedWork::vacuum, Word::bath_hold), {}, true},
                        CardCheck{w[Word::bath_check_released], time}, CardCheck{level, w[Word::bath_dip_measured]},
                        CardCheck{soak, time}, CardCheck{w[Word::bath_check_out], time}});
}

void put_bath_card(OrderFlow& flow, const BathOnPaper& bath, Length drawing) {
  bool is_below = false;
  for (const auto& strip : flow.dossier.sheet_template.bath_card) {
    if (strip.value == CardStrip::blanks) continue;  // at the head of every card
    if (std::exchange(is_below, true)) take_strip(flow, bath_gap);
    switch (strip.value) {
      case CardStrip::figures:
        put_bath_drawing(flow, *bath.planned, drawing);
        break;
      case CardStrip::notes:
        put_bath_notes(flow, *bath.planned);
        break;
      case CardStrip::checks:
        put_bath_checks(flow, *bath.planned);
        break;
      case CardStrip::blanks:
        break;
    }
  }
}

}  // namespace

/// Each says: the vessel with its blanks and levels, what is poured, weighed and set, what is written down while the
/// vacuum runs and the blanks soak, and whose blanks they are.
std::vector<Cards> bath_cards_of(const Dossier& d, const FontMetrics& fonts) {
  std::vector<Cards> cards;
  for (const BathOnPaper& bath : d.baths) {
    const CardHead head{Word::bath_card, bath.number, name_for_entries('B', bath.shares), bath_facts(d, bath),
                        bath.shares};
    cards.push_back(made_cards(d, fonts, head, CardSize::half,
                               [&](OrderFlow& flow, Length drawing) { put_bath_card(flow, bath, drawing); }));
  }
  return cards;
}

void bath_cards(OrderFlow& flow) { put_cards(flow, bath_cards_of(flow.dossier, flow.fonts)); }

}  // namespace blankwright
