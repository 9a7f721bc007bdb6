#include "write/schedule_ics.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string>
#include <vector>

#include "write/icalendar.h"

namespace blankwright {
namespace {

/// What makes an event's name differ from that of another shop: its own name in small letters, digits and dashes;
/// bytes beyond ASCII by their hexadecimal digits.
std::string of_shop(const std::string& name) {
  std::string out;
  for (const char c : name) {
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) {
      out += c;
    } else if (c >= 'A' && c <= 'Z') {
      out += static_cast<char>(c - 'A' + 'a');
    } else if (static_cast<unsigned char>(c) >= 0x80) {
      out += fmt::format("{:02x}", static_cast<unsigned char>(c));
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  return out;
}

/// What tells an event from the others of its operation.
char letter_of(TaskKind kind) {
  switch (kind) {
    case TaskKind::work:
      return 'w';
    case TaskKind::begins:
      return 'b';
    case TaskKind::ends:
      return 'e';
    case TaskKind::attended:
    case TaskKind::by_itself:
      return 'r';
  }
  return 'w';
}

CalendarEvent task_event(const ShopDays& days, const Task& task) {
  CalendarEvent event;
  event.uid = fmt::format("{}.{}.{}{}@{}", task.orders.front().id, task.number + 1, letter_of(task.kind),
                          task.part + 1, of_shop(days.shop.name.value));
  event.from = task.at.from;
  event.to = task.at.to;
  event.summary =
      fmt::format("{}: {}", orders_text(days.sheet_template.words, task), task_text(days.sheet_template.words, task));
  event.description = task.limit;
  if (!task.hold.empty()) {
    event.description += fmt::format("{}{}: {}", event.description.empty() ? "" : "\n",
                                     days.sheet_template.words[Word::hold], task.hold);
  }
  const std::string batch = batch_text(days.sheet_template.words, task);
  event.place = task.resource.empty() || batch.empty() ? task.resource + batch : task.resource + ", " + batch;
  event.category = task.who;
  event.busy = task.needs_hands();
  return event;
}

CalendarEvent due_event(const ShopDays& days, const OrderInDays& order) {
  CalendarEvent event;
  event.uid = fmt::format("{}.due@{}", order.id, of_shop(days.shop.name.value));
  event.all_day = order.due;
  event.summary = fmt::format("{}: {}", order.id, days.sheet_template.words[Word::due]);
  event.description = fmt::format("{}, {}", order.item, order.client);
  event.busy = false;
  return event;
}

}  // namespace

std::string schedule_ics(const ShopDays& days, const std::string& name) {
  CalendarFile file{name, days.program, days.at, days.draft, {}};
  for (const Task& task : days.tasks) file.events.push_back(task_event(days, task));
  for (const OrderInDays& order : days.orders) {
    if (order.due) file.events.push_back(due_event(days, order));
  }
  return icalendar(file);
}

}  // namespace blankwright
