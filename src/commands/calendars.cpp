#include "commands/calendars.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <tuple>

#include "entries/open_orders.h"
#include "plan/shop/event_names.h"
#include "plan/shop/usual_hours.h"

namespace blankwright {
namespace {

/// An order's blanks that baths are planned for; all of them where none is left to bathe, since no bath names them
/// then.
IssuedTo to_bathe(const PlannedOrder& order, const std::vector<BlankId>& issued) {
  const std::span all{issued};
  const auto witnesses = all.last(std::min(all.size(), static_cast<std::size_t>(order.witnesses)));
  const auto pieces = all.first(all.size() - witnesses.size());
  IssuedTo out{order.id, to_be_bathed(order.record, pieces), to_be_bathed(order.record, witnesses)};
  if (out.pieces.empty() && out.witnesses.empty()) {
    out.pieces.assign(pieces.begin(), pieces.end());
    out.witnesses.assign(witnesses.begin(), witnesses.end());
  }
  return out;
}

/// A bath without IDs is called by its first blank as the order counts them.
BatchNames batch_names(const PlannedTogether& planned, std::span<const IssuedTo> issued) {
  BatchNames names;
  names.planned.resize(planned.plan.baths.size());
  for (const PlannedBath& bath : planned.plan.baths) {
    const BlankShare& first = bath.shares.front();
    const auto lowest = lowest_of(bath, issued);
    names.planned.at(bath.number) =
        lowest ? lowest->shown() : fmt::format("{}-{}", planned.orders.at(first.order).id, first.first + 1);
  }
  std::map<std::string, BlankId> lowest;
  const auto note = [&](const std::string& name, const std::vector<BlankId>& blanks) {
    for (const BlankId& id : blanks) {
      const auto [place, is_new] = lowest.try_emplace(name, id);
      place->second = std::min(place->second, id);
    }
  };
  for (const PlannedOrder& order : planned.orders) {
    for (const auto& [name, bath] : order.record.baths) note(name, bath.blanks);
    for (const auto& [name, load] : order.record.loads) {
      note(name, load.blanks);
      note(name, load.dried);
    }
  }
  for (const auto& [name, id] : lowest) names.real.emplace(name, id.shown());
  return names;
}

/// Makes the calendars of a run of what is planned and what was handed out.
class CalendarMaker {
 public:
  CalendarMaker(const ReadRun& read, const PlannedTogether& planned, const HandedOut& before)
      : read_{read},
        planned_{planned},
        before_{before},
        newest_{before.newest()},
        home_{home_of_events(read.inputs.shop.name.value, read.wanted.flags.draft)} {}

  RunCalendars made(std::vector<Task> tasks, std::span<const IssuedTo> issued) {
    calendars_.tasks = std::move(tasks);
    calendars_.of_order.resize(planned_.of_run);
    plan_events(event_names(calendars_.tasks, batch_names(planned_, issued), home_));
    for (std::size_t n = 0; n < planned_.orders.size(); ++n) add_due(n);
    for (std::size_t n = 0; n < planned_.of_run; ++n) add_of_before(n);
    std::set<std::string> ids;
    for (const PlannedOrder& order : planned_.orders) ids.insert(order.id);
    for (const auto& [id, events] : before_.of_order) {
      if (ids.contains(id)) continue;
      for (KeptEvent& event : cancelled(events)) calendars_.gone.push_back({std::move(event)});
    }
    return std::move(calendars_);
  }

 private:
  std::vector<KeptEvent> cancelled(std::span<const KeptEvent> before) const {
    const auto is_planned = [&](const std::string& uid) { return known_.contains(uid); };
    return cancelled_of(before, newest_, is_planned, planned_.time.at);
  }

  /// An event of each task, in the calendars of all its orders.
  void plan_events(const std::vector<std::string>& names) {
    const UsualHours usual{planned_.time.working};
    std::map<std::string, std::size_t> place;
    for (std::size_t n = 0; n < planned_.of_run; ++n) place.emplace(planned_.orders.at(n).id, n);
    for (std::size_t i = 0; i < names.size(); ++i) {
      const Task& task = calendars_.tasks.at(i);
      CalendarEntry& entry = entries_.emplace_back();
      entry.task = i;
      entry.alarm = task.needs_hands() && !usual.have(task.at.from);
      entry.event.uid = names.at(i);
      entry.event.operation = task.operation;
      entry.event.at = task.at;
      entry.event.facts = facts_of(task, entry.alarm);
      set_sequences({&entry.event, 1}, newest_, before_.prints);
      known_.emplace(names.at(i), i);
      for (const TaskOrder& order : task.orders) {
        const auto of_run = place.find(order.id);
        if (of_run != place.end()) calendars_.of_order.at(of_run->second).push_back(entry);
      }
    }
  }

  void add_due(std::size_t n) {
    const auto& due = planned_.to_make.at(n).due;
    if (!due) return;
    const std::string& id = planned_.orders.at(n).id;
    CalendarEntry entry;
    entry.event.uid = due_event_name(id, home_);
    known_.emplace(entry.event.uid, std::nullopt);
    if (n >= planned_.of_run) return;
    const Instant day = std::chrono::sys_days{due->value};
    entry.event.at = {day, day + std::chrono::days{1}};
    entry.event.facts = day.time_since_epoch().count();
    set_sequences({&entry.event, 1}, newest_, before_.prints);
    calendars_.of_order.at(n).push_back(std::move(entry));
  }

