#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <ostream>

#include "commands/at_register.h"
#include "commands/compile_steps.h"
#include "commands/harmless_stream.h"
#include "sheet/tag/label.h"

namespace blankwright {
namespace {

/// Everything that was said, job by job.
Diagnostics all_said(Diagnostics of_shop, const ReadRun& read, const PlannedTogether& planned,
                     const std::vector<WrittenOrder>& written) {
  Diagnostics out = std::move(of_shop);
  out.append(planned.said_of_shop);
  for (std::size_t job = 0, number = 0; job < read.jobs.size(); ++job) {
    out.append(read.jobs.at(job).said);
    out.append(read.jobs.at(job).said_of_sheets);
    out.append(planned.said.at(job));
    if (number == planned.orders.size() || planned.orders.at(number).job != job) continue;
    out.append(written.at(number).said);
    ++number;
  }
  return out;
}

Exit report(const Diagnostics& said, const CompileFlags& flags, const std::vector<WrittenOrder>& written,
            const WrittenWeek& week, Surroundings& around) {
  Exit exit = said.has_errors() ? Exit::mistakes : Exit::done;
  around.errors << AsIs{rendered(said, around.errors_terminal.colour)};
  for (const WrittenOrder& order : written) {
    around.errors << order.world;
    if (!order.world.empty()) exit = Exit::world;
  }
  around.errors << week.world;
  if (!week.world.empty()) exit = Exit::world;
  if (flags.quiet) return exit;
  for (const WrittenOrder& order : written) around.out << order.done;
  around.out << week.done;
  around.out << fmt::format("{} of {} compiled{}; {}, {}\n", std::ranges::count_if(written, &WrittenOrder::is_good),
                            counted(std::ssize(flags.jobs), "order"), flags.draft ? " as drafts" : "",
                            counted(said.errors(), "error"), counted(said.warnings(), "warning"));
  return exit;
}

/// The places of `--used-places`. They are of one sheet, so that they go with one order.
std::optional<UsedPlaces> places_used(const CompileFlags& flags, Surroundings& around) {
  if (flags.used_places.empty()) return UsedPlaces{};
  const auto places = read_places(flags.used_places);
  if (!places) {
    around.errors << fmt::format("blankwright: --used-places: \"{}\" are no places of a sheet; write 1-4,9\n",
                                 flags.used_places);
  } else if (flags.jobs.size() > 1) {
    around.errors << "blankwright: --used-places are of one sheet of labels; compile one order with them\n";
    return std::nullopt;
  }
  return places;
}

}  // namespace

Exit compile(const CompileFlags& flags, Surroundings& around) {
  const auto used = places_used(flags, around);
  if (!used) return Exit::command_line;
  const std::string shop_file = shop_path(flags.shop, flags.jobs.front());
  const ReadFor outputs = wants(flags, "tags") ? ReadFor::tags : ReadFor::no_tags;
  Diagnostics out;
  auto inputs = read_shop_inputs(around.disk, shop_file, out);
  auto jobs = read_jobs(around.disk, flags.jobs, inputs ? &*inputs : nullptr, outputs, flags.threads);
  if (!inputs) {  // the jobs' own mistakes are told all the same
    for (const ReadJob& job : jobs) out.append(job.said);
    around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
    return Exit::mistakes;
  }
  const auto at = moment_asked(flags.at, inputs->shop.zone.value, NamedFrom::Days::ahead, around);
  if (!at) return Exit::command_line;
  if (outputs == ReadFor::tags) say_near_edge(inputs->sheet_template, inputs->shop.printer, out);
  const ReadRun read{
      {flags, *used}, std::move(*inputs), std::move(jobs), register_path(shop_file), program_version()};
  auto alone = plan_each(read, out);
  const auto kept = flags.at.empty() ? kept_moment(alone) : std::nullopt;
  const PlannedTogether planned = plan_together(std::move(alone), read.inputs.shop, kept.value_or(*at));
  const auto issued = flags.draft ? issued_before(planned) : issue_all(read, planned, around);
  const auto written = write_all(read, planned, issued, around);
  const WrittenWeek week = flags.week ? write_week(read, planned, written, around.disk) : WrittenWeek{};
  return report(all_said(std::move(out), read, planned, written), flags, written, week, around);
}

}  // namespace blankwright
