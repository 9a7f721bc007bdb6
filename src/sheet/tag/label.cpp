#include "sheet/tag/label.h"

#include <algorithm>

#include "diagnose/problem.h"
#include "diagnose/says_run.h"

namespace blankwright {
namespace {

LabelLayout placed_on_label(const Template& t, const std::vector<BlockFacts>& blocks) {
  const LabelSheet& sheet = tag_sheet(t);
  const Box label{0 * mm, 0 * mm, sheet.width.value, sheet.height.value};
  return placed_blocks(blocks, {.free = inside(label, label_margin),
                                .white = label_margin,
                                .label_height = sheet.height.value,
                                .codes = code_forms(t),
                                .pictures = t.pictures});
}

/// A small one for the end of a blank, with room for little more than its code.
bool is_for_ends(const LabelSheet& sheet) {
  constexpr Length most = 30 * mm;
  const auto [shorter, longer] = std::minmax(sheet.width.value, sheet.height.value);
  return longer <= most && longer < 1.2 * shorter;
}

}  // namespace

LabelLayout tag_layout(const Template& t) {
  return placed_on_label(t, is_for_ends(tag_sheet(t)) ? t.end_tag : t.tag);
}

LabelLayout parcel_layout(const Template& t) {
  return placed_on_label(t, is_for_ends(tag_sheet(t)) ? t.end_tag : t.parcel);
}

BlockStyle label_style(const Template& t, UnitSystem units) { return {t, units, NoRoom::refuse, code_forms(t)}; }

void say_no_room(const Template& t, const BlockWords& words, Diagnostics& out) {
  const bool on_label = t.tags.value == TagForm::labels;
  out.error(Problem::text_does_not_fit, words.from,
            on_label ? say(says::no_room_on_label, words.words, tag_sheet(t).name.value)
                     : say(says::no_room_on_tie_tag, words.words))
      .hint(on_label ? says::shorter_or_larger_label : says::shorter_or_larger_tag);
}

void say_near_edge(const Template& t, const PrinterFacts& printer, Diagnostics& out) {
  const LabelSheet& sheet = tag_sheet(t);
  if (t.tags.value == TagForm::tie_tags || !is_near_edge(sheet, printer, label_margin)) return;
  out.warning(Problem::ink_near_edge, t.tag_sheet.at, says::labels_near_edge, sheet.name.value)
      .hint(says::print_one_and_look);
}

}  // namespace blankwright
