#pragma once

#include "sheet/frame/flow.h"
#include "sheet/paper/shop_days.h"

namespace blankwright {

/// Seven days from one on as bars over their hours, a line for each person, vessel and oven that has something to do:
/// filled where somebody is at it, hatched where something runs; with the bath or load, or the order, where there is
/// room for it. Nothing where nothing is on.
void put_week_bars(Flow& flow, const ShopDays& days, Date first);

}  // namespace blankwright
