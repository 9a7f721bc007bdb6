#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <ostream>

#include "commands/again.h"
#include "commands/at_register.h"
#include "commands/compile_steps.h"
#include "commands/harmless_stream.h"
#include "commands/job_files.h"
#include "commands/not_entered.h"
#include "commands/what_moved.h"
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
    if (number == planned.of_run || planned.orders.at(number).job != job) continue;
    out.append(written.at(number).said);
    ++number;
  }
  return out;
}

/// What else a compile tells beside the orders that it wrote.
struct Told {
  std::vector<std::string> moved;  ///< of each order of the plan
  WrittenForAll week, to_print;
  std::size_t not_entered = 0;  ///< what was planned and not entered
};

Exit report(const Diagnostics& said, const CompileFlags& flags, const PlannedTogether& planned,
            const std::vector<WrittenOrder>& written, const Told& told, Surroundings& around) {
  Exit exit = said.has_errors() ? Exit::mistakes : Exit::done;
  around.errors << AsIs{rendered(said, around.errors_terminal.colour)};
  for (const WrittenOrder& order : written) {
    around.errors << order.world;
    if (!order.world.empty()) exit = Exit::world;
  }
  for (const WrittenForAll* one : {&told.week, &told.to_print}) {
    around.errors << one->world;
    if (!one->world.empty()) exit = Exit::world;
  }
  if (flags.quiet) return exit;
  for (std::size_t n = 0; n < planned.orders.size(); ++n) {
    if (n < planned.of_run) {
      around.out << written.at(n).done << told.moved.at(n);
    } else if (!told.moved.at(n).empty()) {
      around.out << fmt::format("{}: not compiled, and moved\n{}", planned.orders.at(n).id, told.moved.at(n));
    }
  }
  around.out << told.week.done;
  around.out << fmt::format("{} of {} compiled{}; {}, {}\n", std::ranges::count_if(written, &WrittenOrder::is_good),
                            counted(std::ssize(flags.jobs), "order"), flags.draft ? " as drafts" : "",
                            counted(said.errors(), "error"), counted(said.warnings(), "warning"));
  around.out << told.to_print.done;
  if (told.not_entered > 0) {
    around.out << fmt::format("{} to enter or decide: run `blankwright today`\n",
                              counted(static_cast<std::int64_t>(told.not_entered), "thing"));
  }
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

/// How much of what the register's orders were to be through with is not entered.
std::size_t not_entered_of(const ReadRun& read, const PlannedTogether& planned) {
  auto known = Register::open_to_read(read.register_place);
  return known ? not_entered(*known, read.inputs.shop, planned).size() : 0;
}

/// Can a part of the paper be printed with what else is asked for?
bool part_goes_with_rest(const CompileFlags& flags, Surroundings& around) {
  const auto no = [&](std::string_view why) {
    around.errors << fmt::format("blankwright: {}\n", why);
    return false;
  };
  const bool pages = !flags.pages.empty();
  if (pages && flags.changed) return no("--pages and --changed are two ways to print a part; take one of them");
  if (pages && !wants(flags, "traveller")) return no("--pages prints part of the traveller, which --only leaves out");
  if (!flags.changed) return true;
  if (flags.draft) return no("--changed goes by what was handed out, and a draft is not");
  if (!flags.again.empty()) return no("--changed goes by the last issue; --again prints it as it was");
  if (!wants(flags, "traveller") && !wants(flags, "tags"))
    return no("--changed prints part of traveller and tags, which --only leaves out");
  return true;
}

/// Plans what was read, writes it and tells of it.
Exit planned_and_written(const ReadRun& read, Instant at, Diagnostics out, Surroundings& around) {
  const CompileFlags& flags = read.wanted.flags;
  auto alone = plan_each(read, at, out);
  auto open = plan_open_orders(read.register_place, read.inputs.shop, ids_of(alone), out);
  PlannedTogether planned = plan_together(std::move(alone), std::move(open), read.inputs.shop, at);
  auto paper = paper_before(read, planned, around);
  if (!paper) return Exit::mistakes;
  planned.paper = std::move(*paper);
  std::vector<std::string> moved = what_moved(read, planned, around);
  const std::size_t to_enter = not_entered_of(read, planned);
  const IssuedRun issued = flags.draft ? issued_before(read, planned) : issue_all(read, planned, around);
  const auto written = write_all(read, planned, issued, around);
  const Told told{std::move(moved),
                  flags.week ? write_week(read, planned, issued.calendars, written, around.disk) : WrittenForAll{},
                  write_print_file(flags, around), to_enter};
  return report(all_said(std::move(out), read, planned, written), flags, planned, written, told, around);
}

/// Prints again what was printed before, from what it was made of then.
Exit printed_again(const Wanted& wanted, const std::string& shop_file, Surroundings& around) {
  const CompileFlags& flags = wanted.flags;
  if (flags.jobs.size() != 1 || flags.draft || flags.week || flags.replace || !flags.at.empty()) {
    around.errors << "blankwright: --again prints one order as it was: it takes one job, and no --at, --draft, "
                     "--replace or --week\n";
    return Exit::command_line;
  }
  Diagnostics out;
  const auto run = printed_run(wanted, shop_file, around, out);
  if (!run) {
    around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
    return Exit::mistakes;
  }
  const ReadRun& read = run->read;
  PlannedTogether planned = planned_as_printed(*run, out);
  auto paper = paper_before(read, planned, around, run->numbers.front());
  if (!paper) return Exit::mistakes;
  planned.paper = std::move(*paper);
  IssuedRun issued = issued_before(read, planned);
  issued.orders = issued_as_printed(*run, planned);
  const auto written = write_all(read, planned, issued, around);
  const Told told{std::vector<std::string>(planned.orders.size()), {}, write_print_file(flags, around)};
  return report(all_said(std::move(out), read, planned, written), flags, planned, written, told, around);
}

}  // namespace

