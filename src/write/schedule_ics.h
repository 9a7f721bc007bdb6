#pragma once

#include <optional>
#include <span>
#include <string>

#include "plan/shop/kept_events.h"
#include "sheet/paper/shop_days.h"

namespace blankwright {

/// What stands in a calendar: what is to be done, a due date, or what is planned no more.
struct CalendarEntry {
  KeptEvent event;
  std::optional<std::size_t> task{};  ///< of the shop's; none otherwise
  bool alarm = false;                 ///< a hand is needed when nobody would think of it
};

/// What a calendar file is written from.
struct CalendarToWrite {
  const std::string& name;
  const WordTable& words;
  const std::string& program;
  Instant at;  ///< of the compile
  bool draft = false;
  std::span<const Task> tasks;  ///< of the shop
  std::span<const CalendarEntry> entries;
  std::span<const OrderInDays> orders;  ///< whose due dates are among them
};

/// Planned times as a calendar file (RFC 5545): an event for each stretch in which somebody is at something, one that
/// keeps nobody busy for what goes on by itself, each due date as a day, and what is planned no more, cancelled. An
/// event is the same in an order's file as in the shop's.
std::string schedule_ics(const CalendarToWrite& calendar);

}  // namespace blankwright
