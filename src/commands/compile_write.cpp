#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <map>
#include <ostream>

#include "commands/compile_run.h"
#include "commands/workers.h"
#include "sheet/paper/on_paper.h"

namespace blankwright {
namespace {

/// Adds what was entered of the order's blanks.
void add_seen(const Compile& c, const Job& job, Dossier& dossier) {
  if (job.record == nullptr || c.flags.draft) return;
  for (const BlankState& blank : job.record->blanks) dossier.seen.emplace(*blank.id, blank);
  dossier.seen_baths = job.record->baths;
  dossier.seen_loads = job.record->loads;
}

/// What the plan knew of the past, and the blanks that the order has now.
Record record_as_issued(const Compile& c, const Job& job) {
  Record record = job.record ? *job.record : plain_record(c.past, {}, 0);
  record.issued_to_order = job.blanks;
  record.witnesses = job.witnesses;
  return record;
}

/// Plans an order again as it was issued, and writes what was asked for.
void write_one(const Compile& c, Run& run, std::size_t number, std::span<const IssuedTo> issued) {
  Job& job = c.jobs.at(run.jobs.at(number));
  OrderInShop& planned = run.plan.orders.at(number);  // this thread's alone
  complete_times(number, run.plan, run.orders, c.inputs.shop, run.time);
  Diagnostics already_said;
  const auto prepared = prepare(
      job.source, c.inputs.shop, [&](const std::string&) { return record_as_issued(c, job); }, already_said);
  if (!prepared || prepared->plan.blanks() != job.to_start) {
    throw WorldError(c.register_file,
                     fmt::format("another run has just given order \"{}\" more blanks; compile it again", job.id));
  }
  Dossier dossier{prepared->order,
                  c.inputs.shop,
                  prepared->plan,
                  *planned.times,
                  sheets_of(c, job),
                  c.flags.draft ? std::vector<BlankId>{} : job.blanks,
                  c.flags.draft,
                  run.time.at,
                  program_version(),
                  baths_of(number, run.plan, issued),
                  loads_of(number, run.plan, issued)};
  add_seen(c, job, dossier);
  already_said.append(planned.said);  // plan.json lists it too
  job.said.append(std::move(planned.said));
  Diagnostics on_paper;
  if (c.flags.week && !planned.times->alone) job.days.emplace(days_of(dossier));
  job.done = write_order(dossier, job.so_far, already_said, c.wanted, c.around.disk, on_paper);
  planned.times.reset();  // the memory is the next order's
  if (on_paper.has_errors()) job.good = false;
  job.said.append(std::move(on_paper));
}

/// The order's blanks that baths are planned for; all of them where none is left to bathe, since no bath names them
/// then.
std::vector<BlankId> blanks_to_bathe(const Compile& c, const Job& job) {
  if (c.flags.draft) return {};
  std::vector<BlankId> blanks = job.blanks;
  if (job.record != nullptr) {
    for (const BlankState& blank : job.record->blanks) {
      if (!is_to_be_bathed(blank)) std::erase(blanks, *blank.id);
    }
  }
  return blanks.empty() ? job.blanks : blanks;
}

/// How many orders are laid out and written at once. An order waits for the disk about as long as it is laid out, on
/// some disks twice as long, so to each thread that is to be busy come two that wait. Pictures of pages take much
/// longer and much memory; then one that waits is enough.
int orders_at_once(const CompileFlags& flags) {
  const int busy = thread_count(flags.threads);
  return flags.pictures > 0 ? busy + 1 : 3 * busy;
}

}  // namespace

void write_all(const Compile& c, Run& run) {
  std::vector<IssuedTo> issued;
  for (std::size_t number = 0; number < run.jobs.size(); ++number) {
    const Job& job = c.jobs.at(run.jobs.at(number));
    issued.push_back({job.id, run.orders.at(number).pieces, blanks_to_bathe(c, job)});
  }
  Progress progress{c.around.errors, c.around.errors_terminal, c.flags.quiet, run.jobs.size()};
  run_on_threads(orders_at_once(c.flags), run.jobs.size(), [&](std::size_t number) {
    Job& job = c.jobs.at(run.jobs.at(number));
    try {
      write_one(c, run, number, issued);
    } catch (const WorldError& error) {  // the other orders may still find room
      job.world = fmt::format("blankwright: {}\n", error.what());
      job.good = false;
    }
    progress.step();
  });
}

WeekWritten write_week(Compile& c, const Run& run) {
  ShopDays days{c.inputs.shop, c.inputs.sheet_template, run.time.at, c.version, c.flags.draft, {}, {}, {}};
  for (std::size_t i = 0; i < c.jobs.size(); ++i) {
    Job& job = c.jobs.at(i);
    if (!job.days) {
      const std::string file = std::filesystem::path{c.flags.jobs.at(i)}.filename().string();
      days.missing.push_back(job.id.empty() ? file : job.id);
      continue;
    }
    std::ranges::move(job.days->orders, std::back_inserter(days.orders));
    std::ranges::move(job.days->tasks, std::back_inserter(days.tasks));
  }
  if (days.orders.empty()) return {"no week.pdf, no shop.ics: none of these orders is in a common calendar\n", {}};
  std::ranges::sort(days.orders, {}, [](const OrderInDays& order) {
    return std::pair{order.due ? std::chrono::sys_days{*order.due} : std::chrono::sys_days::max(), order.id};
  });
  days.tasks = shop_tasks(std::move(days.tasks));
  try {
    return {write_days(days, c.wanted, c.around.disk), {}};
  } catch (const WorldError& error) {  // the orders were written all the same
    return {{}, fmt::format("blankwright: {}\n", error.what())};
  }
}

}  // namespace blankwright