  /// What stood in an order's calendar and is others' alone now, and what is planned no more.
  void add_of_before(std::size_t n) {
    const auto before = before_.of_order.find(planned_.orders.at(n).id);
    if (before == before_.of_order.end()) return;
    std::set<std::string> own;
    for (const CalendarEntry& entry : calendars_.of_order.at(n)) own.insert(entry.event.uid);
    for (const KeptEvent& event : before->second) {
      const auto planned = known_.find(event.uid);
      const bool is_others = planned != known_.end() && planned->second && !own.contains(event.uid);
      if (is_others && event.at.to > planned_.time.at)
        calendars_.of_order.at(n).push_back(entries_.at(*planned->second));
    }
    for (KeptEvent& event : cancelled(before->second)) calendars_.of_order.at(n).push_back({std::move(event)});
  }

  const ReadRun& read_;
  const PlannedTogether& planned_;
  const HandedOut& before_;
  std::map<std::string, KeptEvent> newest_;
  std::string home_;
  RunCalendars calendars_;
  std::vector<CalendarEntry> entries_;                         ///< one a task
  std::map<std::string, std::optional<std::size_t>> known_{};  ///< of each planned uid the task; none: a due date
};

}  // namespace

std::vector<Task> tasks_of_all(const PlannedTogether& planned, const Shop& shop) {
  std::vector<Task> tasks;
  for (std::size_t n = 0; n < planned.orders.size(); ++n) {
    const OrderTimes times = times_in_short(n, planned.plan, planned.to_make, shop, planned.time);
    std::ranges::move(tasks_of(planned.orders.at(n).id, times, shop), std::back_inserter(tasks));
  }
  // What goes on by itself and needs no longer is over, though nobody entered it.
  const Instant now = std::chrono::ceil<std::chrono::minutes>(planned.time.at);
  std::erase_if(tasks, [&](const Task& task) { return !task.needs_hands() && task.at.to <= now; });
  return shop_tasks(std::move(tasks));
}

std::vector<std::vector<BlankId>> blanks_of(std::span<const IssuedOrder> orders) {
  std::vector<std::vector<BlankId>> out;
  for (const IssuedOrder& order : orders) out.push_back(order.blanks);
  return out;
}

std::vector<IssuedTo> blanks_to_bathe(const ReadRun& read, const PlannedTogether& planned,
                                      std::span<const std::vector<BlankId>> issued) {
  std::vector<IssuedTo> out;
  for (std::size_t n = 0; n < planned.orders.size(); ++n) {
    const PlannedOrder& one = planned.orders.at(n);
    const auto& blanks = n < issued.size() ? issued[n] : one.record.issued_to_order;
    out.push_back(read.wanted.flags.draft && one.job ? IssuedTo{one.id, {}, {}} : to_bathe(one, blanks));
  }
  return out;
}

HandedOut handed_out(Register& known, const ReadRun& read, const PlannedTogether& planned) {
  HandedOut out;
  out.prints = static_cast<int>(known.print_count());
  const auto add = [&](const std::string& id) { out.of_order.emplace(id, read_kept_events(known.newest_plan(id))); };
  for (const PlannedOrder& order : planned.orders) add(order.id);
  if (!read.wanted.flags.week) return out;
  const auto open = open_orders(known.known_blanks(), known.quantities());
  const auto asked = ids_of(read.jobs);
  for (const StoredOrder& order : known.stored_orders()) {
    const bool is_asked = std::ranges::find(asked, order.id) != asked.end();
    if (!open.contains(order.id) && !is_asked) add(order.id);
  }
  return out;
}

RunCalendars calendars_of(const ReadRun& read, const PlannedTogether& planned, std::vector<Task> tasks,
                          std::span<const std::vector<BlankId>> issued, const HandedOut& before) {
  return CalendarMaker{read, planned, before}.made(std::move(tasks), blanks_to_bathe(read, planned, issued));
}

std::vector<CalendarEntry> calendar_of_shop(const RunCalendars& calendars, std::span<const OrderInDays> orders) {
  std::set<std::string> in_days;
  for (const OrderInDays& order : orders) in_days.insert(order.id);
  std::vector<CalendarEntry> out;
  std::set<std::string> uids;
  const auto add = [&](const CalendarEntry& entry) {
    if (uids.insert(entry.event.uid).second) out.push_back(entry);
  };
  const auto is_of_days = [&](const CalendarEntry& entry) {
    if (!entry.task) return entry.event.cancelled || in_days.contains(whose(entry.event));
    const auto& of_task = calendars.tasks.at(*entry.task).orders;
    return std::ranges::any_of(of_task, [&](const TaskOrder& one) { return in_days.contains(one.id); });
  };
  for (const auto& of_order : calendars.of_order) {
    for (const CalendarEntry& entry : of_order) {
      if (is_of_days(entry)) add(entry);
    }
  }
  for (const CalendarEntry& entry : calendars.gone) add(entry);
  std::ranges::stable_sort(out, {}, [](const CalendarEntry& entry) {
    return std::tuple{!entry.task, entry.event.cancelled, entry.task.value_or(0), entry.event.uid};
  });
  return out;
}

}  // namespace blankwright