Exit compile(const CompileFlags& asked, Surroundings& around) {
  CompileFlags flags = asked;
  if (!part_goes_with_rest(flags, around)) return Exit::command_line;
  const auto used = places_used(flags, around);
  if (!used) return Exit::command_line;
  const std::string shop_file = shop_path(flags.shop, flags.jobs.empty() ? "" : flags.jobs.front());
  if (!flags.again.empty()) return printed_again({flags, *used}, shop_file, around);
  const ReadFor outputs = wants(flags, "tags") ? ReadFor::tags : ReadFor::no_tags;
  Diagnostics out;
  auto inputs = read_shop_inputs(around.disk, shop_file, out);
  if (inputs && flags.jobs.empty()) {
    OpenJobs open = open_jobs(around.disk, shop_file, *inputs, place_of_register(inputs->shop, shop_file));
    for (const std::string& line : open.told) around.errors << fmt::format("blankwright: {}\n", line);
    flags.jobs = std::move(open.files);
  }
  auto jobs = read_jobs(around.disk, flags.jobs, inputs ? &*inputs : nullptr, outputs, flags.threads);
  if (!inputs) {  // the jobs' own mistakes are told all the same
    for (const ReadJob& job : jobs) out.append(job.said);
    around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
    return Exit::mistakes;
  }
  const auto at = moment_asked(flags.at, inputs->shop.zone.value, NamedFrom::Days::ahead, around);
  if (!at) return Exit::command_line;
  if (outputs == ReadFor::tags) say_near_edge(inputs->sheet_template, inputs->shop.printer, out);
  const RegisterPlace place = place_of_register(inputs->shop, shop_file);
  const ReadRun read{{flags, *used}, std::move(*inputs), std::move(jobs), place, program_version()};
  return planned_and_written(read, *at, std::move(out), around);
}

}  // namespace blankwright
