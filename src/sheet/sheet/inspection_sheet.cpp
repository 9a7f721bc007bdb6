#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <vector>

#include "plan/figure/figure.h"
#include "sheet/paper/limits.h"
#include "sheet/paper/turner_facts.h"
#include "sheet/sheet/blank_table.h"

namespace blankwright {
namespace {

constexpr Length field_width = 19 * mm;

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

/// Witnesses are cut open, not turned: their rows say so.
std::vector<std::string> witness_marks(const Dossier& d) {
  std::vector<std::string> marks(static_cast<std::size_t>(blank_count(d)));
  for (std::size_t n = static_cast<std::size_t>(piece_count(d)); n < marks.size(); ++n) {
    marks.at(n) = d.sheet_template.words[Word::witness];
  }
  return marks;
}

}  // namespace

/// The inspection table: a row a blank, a field for every check of the turner's sheet with its limit at the head, and
/// for the length of the finished handle.
std::vector<Page> inspection_sheets(const Dossier& d, const FontMetrics& fonts) {
  const WordTable& w = d.sheet_template.words;
  const auto figure = [&](Figure f) { return figure_text(d, f); };
  std::vector<BlankField> fields{
      check_field(d, Check::seat_position, is_rounded(d) ? Word::inspect_runout : Word::inspect_position,
                  "≤ " + shown(d, seat_limit(d))),
      check_field(d, Check::rod, Word::inspect_rod, "≤ " + figure(Figure::centring_tilt)),
      check_field(d, Check::squareness, Word::inspect_squareness,
                  "≤ " + shown(d, at_most(d, d.order.seat.squareness.value, Fineness::measured))),
      check_field(d, Check::projection, Word::inspect_projection, figure(Figure::stud_projection)),
      check_field(d, Check::embedded, Word::inspect_embedded, figure(Figure::stud_embedded)),
      BlankField{fmt::format("{} {}", w[Word::length], figure(Figure::handle_length)), {field_width}}};
  if (const auto torque = tightening_text(d)) {
    fields.push_back({fmt::format("{} {}", w[Word::inspect_tightened], *torque), {28 * mm}});
  }
  fields.push_back({w[Word::remarks], {22 * mm, 1}, witness_marks(d)});
  OrderFlow flow = begin_flow(d, fonts, Word::inspection_sheet);
  put_blank_table(flow, w[Word::inspection_note], fields);
  return pages_of(std::move(flow));
}

}  // namespace blankwright
