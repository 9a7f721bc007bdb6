#include <fmt/format.h>

#include <iterator>
#include <ostream>

#include "commands/at_register.h"
#include "commands/compile_run.h"
#include "commands/harmless_stream.h"
#include "sheet/tag/label.h"

namespace blankwright {
namespace {

Exit report(const Compile& c, const WeekWritten& week, Diagnostics& out) {
  int good = 0;
  Exit exit = Exit::done;
  for (Job& job : c.jobs) {
    good += job.good ? 1 : 0;
    if (!job.world.empty()) exit = Exit::world;
    out.append(std::move(job.said));
  }
  c.around.errors << AsIs{rendered(out, c.around.errors_terminal.colour)};
  for (const Job& job : c.jobs) c.around.errors << job.world;
  c.around.errors << week.world;
  if (!week.world.empty()) exit = Exit::world;
  if (!c.flags.quiet) {
    for (const Job& job : c.jobs) c.around.out << job.done;
    c.around.out << week.done;
    c.around.out << fmt::format("{} of {} compiled{}; {}, {}\n", good, counted(std::ssize(c.jobs), "order"),
                                c.flags.draft ? " as drafts" : "", counted(out.errors(), "error"),
                                counted(out.warnings(), "warning"));
  }
  return worse(exit, out.has_errors() ? Exit::mistakes : Exit::done);
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
  Diagnostics out;
  const auto inputs = read_shop_inputs(around.disk, shop_file, out);
  std::vector<Job> jobs(flags.jobs.size());
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    jobs.at(i).source = read_source(around.disk, flags.jobs.at(i), jobs.at(i).said);
  }
  if (!inputs) {  // the jobs' own mistakes are told all the same
    for (Job& job : jobs) {
      if (job.source != nullptr) read_order(job.source, job.said);
      out.append(std::move(job.said));
    }
    around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
    return Exit::mistakes;
  }
  const auto at = moment_asked(flags.at, inputs->shop.zone.value, NamedFrom::Days::ahead, around);
  if (!at) return Exit::command_line;
  if (wants(flags, "tags")) say_near_edge(inputs->sheet_template, inputs->shop.printer, out);
  Compile c{flags, around, *inputs, register_path(shop_file), program_version(), jobs, {flags, *used}};
  plan_each(c, out);
  refuse_same_ids(jobs);
  const auto kept = flags.at.empty() ? kept_moment(jobs) : std::nullopt;
  Run run = plan_together(c, kept.value_or(*at), out);
  if (!flags.draft) issue_all(c, run);
  write_all(c, run);
  const WeekWritten week = flags.week ? write_week(c, run) : WeekWritten{};
  return report(c, week, out);
}

}  // namespace blankwright
