#include "write/schedule_ics.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "write/icalendar.h"

namespace blankwright {
namespace {

CalendarEvent task_event(const WordTable& words, const Task& task) {
  CalendarEvent event;
  event.from = task.at.from;
  event.to = task.at.to;
  event.summary = fmt::format("{}: {}", orders_text(words, task), task_text(words, task));
  event.description = task.limit;
  if (!task.hold.empty()) {
    event.description += fmt::format("{}{}: {}", event.description.empty() ? "" : "\n", words[Word::hold], task.hold);
  }
  event.place = fmt::format("{}", fmt::join(place_lines(words, task), ", "));
  event.category = task.who;
  event.busy = task.needs_hands();
  return event;
}

/// A due date, or what is planned no more.
CalendarEvent other_event(const CalendarToWrite& calendar, const CalendarEntry& entry) {
  const KeptEvent& kept = entry.event;
  const bool is_due_date = kept.operation.empty();
  CalendarEvent event;
  event.from = kept.at.from;
  event.to = kept.at.to;
  if (is_due_date) event.all_day = date_of(Zone{}, kept.at.from);
  event.summary = fmt::format("{}: {}", whose(kept), is_due_date ? calendar.words[Word::due] : kept.operation);
  event.busy = false;
  event.cancelled = kept.cancelled;
  const auto order = std::ranges::find(calendar.orders, whose(kept), &OrderInDays::id);
  if (!is_due_date || order == calendar.orders.end()) return event;
  event.description = fmt::format("{}, {}", order->item, order->client);
  return event;
}

}  // namespace

std::string schedule_ics(const CalendarToWrite& calendar) {
  CalendarFile file{calendar.name, calendar.program, calendar.at, calendar.draft, {}};
  for (const CalendarEntry& entry : calendar.entries) {
    CalendarEvent event =
        entry.task ? task_event(calendar.words, calendar.tasks[*entry.task]) : other_event(calendar, entry);
    event.uid = entry.event.uid;
    event.sequence = entry.event.sequence;
    event.alarm = entry.alarm;
    file.events.push_back(std::move(event));
  }
  return icalendar(file);
}

}  // namespace blankwright
