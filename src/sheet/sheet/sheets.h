#pragma once

#include <vector>

#include "read/words.h"
#include "sheet/frame/flow.h"

namespace blankwright {

/// What puts each kind of sheet on an order's pages; nothing for an order that has no use for it. What is on them
/// stands with each.
#define BW_MAKER(kind, title, maker, hand, sign) void maker(OrderFlow& flow);
BW_SHEETS(BW_MAKER)
#undef BW_MAKER

/// The pages of one kind alone.
#define BW_PAGES(kind, title, maker, hand, sign) \
  std::vector<Page> maker(const Dossier& dossier, const FontMetrics& fonts);
BW_SHEETS(BW_PAGES)
#undef BW_PAGES

}  // namespace blankwright
