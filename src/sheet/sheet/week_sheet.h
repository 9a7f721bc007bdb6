#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/shop_days.h"

namespace blankwright {

/// What is to be done in the shop, to hang up: how each order stands against its due date, then day by day who does
/// what when, for which orders and where, with a field to tick off. The first week is that from now; each one in
/// which something begins has a page of its own, and the first always.
std::vector<Page> week_sheets(const ShopDays& days, const FontMetrics& fonts);

}  // namespace blankwright
