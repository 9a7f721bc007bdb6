#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "plan/figure/figure.h"
#include "sheet/drawing/seat_detail.h"
#include "sheet/frame/flowing_text.h"
#include "sheet/mark/block.h"
#include "sheet/paper/hold_place.h"
#include "sheet/paper/limits.h"
#include "sheet/paper/turner_facts.h"
#include "sheet/sheet/blank_table.h"
#include "sheet/sheet/turner_sheet.h"

namespace blankwright {
namespace {

constexpr Length field_width = 15 * mm;

/// "1 Axis off ≤ 1.10 mm": the number on the turner's sheet, what it is, its limit or size.
BlankField check_field(const Dossier& d, Check check, Word word, const std::string& limit) {
  return {fmt::format("{} {} {}", static_cast<int>(check), d.sheet_template.words[word], limit), {field_width}};
}

/// What a dummy is tightened to: as the order says, but never more than stud and bond bear; none where neither is
/// known.
std::optional<std::string> dummy_tightening(const Dossier& d) {
  if (auto wanted = wanted_tightening(d)) return wanted;
  if (!d.plan.tightened.largest) return std::nullopt;
  return figure_text(d, Figure::stud_largest_tightening);
}

/// "25.5 – 26.5": within what the seat's diameter has to be; of the wood under a ferrule its own size, if it is
/// known.
std::string seat_limits_text(const Dossier& d) {
  if (d.order.ferrule) {
    const auto& wood = d.order.ferrule->inside_diameter;
    return wood ? shown(d, number(wood->value, station_printing(d)))
                : d.sheet_template.words[Word::ferrule_wood_fitted];
  }
  const Length seat = d.plan.form.diameter(0 * mm), tolerance = d.order.handle.tolerance.value;
  const Window limits = window(seat - tolerance, seat + tolerance, d.shop.units.value, station_printing(d).fineness);
  return fmt::format("{} – {}", shown(d, limits.least), shown(d, limits.most));
}

constexpr Length hold_gap = 1.5 * mm;
constexpr std::size_t holds_in_row = 3;
constexpr Length least_signature = 10 * mm + hold_line;  // inside that line

/// What waits here for a signature.
std::vector<std::string> holds_to_sign(const Dossier& d) {
  std::vector<std::string> out;
  for (std::size_t n = 0; n < d.times.routing.size(); ++n) {
    const auto& hold = d.times.routing.at(n)->hold;
    if (hold && hold_place(d, n) == HoldPlace::inspection) out.push_back(hold->value);
  }
  return out;
}

void draw_hold(Canvas& canvas, const WordTable& w, const Box& box, const Block& words) {
  canvas.rectangle(inside(box, hold_line / 2), hold_line);
  place_block(canvas, {box.x + 2 * mm, box.y + 1.2 * mm}, words);
  const Length line = box.y + words.height + 2 * mm;
  canvas.line({box.x, line}, {box.right(), line});
  canvas.text({box.x + 2 * mm, line + 3 * mm}, w[Word::signature], {.size = Lettering::note});
}

/// The holds beside each other, those of a row alike in height.
void put_holds(OrderFlow& flow) {
  const WordTable& w = flow.dossier.sheet_template.words;
  const std::vector<std::string> all = holds_to_sign(flow.dossier);
  for (std::size_t first = 0; first < all.size(); first += holds_in_row) {
    const std::size_t count = std::min(holds_in_row, all.size() - first);
    const Length width = (whole_room(flow).width - (holds_in_row - 1.0) * hold_gap) / holds_in_row;
    std::vector<Block> words;
    Length height;
    for (std::size_t i = first; i < first + count; ++i) {
      const std::array phrases{
          Phrase{w[Word::hold], {.size = Lettering::machine, .face = Face::bold, .least = Lettering::machine}},
          Phrase{all.at(i), {.size = Lettering::hand, .least = Lettering::hand}}};
      words.push_back(set_block(canvas_of(flow), phrases, width - 4 * mm));
      height = std::max(height, words.back().height);
    }
    const Box strip = next_strip(flow, height + 2 * mm + least_signature + hold_gap);
    Canvas canvas = canvas_of(flow);
    for (std::size_t i = 0; i < count; ++i) {
      words.at(i).height = height;
      draw_hold(canvas, w,
                {strip.x + static_cast<double>(i) * (width + hold_gap), strip.y, width, strip.height - hold_gap},
                words.at(i));
    }
  }
}

/// Those that found no room on the turner's sheet.
void put_further_cautions(OrderFlow& flow) {
  const std::vector<std::string> all = cautions_for_inspection(flow.dossier, flow.fonts);
  if (all.empty()) return;
  const TextStyle style{.size = Lettering::hand, .least = Lettering::hand};
  put_text(flow, {flow.dossier.sheet_template.words[Word::cautions_title], in_bold(style)});
  for (const std::string& caution : all) put_text(flow, {"• " + caution, style});
  take_strip(flow, std::min(1.5 * mm, free_room(flow).height));
}

}  // namespace

/// The back of the turner's sheet: the holds of the turner's work to sign, and a row for each piece, with a field for
/// every limit of that sheet, for the seat's diameter, the thread's gauge and the verdict; all other sizes get a
/// tick, and a figure only where one is outside. Witnesses never come so far.
void inspection_sheets(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const auto figure = [&](Figure f) { return figure_text(d, f); };
  const bool glued = d.order.bore.fit.value == BoreFit::glued;
  std::vector<BlankField> fields{
      check_field(d, Check::seat_position, is_rounded(d) ? Word::inspect_runout : Word::inspect_position,
                  "≤ " + shown(d, seat_limit(d))),
      check_field(d, Check::rod, Word::inspect_rod, "≤ " + figure(Figure::centring_tilt)),
      check_field(d, Check::squareness, Word::inspect_squareness,
                  "≤ " + shown(d, at_most(d, d.order.seat.squareness.value, Fineness::measured))),
      check_field(d, Check::projection, Word::inspect_projection, figure(Figure::stud_projection)),
      check_field(d, Check::embedded, glued ? Word::inspect_embedded : Word::check_embedded_tapped,
                  figure(Figure::stud_embedded)),
      BlankField{fmt::format("{} Ø {}", w[Word::seat], seat_limits_text(d)), {field_width}},
      BlankField{w[Word::inspect_diameters], {20 * mm}},
      BlankField{w[Word::card_thread], {14 * mm}}};
  if (const auto torque = dummy_tightening(d)) {
    fields.push_back({fmt::format("{} {}", w[Word::inspect_tightened], *torque), {20 * mm}});
  }
  fields.push_back({w[Word::inspect_verdict], {15 * mm, 1}});
  begin_part(flow, Word::inspection_sheet);
  put_holds(flow);
  put_further_cautions(flow);
  put_text(flow, {w[Word::inspection_note], {.size = Lettering::hand, .least = Lettering::hand}});
  take_strip(flow, std::min(1.5 * mm, free_room(flow).height));
  put_blank_table(flow, {.count = piece_count(d), .fields = std::move(fields)});
  constexpr Length detail = 60 * mm;
  if (!fits(free_room(flow).height, detail)) return;
  take_strip(flow, 4 * mm);
  Canvas canvas = canvas_of(flow);
  Box room = free_room(flow);
  room.height = std::min(room.height, 80 * mm);
  draw_seat_detail(canvas, d, room);
}

}  // namespace blankwright
