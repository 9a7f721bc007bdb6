#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <array>
#include <string>
#include <utility>

#include "plan/figure/figure.h"
#include "sheet/drawing/bath_drawing.h"
#include "sheet/frame/flowing_text.h"
#include "sheet/paper/card_figure.h"
#include "sheet/paper/left_over_resin.h"
#include "sheet/paper/said_times.h"
#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

constexpr Length gap = 2 * mm;
constexpr double settings_share = 0.4;  // of the width
constexpr TextStyle note_text{.capitals = 2.5 * mm, .least = 2.5 * mm};

void put_facts(OrderFlow& flow, const BathOnPaper& bath) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const PlannedBath& planned = *bath.planned;
  put_card_facts(flow, std::array{
                           CardFact{w[Word::bath_number], fmt::format("{}", bath.number), 0.08},
                           CardFact{w[Word::bath_vessel], planned.bath.vessel->name.value, 0.21},
                           CardFact{w[Word::bath_resin], planned.bath.resin->name.value, 0.21},
                           CardFact{w[Word::bath_dye], planned.dye.empty() ? "–" : planned.dye, 0.16},
                           CardFact{w[Word::bath_blanks], count_text(w, bath.shares), 0.12},
                           CardFact{w[Word::bath_planned],
                                    planned.vacuum ? moment_text(d, planned.vacuum->from) : std::string{"–"}, 0.22},
                       });
}

/// By the vacuum as it is in the calendar, which may run on until somebody is there.
Printed least_soak(const Dossier& d, const PlannedBath& planned) {
  return planned.least_soak > Duration{} ? at_least(planned.least_soak)
                                         : card_figure(d, d.plan.figures, Figure::vacuum_least_soak);
}

std::array<CardSetting, 10> settings(const Dossier& d, const PlannedBath& planned) {
  const WordTable& w = d.sheet_template.words;
  const auto bath = [&](Figure figure) { return card_figure(d, planned.figures, figure); };
  const auto plan = [&](Figure figure) { return card_figure(d, d.plan.figures, figure); };
  // The mass holds for this density alone: as much of something lighter lets the blanks float.
  const std::string ballast_note =
      w[Word::bath_ballast_note] + " " + shown(d, at_least(d, d.shop.bath.ballast_density.value));
  return {
      CardSetting{w[Word::bath_pour], bath(Figure::bath_pour)},
      CardSetting{w[Word::bath_gauge], plan(Figure::vacuum_gauge)},
      CardSetting{w[Word::bath_fresh], bath(Figure::bath_fresh_resin)},
      CardSetting{w[Word::bath_vacuum_hold], plan(Figure::vacuum_hold)},
      CardSetting{w[Word::bath_reused], bath(Figure::bath_reused_resin)},
      CardSetting{w[Word::bath_soak], least_soak(d, planned)},
      CardSetting{w[Word::bath_activator], bath(Figure::bath_activator)},
      CardSetting{w[Word::bath_dip_start], bath(Figure::bath_start_dip)},
      CardSetting{w[Word::bath_ballast_least], bath(Figure::bath_ballast), ballast_note},
      CardSetting{w[Word::bath_dip_end], bath(Figure::bath_end_dip)},
  };
}

void put_drawing(OrderFlow& flow, const PlannedBath& planned) {
  const Box strip = next_strip(flow, bath_drawing_height);
  const Length settings_width = settings_share * strip.width;
  Canvas canvas = drawing_canvas(flow);
  draw_bath(canvas, {strip.x, strip.y, strip.width - settings_width - gap, strip.height}, flow.dossier, planned);
  draw_card_settings(canvas, {strip.right() - settings_width, strip.y, settings_width, strip.height},
                     flow.dossier.sheet_template, settings(flow.dossier, planned), 2);
}

void put_notes(OrderFlow& flow, const PlannedBath& planned) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  put_text(flow, {w[Word::bath_never_top_up], {.capitals = 3 * mm, .face = Face::bold, .least = 3 * mm}});
  std::string left_over = fmt::format(
      "{} {}; {} {}", w[Word::bath_left_over], shown(d, card_figure(d, planned.figures, Figure::bath_left_over)),
      w[Word::bath_keep_below], shown(d, at_most(d, planned.bath.resin->storage_most.value)));
  if (const auto until = use_by(planned))
    left_over += fmt::format("; {} {}", w[Word::bath_use_by], day_text(d.sheet_template, *until));
  put_text(flow, {left_over + ". " + w[Word::bath_label_it], note_text});
  if (!planned.dye.empty()) put_text(flow, {w[Word::bath_light_first], note_text});
}

void put_checks(OrderFlow& flow, const PlannedBath& planned) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const VacuumFacts& facts = d.shop.vacuum;
  const std::string bubbles =
      fmt::format("{} {} {}", w[Word::bath_check_bubbles], facts.bubbles.value, w[Word::bath_bubbles_rule]);
  // Two times to read off instead of a sum to do: what is planned, and when it has to be longer.
  const bool to_release = facts.soak_counts_to.value == SoakCountsTo::release;
  const std::string soak =
      fmt::format("{} {}. {} {}: {} × {}", w[Word::bath_check_soak], shown(d, least_soak(d, planned)),
                  w[to_release ? Word::bath_soak_longer : Word::bath_soak_longer_to_bubbles],
                  shown(d, planned.hold > Duration{} ? at_least(planned.hold)
                                                     : card_figure(d, d.plan.figures, Figure::vacuum_hold)),
                  shown(d, Number{fmt::format("{:.4g}", facts.soak.value / whole)}), w[Word::bath_soak_rule]);
  const std::string level = fmt::format("{} {}", w[Word::bath_check_level],
                                        shown(d, card_figure(d, planned.figures, Figure::bath_end_dip)));
  CardChecks checks{w, whole_room(flow).width};
  checks.pair({w[Word::bath_check_start], w[Word::date_time]}, {w[Word::bath_check_gauge], w[Word::bath_reading]});
  checks.pair({w[Word::bath_check_target], w[Word::date_time]}, {bubbles, w[Word::date_time]});
  checks.hold(w[Word::bath_hold]);
  checks.pair({w[Word::bath_check_released], w[Word::date_time]}, {level, w[Word::bath_dip_measured]});
  checks.pair({soak, w[Word::date_time]}, {w[Word::bath_check_out], w[Word::date_time]});
  checks.put(flow);
}

void put_card(OrderFlow& flow, const BathOnPaper& bath) {
  put_facts(flow, bath);
  put_strips(flow, flow.dossier.sheet_template.bath_card, gap, [&](CardStrip strip) {
    switch (strip) {
      case CardStrip::figures:
        return put_drawing(flow, *bath.planned);
      case CardStrip::notes:
        return put_notes(flow, *bath.planned);
      case CardStrip::checks:
        return put_checks(flow, *bath.planned);
      case CardStrip::blanks:
        return put_shares(flow, bath.shares);
    }
  });
}

}  // namespace

/// A card for every bath that blanks of the order are in: the vessel with its blanks and levels, what is poured,
/// weighed and set, what is written down while the vacuum runs and the blanks soak, and whose blanks they are. A long
/// list of blanks goes on on further pages.
std::vector<Page> bath_cards(const Dossier& d, const FontMetrics& fonts) {
  std::vector<Page> pages;
  for (const BathOnPaper& bath : d.baths) {
    OrderFlow flow = begin_flow(d, fonts, Word::bath_card, bath.number);
    put_card(flow, bath);
    for (Page& page : pages_of(std::move(flow))) pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace blankwright
