#include "sheet/sheet/parcel_label.h"

#include "sheet/frame/frame.h"
#include "sheet/tag/label.h"

namespace blankwright {

std::vector<Page> parcel_labels(const std::vector<PieceRecorded>& pieces, const Order& order, const Shop& shop,
                                const Template& t, const FontMetrics& fonts, Diagnostics& out) {
  const LabelSheet& sheet = tag_sheet(t);
  const LabelRun run{sheet, shop.printer};
  const LabelLayout layout = parcel_layout(t);
  const BlockStyle style = label_style(t, shop.units.value);
  BlockContent content = content_of(order, shop, t);
  content.is_treated = false;  // any more
  std::vector<Page> pages;
  for (std::size_t n = 0; n < pieces.size(); ++n) {
    const LabelSpot spot = run.spot(static_cast<int>(n));
    if (static_cast<int>(pages.size()) <= spot.page) {
      pages.push_back({paper_of(sheet.paper.value), {}, t.words[Word::parcel_label], {}});
    }
    Canvas canvas{pages.back(), fonts};
    content.id = pieces.at(n).blank;
    content[BlockKind::id] = {pieces.at(n).blank->shown(), t.tag_sheet.at};
    content[BlockKind::wood] = {pieces.at(n).wood, order.wood.species.at};
    if (const auto without_room = draw_blocks(canvas, layout, content, style, {spot.label.x, spot.label.y})) {
      say_no_room(t, *without_room, out);
      return {};
    }
  }
  return pages;
}

}  // namespace blankwright
