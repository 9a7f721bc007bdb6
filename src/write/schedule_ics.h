#pragma once

#include <string>

#include "sheet/paper/shop_days.h"

namespace blankwright {

/// Planned times as a calendar file of that name (RFC 5545): an event for each stretch in which somebody is at
/// something, one that keeps nobody busy for what goes on by itself, and each due date as a day. An event that
/// is planned again later has the same UID, in an order's file as in the shop's.
std::string schedule_ics(const ShopDays& days, const std::string& name);

}  // namespace blankwright
