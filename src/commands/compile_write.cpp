#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <ostream>
#include <set>

#include "commands/calendars.h"
#include "commands/documents.h"
#include "commands/order_on_paper.h"
#include "commands/workers.h"
#include "commands/written_files.h"
#include "diagnose/failure.h"

namespace blankwright {
namespace {

/// What stands in the calendar of the order that this is the dossier of.
std::string calendar_of(const OrderOfRun& o, const RunCalendars& calendars, const Dossier& d) {
  if (!wants(o.flags(), "calendar")) return {};
  const std::vector orders{order_in_days(d)};
  return schedule_ics({o.id(), d.sheet_template.words, d.program, d.at, d.draft, calendars.tasks,
                       calendars.of_order.at(o.number), orders});
}

std::string in_the_way(const WorldError& error) { return fmt::format("blankwright: {}\n", error.what()); }

/// Plans an order again as it was issued, and writes what was asked for. What is in the way of that is in the way of
/// this order alone: the others may still find room.
WrittenOrder write_one(const OrderOfRun& o, const RunCalendars& calendars, std::span<const IssuedTo> issued,
                       Files& disk) {
  WrittenOrder written;
  const auto on_paper = order_on_paper(o, issued);
  if (on_paper == nullptr) {
    written.world =
        in_the_way({o.read.register_place.name,
                    fmt::format("another run has just given order \"{}\" more blanks; compile it again", o.id())});
    return written;
  }
  const Dossier& dossier = on_paper->dossier();
  written.said = on_paper->said();
  if (o.flags().week && !on_paper->times().alone) written.in_days.push_back(order_in_days(dossier));
  if (o.run.is_left_out(o.number)) {
    written.done = o.run.paper.at(o.number).told;
    return written;
  }
  try {
    Diagnostics no_room;
    const OrderTold told{o.issued.so_far, on_paper->to_list(), calendar_of(o, calendars, dossier)};
    written.done = write_order(dossier, told, o.read.wanted, o.run.in_hand(o.number), disk, no_room);
    written.is_good = !no_room.has_errors();
    written.said.append(std::move(no_room));
  } catch (const WorldError& error) {  // it takes its time in the shop's days all the same
    written.world = in_the_way(error);
  }
  return written;
}

/// How many orders are laid out and written at once. An order waits for the disk about as long as it is laid out, on
/// some disks twice as long, so to each thread that is to be busy come two that wait. Pictures of pages take much
/// longer and much memory; then one that waits is enough.
int orders_at_once(const CompileFlags& flags) {
  const int busy = thread_count(flags.threads);
  return flags.pictures > 0 ? busy + 1 : 3 * busy;
}

}  // namespace

std::vector<WrittenOrder> write_all(const ReadRun& read, const PlannedTogether& planned, const IssuedRun& run,
                                    Surroundings& around) {
  const std::vector<IssuedOrder>& issued = run.orders;
  const auto order = [&](std::size_t number) { return OrderOfRun{read, planned, number, issued.at(number)}; };
  const std::vector<IssuedTo> issued_to = blanks_to_bathe(read, planned, blanks_of(issued));
  std::vector<WrittenOrder> written(issued.size());
  const CompileFlags& flags = read.wanted.flags;
  Progress progress{around.errors, around.errors_terminal, flags.quiet, issued.size()};
  run_on_threads(orders_at_once(flags), issued.size(), [&](std::size_t n) {
    written.at(n) = write_one(order(n), run.calendars, issued_to, around.disk);
    progress.step();
  });
  return written;
}

WrittenForAll write_week(const ReadRun& read, const PlannedTogether& planned, const RunCalendars& calendars,
                         const std::vector<WrittenOrder>& written, Files& disk) {
  ShopDays days{read.inputs.shop,
                read.inputs.sheet_template,
                planned.time.at,
                read.program,
                read.wanted.flags.draft,
                {},
                {},
                {}};
  for (std::size_t job = 0, number = 0; job < read.jobs.size(); ++job) {
    const bool is_planned = number < planned.of_run && planned.orders.at(number).job == job;
    const WrittenOrder* order = is_planned ? &written.at(number++) : nullptr;
    if (order == nullptr || order->in_days.empty()) {
      const std::string& id = planned.ids.at(job);
      days.missing.push_back(id.empty() ? std::filesystem::path{read.jobs.at(job).file}.filename().string() : id);
      continue;
    }
    std::ranges::copy(order->in_days, std::back_inserter(days.orders));
  }
  if (days.orders.empty()) return {"no week.pdf, no shop.ics: none of these orders is in a common calendar\n", {}};
  std::ranges::sort(days.orders, {}, [](const OrderInDays& order) {
    return std::pair{order.due ? std::chrono::sys_days{*order.due} : std::chrono::sys_days::max(), order.id};
  });
  std::set<std::string> in_days;
  for (const OrderInDays& order : days.orders) in_days.insert(order.id);
  std::ranges::copy_if(calendars.tasks, std::back_inserter(days.tasks), [&](const Task& task) {
    return std::ranges::any_of(task.orders, [&](const TaskOrder& one) { return in_days.contains(one.id); });
  });
  const std::vector<CalendarEntry> entries = calendar_of_shop(calendars, days.orders);
  const std::string calendar = schedule_ics({days.shop.name.value, days.sheet_template.words, days.program, days.at,
                                             days.draft, calendars.tasks, entries, days.orders});
  try {
    return {write_days(days, calendar, read.wanted, disk), {}};
  } catch (const WorldError& error) {  // the orders were written all the same
    return {{}, in_the_way(error)};
  }
}

WrittenForAll write_print_file(const CompileFlags& flags, Surroundings& around) {
  if (!flags.print_later) return {};
  try {
    return {OutputFolder{flags, around.disk}.write_print_file(around.program_file), {}};
  } catch (const WorldError& error) {  // the orders were laid out all the same
    return {{}, in_the_way(error)};
  }
}

}  // namespace blankwright
