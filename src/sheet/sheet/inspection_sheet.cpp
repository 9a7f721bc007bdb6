#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "plan/figure/figure.h"
#include "sheet/drawing/seat_detail.h"
#include "sheet/frame/flowing_text.h"
#include "sheet/paper/limits.h"
#include "sheet/paper/turner_facts.h"
#include "sheet/sheet/blank_table.h"

namespace blankwright {
namespace {

constexpr Length field_width = 15 * mm;

/// "1 Axis off ≤ 1.10 mm": the number on the turner's sheet, what it is, its limit or size.
BlankField check_field(const Dossier& d, Check check, Word word, const std::string& limit) {
  return {fmt::format("{} {} {}", static_cast<int>(check), d.sheet_template.words[word], limit), {field_width}};
}

/// What a dummy is tightened to: as the order says, but never more than stud and bond bear; none where neither is
/// known.
std::optional<std::string> tightening_text(const Dossier& d) {
  const UnitSystem units = d.shop.units.value;
  const auto& tightening = d.order.stud.tightening;
  const auto& largest = d.plan.tightened.largest;
  if (tightening && tightening->value > 0 * newton_metre && (!largest || tightening->value <= *largest)) {
    return shown(d, printed(tightening->value, units));
  }
  if (!largest) return std::nullopt;
  return figure_text(d, Figure::stud_largest_tightening);
}

}  // namespace

/// The back of the turner's sheet: a row for each piece, with a field for every check of that sheet with its limit at
/// the head, for diameters where that counts, length, thread gauge and verdict. Witnesses never come so far.
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
      BlankField{fmt::format("{} Ø", w[Word::seat]), {field_width}},
      BlankField{w[Word::inspect_diameters], {field_width}},
      BlankField{fmt::format("{} {}", w[Word::length], figure(Figure::handle_length)), {field_width}},
      BlankField{w[Word::card_thread], {12 * mm}}};
  if (const auto torque = tightening_text(d)) {
    fields.push_back({fmt::format("{} {}", w[Word::inspect_tightened], *torque), {20 * mm}});
  }
  fields.push_back({w[Word::inspect_verdict], {15 * mm, 1}});
  begin_part(flow, Word::inspection_sheet);
  put_text(flow, {w[Word::inspection_note], {.capitals = 2.5 * mm, .least = 2.5 * mm}});
  take_strip(flow, 1.5 * mm);
  put_blank_table(flow, {.count = piece_count(d), .fields = std::move(fields)});
  constexpr Length detail = 60 * mm;
  if (!fits(free_room(flow).height, detail)) return;
  take_strip(flow, 4 * mm);
  Canvas canvas = drawing_canvas(flow);
  Box room = free_room(flow);
  room.height = std::min(room.height, 80 * mm);
  draw_seat_detail(canvas, d, room);
}

}  // namespace blankwright
