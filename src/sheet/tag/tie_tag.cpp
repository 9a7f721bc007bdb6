#include "sheet/tag/tie_tag.h"

#include <algorithm>
#include <cmath>

#include "sheet/frame/frame.h"
#include "sheet/tag/label.h"

namespace blankwright {
namespace {

constexpr Length eye = 10 * mm;             // from the fold to the middle of the hole; common practice, no source
constexpr Length kept_free = tie_tag_flap;  // about the eye, on either side of the fold
constexpr Length chamfer = 10 * mm;         // of the flap's corners, so that they do not catch
constexpr Length gap = 2 * mm;              // between tags: two cuts

/// The outline to cut along, eyes, fold and tear line.
void draw_outline(Canvas& canvas, const TieTagLayout& t, const Box& all) {
  const Length fold = all.x + t.flap, tear = fold + t.width, middle = all.y + all.height / 2;
  canvas.outline({{all.x + chamfer, all.y},
                  {all.right(), all.y},
                  {all.right(), all.bottom()},
                  {all.x + chamfer, all.bottom()},
                  {all.x, all.bottom() - chamfer},
                  {all.x, all.y + chamfer}},
                 narrow_line);
  canvas.line({fold, all.y}, {fold, all.bottom()}, narrow_line, Dash::centre);
  canvas.line({tear, all.y}, {tear, all.bottom()}, narrow_line, Dash::tear);
  // On the flap as far from the fold, so that one lies on the other.
  for (const Length x : {fold - eye, fold + eye}) canvas.circle({x, middle}, t.hole / 2);
}

}  // namespace

TieTagLayout tie_tag_layout(const Template& t) {
  const TieTagFacts& facts = t.tie_tag;
  const Paper paper = paper_of(t.paper.value);
  const Length margin = t.margin.value;
  TieTagLayout out;
  out.flap = kept_free;
  out.stub = facts.stub.value;
  out.width = facts.width.value;
  out.hole = facts.hole.value;
  const Length height = facts.height.value;
  const Length all = out.flap + out.width + out.stub;
  out.first = {(paper.width - all) / 2, margin, all, height};
  out.on_a_page = std::max(1, static_cast<int>(std::floor((paper.height - 2 * margin + gap) / (height + gap))));
  const auto placed = [&](std::span<const BlockFacts> blocks, Box free) {
    return placed_blocks(blocks, {.free = free,
                                  .white = label_margin,
                                  .label_height = height,
                                  .codes = code_forms(t),
                                  .pictures = t.pictures});
  };
  const Length inner = height - 2 * label_margin;
  out.on_tag = placed(t.tag, {out.flap + kept_free, label_margin, out.width - kept_free - label_margin, inner});
  out.on_stub =
      placed(t.stub, {out.flap + out.width + label_margin, label_margin, out.stub - 2 * label_margin, inner});
  return out;
}

std::optional<BlockWords> draw_tie_tag(Canvas& canvas, const TieTagLayout& layout, const BlockContent& content,
                                       const BlockStyle& style, int place) {
  Box all = layout.first;
  all.y += place * (all.height + gap);
  draw_outline(canvas, layout, all);
  const Spot corner{all.x, all.y};
  if (auto without_room = draw_blocks(canvas, layout.on_tag, content, style, corner)) return without_room;
  return draw_blocks(canvas, layout.on_stub, content, style, corner);
}

}  // namespace blankwright
