#pragma once

#include <vector>

#include "read/shop.h"
#include "read/template.h"
#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"

namespace blankwright {

/// Every caution of the template, step by step, to hang up in the shop: the sheets of an order have but the line that
/// belongs to them.
std::vector<Page> shop_cautions(const Shop& shop, const Template& t, const FontMetrics& fonts);

}  // namespace blankwright
