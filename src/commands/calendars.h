#pragma once

#include <span>
#include <string>
#include <vector>

#include "commands/compile_steps.h"
#include "register/register.h"
#include "sheet/paper/on_paper.h"

namespace blankwright {

/// What is to be done for all orders of a plan, as the shop does it.
std::vector<Task> tasks_of_all(const PlannedTogether& planned, const Shop& shop);

/// The blanks of each of some orders.
std::vector<std::vector<BlankId>> blanks_of(std::span<const IssuedOrder> orders);

/// The blanks of each order of a plan that baths are planned for; of a draft's own orders none. `issued`: to each
/// order of the run.
std::vector<IssuedTo> blanks_to_bathe(const ReadRun& read, const PlannedTogether& planned,
                                      std::span<const std::vector<BlankId>> issued);

/// What was handed out last of the orders of a plan; where the shop's days are wanted, also of those that are open no
/// more.
HandedOut handed_out(Register& known, const ReadRun& read, const PlannedTogether& planned);

/// Tells each task's event from what was handed out of it. `tasks` as tasks_of_all() has them.
RunCalendars calendars_of(const ReadRun& read, const PlannedTogether& planned, std::vector<Task> tasks,
                          std::span<const std::vector<BlankId>> issued, const HandedOut& before);

/// The shop's calendar: the events of these orders, and what was cancelled of all.
std::vector<CalendarEntry> calendar_of_shop(const RunCalendars& calendars, std::span<const OrderInDays> orders);

}  // namespace blankwright
