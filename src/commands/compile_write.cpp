#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <ostream>
#include <set>

#include "commands/calendars.h"
#include "commands/workers.h"
#include "diagnose/failure.h"
#include "plan/order/plan_order.h"
#include "sheet/paper/on_paper.h"

namespace blankwright {
namespace {

/// An order of the run, in what the steps before gave.
struct OrderOfRun {
  const ReadRun& read;
  const PlannedTogether& run;
  std::size_t number;
  const IssuedOrder& issued;
  const RunCalendars& calendars;
  const CompileFlags& flags() const { return read.wanted.flags; }
  const PlannedOrder& planned() const { return run.orders.at(number); }
  const ReadJob& job() const { return read.jobs.at(*planned().job); }
  const std::string& id() const { return planned().id; }
};

/// Adds what was entered of the order's blanks.
void add_seen(const Record& record, Dossier& dossier) {
  if (dossier.draft) return;
  for (const BlankState& blank : record.blanks) dossier.seen.emplace(*blank.id, blank);
  dossier.seen_baths = record.baths;
  dossier.seen_loads = record.loads;
}

/// What the plan knew of the past, and the blanks that the order has now.
Record record_as_issued(const OrderOfRun& o) {
  Record record = o.planned().record;
  record.issued_to_order = o.issued.blanks;
  record.witnesses = o.planned().witnesses;
  return record;
}

/// What stands in the calendar of the order that this is the dossier of.
std::string calendar_of(const OrderOfRun& o, const Dossier& d) {
  if (!wants(o.flags(), "calendar")) return {};
  const std::vector orders{order_in_days(d)};
  return schedule_ics({o.id(), d.sheet_template.words, d.program, d.at, d.draft, o.calendars.tasks,
                       o.calendars.of_order.at(o.number), orders});
}

std::string in_the_way(const WorldError& error) { return fmt::format("blankwright: {}\n", error.what()); }

/// Plans an order again as it was issued, and writes what was asked for. What is in the way of that is in the way of
/// this order alone: the others may still find room.
WrittenOrder write_one(const OrderOfRun& o, std::span<const IssuedTo> issued, Files& disk) {
  const PlannedTogether& run = o.run;
  const Shop& shop = o.read.inputs.shop;
  Diagnostics to_list = o.job().said;  // in plan.json
  const auto plan = plan_order(*o.job().order, shop, record_as_issued(o), to_list);
  WrittenOrder written;
  if (!plan || plan->blanks() != o.planned().to_start) {
    written.world =
        in_the_way({o.read.register_file,
                    fmt::format("another run has just given order \"{}\" more blanks; compile it again", o.id())});
    return written;
  }
  written.said.append(run.plan.orders.at(o.number).said);
  const OrderTimes times = times_in_full(o.number, run.plan, run.to_make, shop, run.time, written.said);
  to_list.append(written.said);
  Dossier dossier{*o.job().order,
                  shop,
                  *plan,
                  times,
                  sheets_of(o.job(), o.read.inputs),
                  o.flags().draft ? std::vector<BlankId>{} : o.issued.blanks,
                  o.flags().draft,
                  run.time.at,
                  o.read.program,
                  baths_of(o.number, run.plan, issued),
                  loads_of(o.number, run.plan, issued)};
  dossier.issue = o.issued.issue;
  add_seen(o.planned().record, dossier);
  if (o.flags().week && !times.alone) written.in_days.push_back(order_in_days(dossier));
  try {
    Diagnostics on_paper;
    written.done =
        write_order(dossier, {o.issued.so_far, to_list, calendar_of(o, dossier)}, o.read.wanted, disk, on_paper);
    written.is_good = !on_paper.has_errors();
    written.said.append(std::move(on_paper));
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
  const auto order = [&](std::size_t number) {
    return OrderOfRun{read, planned, number, issued.at(number), run.calendars};
  };
  std::vector<std::vector<BlankId>> blanks;
  for (const IssuedOrder& one : issued) blanks.push_back(one.blanks);
  const std::vector<IssuedTo> issued_to = blanks_to_bathe(read, planned, blanks);
  std::vector<WrittenOrder> written(issued.size());
  const CompileFlags& flags = read.wanted.flags;
  Progress progress{around.errors, around.errors_terminal, flags.quiet, issued.size()};
  run_on_threads(orders_at_once(flags), issued.size(), [&](std::size_t n) {
    written.at(n) = write_one(order(n), issued_to, around.disk);
    progress.step();
  });
  return written;
}

WrittenWeek write_week(const ReadRun& read, const PlannedTogether& planned, const RunCalendars& calendars,
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

}  // namespace blankwright
