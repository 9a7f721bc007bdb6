#include "sheet/frame/actual_size.h"

#include <fmt/format.h>

#include <cmath>

#include "sheet/paper/turner_facts.h"

namespace blankwright {
namespace {

constexpr Length hundred = 100 * mm;    // what the shop file's figures are the printed length of
constexpr Length bar_slack = 0.3 * mm;  // common practice, no source
constexpr Length bar_strip = 10 * mm;   // kept free for a bar, beside the body
constexpr Length end_tick = 1.5 * mm;   // to either side of the bar
constexpr Length caption_gap = 0.8 * mm;

/// What the shop's rule has a line for.
Length bar_of(const Dossier& d) { return d.shop.units.value == UnitSystem::metric ? hundred : 4 * inch; }

std::string bar_text(const Dossier& d) {
  const Length bar = bar_of(d);
  return d.shop.units.value == UnitSystem::metric
             ? shown(d, printed(drawn_number(bar, {UnitSystem::metric}), PrintedUnit::millimetres))
             : shown(d, printed(bar, size_printing(d, Fineness::measured)));
}

void draw_bars(Canvas& canvas, const Dossier& d, const Box& all) {
  const PrinterCorrection c = correction_of(d.shop.printer);
  const Length bar = bar_of(d);
  const Spot left{all.x + narrow_line, all.bottom() - 2.5 * mm};
  const Spot right = c.from(left, bar, 0 * mm);
  const Spot top{all.right() - end_tick, all.y + narrow_line};
  const Spot bottom = c.from(top, 0 * mm, bar);
  canvas.strokes({{left, right}, {top, bottom}}, narrow_line);
  canvas.strokes({{{left.x, left.y - end_tick}, {left.x, left.y + end_tick}},
                  {{right.x, right.y - end_tick}, {right.x, right.y + end_tick}},
                  {{top.x - end_tick, top.y}, {top.x + end_tick, top.y}},
                  {{bottom.x - end_tick, bottom.y}, {bottom.x + end_tick, bottom.y}}},
                 narrow_line);
  const TextStyle style{.size = Lettering::hand, .align = Align::centre};
  canvas.text({left.x + (right.x - left.x) / 2, left.y - end_tick - caption_gap}, bar_text(d), style);
  canvas.text_upright({top.x - end_tick - caption_gap, top.y + (bottom.y - top.y) / 2}, bar_text(d), style);
  const Length words = right.x + 3 * mm;
  canvas.text_fitted({words, all.bottom() - 7 * mm, all.right() - words, 6 * mm},
                     d.sheet_template.words[Word::actual_size],
                     {.size = Lettering::machine, .face = Face::bold, .align = Align::right});
}

}  // namespace

PrinterCorrection correction_of(const PrinterFacts& printer) {
  return {hundred / printer.bar_x.value, hundred / printer.bar_y.value};
}

Sheet begin_actual_size(const Dossier& d, const FontMetrics& fonts, Word title, PageOfKind page) {
  Sheet sheet = begin_sheet(d, fonts, title, page);
  Canvas canvas{sheet.page, fonts, lettering_of(d.sheet_template)};
  draw_bars(canvas, d, sheet.body);
  sheet.body.width -= bar_strip;
  sheet.body.height -= bar_strip;
  return sheet;
}

void draw_bar_across(Canvas& canvas, const Dossier& d, const Box& box) {
  const Spot left{box.x + narrow_line, box.y + box.height / 2};
  const Spot right = correction_of(d.shop.printer).from(left, bar_of(d), 0 * mm);
  canvas.strokes({{left, right},
                  {{left.x, left.y - end_tick}, {left.x, left.y + end_tick}},
                  {{right.x, right.y - end_tick}, {right.x, right.y + end_tick}}},
                 narrow_line);
  const Length x = right.x + 2 * mm;
  canvas.text_fitted({x, box.y, box.right() - x, box.height},
                     fmt::format("{} · {}", bar_text(d), d.sheet_template.words[Word::actual_size]), {});
}

Phrase point(const std::string& words, Face face) { return {"• " + words, {.size = Lettering::note, .face = face}}; }

std::vector<Phrase> bar_phrases(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const PrinterFacts& printer = d.shop.printer;
  const UnitSystem units = d.shop.units.value;
  const Length bar = bar_of(d);
  const auto size = [&](Length length) { return shown(d, printed(length, size_printing(d, Fineness::measured))); };
  const auto unit = column_unit<Length>(units);
  const Window right = window(bar - bar_slack, bar + bar_slack, units, Fineness::measured);
  const bool measured = printer.bar_x.origin != Origin::standard || printer.bar_y.origin != Origin::standard;
  const PrinterCorrection c = correction_of(printer);
  return {
      point(fmt::format("{}: {} – {}.", w[Word::bars_measure], shown(d, Amount{right.least, unit}),
                        shown(d, Amount{right.most, unit})),
            Face::bold),
      point(w[Word::bars_otherwise]),
      point(measured ? fmt::format("{}: {} ×{}, {} ×{}.", w[Word::bars_corrected], w[Word::bars_across],
                                   shown(d, decimal(c.across, 4)), w[Word::bars_down], shown(d, decimal(c.down, 4)))
                     : w[Word::bars_not_corrected]),
      point(fmt::format("{} / {}. {}: {}, bar_x = {}; {}, bar_y = {}.", w[Word::bars_new], size(bar),
                        w[Word::bars_old], w[Word::bars_across], size(printer.bar_x.value), w[Word::bars_down],
                        size(printer.bar_y.value))),
  };
}

Box circle_to_print(const PrinterCorrection& correction, Spot centre, Length diameter) {
  const Length across = correction.across * diameter, down = correction.down * diameter;
  return {centre.x - across / 2, centre.y - down / 2, across, down};
}

}  // namespace blankwright
