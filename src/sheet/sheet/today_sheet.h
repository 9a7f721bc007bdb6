#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/today_list.h"

namespace blankwright {

/// Today's sheet: questions first, then HOLDs, late orders, what runs, each person's list with a field to tick off,
/// what has to be begun or ended before leaving, what comes next. There is always a page.
std::vector<Page> today_sheets(const TodayFacts& facts, const FontMetrics& fonts);

}  // namespace blankwright
