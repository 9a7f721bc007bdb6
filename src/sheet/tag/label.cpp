#include "sheet/tag/label.h"

#include <fmt/format.h>

#include "diagnose/problem.h"

namespace blankwright {

LabelLayout label_layout(const Template& t, std::span<const BlockFacts> blocks, const LabelSheet& sheet) {
  const Box label{0 * mm, 0 * mm, sheet.width.value, sheet.height.value};
  return placed_blocks(blocks, {.free = inside(label, label_margin),
                                .white = label_margin,
                                .label_height = sheet.height.value,
                                .codes = code_forms(t),
                                .pictures = t.pictures});
}

BlockStyle label_style(const Template& t, UnitSystem units) { return {t, units, NoRoom::refuse, code_forms(t)}; }

void say_no_room(const Template& t, const BlockWords& words, Diagnostics& out) {
  const bool on_label = t.tags.value == TagForm::labels;
  const std::string what = on_label ? fmt::format("a label of \"{}\"", tag_sheet(t).name.value) : "a tie tag";
  out.error(Problem::text_does_not_fit, words.from, fmt::format("\"{}\" finds no room on {}", words.words, what))
      .hint(on_label ? "shorten it, or take a larger label: `tag_sheet` in the template"
                     : "shorten it, or take a larger tag: `tie_tag` in the template");
}

void say_near_edge(const Template& t, const PrinterFacts& printer, Diagnostics& out) {
  const LabelSheet& sheet = tag_sheet(t);
  if (t.tags.value == TagForm::tie_tags || !is_near_edge(sheet, printer, label_margin)) return;
  out.warning(Problem::ink_near_edge, t.tag_sheet.at,
              fmt::format("labels of \"{}\" are printed within 5 mm of the paper's edge, where many printers print "
                          "nothing",
                          sheet.name.value))
      .hint("print one sheet and look, or take a label sheet with wider margins");
}

}  // namespace blankwright
