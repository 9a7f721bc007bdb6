#include "commands/again.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <filesystem>
#include <ostream>
#include <system_error>

#include "commands/job_files.h"
#include "commands/paper_record.h"
#include "diagnose/failure.h"
#include "sheet/tag/label_sheet.h"

namespace blankwright {
namespace {

/// What the register held when a print was made: its entries, and the prints of by then with their orders.
RegisterContents contents_then(RegisterContents all, const Print& print) {
  std::erase_if(all.entries, [&](const Entry& entry) { return entry.number > print.last_entry; });
  std::erase_if(all.prints, [&](const Print& other) {
    const bool is_later = other.order_id == print.order_id && other.number > print.number;
    return is_later || other.made > print.made || other.last_entry > print.last_entry;
  });
  const auto is_printed = [&](const std::string& order, int number) {
    return std::ranges::any_of(all.prints,
                               [&](const Print& one) { return one.order_id == order && one.number == number; });
  };
  std::erase_if(all.plans, [&](const PlanOfPrint& plan) { return !is_printed(plan.order_id, plan.number); });
  std::erase_if(all.orders, [&](const StoredOrder& order) { return !is_printed(order.id, 1); });
  std::erase_if(all.written, [&](const auto& entry) { return entry.first > print.last_entry; });
  return all;
}

/// Where the register stands today; beside a shop file that cannot be read, which is no matter for what was printed.
RegisterPlace place_today(const Files& disk, const std::string& shop_file) {
  Diagnostics ignored;
  const auto inputs = read_shop_inputs(disk, shop_file, ignored);
  return place_of_register(inputs ? inputs->shop : Shop{}, shop_file);
}

/// A job as it was printed, under its file's name or its order's.
ReadJob job_of(const Files& disk, const LastPrint& print, const std::string& name) {
  ReadJob job{name, std::make_shared<const SourceText>(SourceText{name, print.job}), {}, {}, {}, {}};
  job.order = read_order(job.source, job.said);
  if (!job.order || !job.order->sheet_template) return job;
  auto own = read_kept_template(disk, *job.order->sheet_template, name, print.template_text, job.said_of_sheets);
  if (own) job.own_sheets = std::make_unique<const NamedTemplate>(std::move(*own));
  return job;
}

/// What was asked for of the print, and otherwise as it was made.
Wanted as_printed(const Wanted& asked, const LastPrint& print) {
  const PaperRecord record = read_record(print.plan);
  const auto places = asked.used_places.empty() ? read_places(record.used_places) : asked.used_places;
  return {flags_of(record, asked.flags), places.value_or(UsedPlaces{})};
}

/// The order that a job file is of, or that has this id. Says what is wrong with the file.
std::optional<std::string> order_named(const Files& disk, Register& known, const std::string& named,
                                       Diagnostics& out) {
  if (!disk.exists(named)) return known.has_order(named) ? std::optional{named} : std::nullopt;
  const Source file = read_source(disk, named, out);
  if (file == nullptr) return std::nullopt;
  auto id = order_id_in(file);
  if (!id) static_cast<void>(read_order(file, out));
  return id;
}

/// Where an order's job lies, or lay, by the shop file that it was printed with.
std::string job_file_then(const Files& disk, const std::string& shop_file, const LastPrint& print) {
  Diagnostics ignored;
  const auto shop = read_shop(std::make_shared<const SourceText>(SourceText{shop_file, print.shop}), ignored);
  const std::string& order = print.print.order_id;
  return shop ? job_file_of(disk, shop_file, *shop, order) : order + ".toml";
}

/// What was planned for an order when it was printed last but one.
std::string plan_before(Register& known, const std::string& order) {
  const std::vector<PlannedThen> plans = known.plans_of(order);
  return plans.size() < 2 ? std::string{} : plans.at(plans.size() - 2).plan;
}

}  // namespace

RegisterOfThen::RegisterOfThen(const RegisterContents& contents, Instant now)
    : folder_{(std::filesystem::temp_directory_path() / "blankwright-XXXXXX").string()} {
  if (mkdtemp(folder_.data()) == nullptr) {
    throw WorldError{folder_, std::error_code{errno, std::generic_category()}.message()};
  }
  try {
    Register{file(), contents.series}.fill(contents, now);
  } catch (...) {
    remove();
    throw;
  }
}

void RegisterOfThen::remove() const {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

RegisterOfThen::~RegisterOfThen() { remove(); }

std::optional<PrintedRun> run_of_prints(const Wanted& wanted, std::span<const PrintOfJob> prints,
                                        const RegisterContents& now, const std::string& shop_file,
                                        const Surroundings& around, Diagnostics& out) {
  const LastPrint& first = prints.front().print;
  const Source shop = std::make_shared<const SourceText>(SourceText{shop_file, first.shop});
  const Print& asked = first.print;
  const RegisterContents then = contents_then(now, asked);
  PrintedRun run{{as_printed(wanted, first), {}, {}, {}, {}}, {}, asked.at, {}, {}, nullptr};
  std::optional<std::string> shop_template;
  for (const auto& [print, job_file] : prints) {
    const ReadJob& job = run.read.jobs.emplace_back(job_of(around.disk, print, job_file));
    run.numbers.push_back(print.print.number);
    if (job.order && !job.order->sheet_template) shop_template = print.template_text;
  }
  for (const Print& one : then.prints) {
    if (one.made != asked.made || one.at != asked.at || one.last_entry != asked.last_entry) continue;
    run.with.insert(one.order_id);
    if (one.number == 1) run.were_new.insert(one.order_id);
  }
  auto inputs = read_kept_shop(around.disk, shop, shop_template, out);
  if (!inputs) return std::nullopt;
  run.read.inputs = std::move(*inputs);
  run.read.program = program_version();
  run.then = std::make_unique<RegisterOfThen>(then, Instant{std::chrono::seconds{around.clock.now_unix()}});
  run.read.register_place = run.then->file();
  return run;
}

std::optional<PrintedRun> printed_run(const Wanted& wanted, const std::string& shop_file, Surroundings& around,
                                      Diagnostics& out) {
  const CompileFlags& flags = wanted.flags;
  const auto no = [&](const std::string& why) {
    around.errors << fmt::format("blankwright: --again: {}\n", why);
    return std::nullopt;
  };
  const RegisterPlace register_place = place_today(around.disk, shop_file);
  auto known = Register::open_to_read(register_place);
  if (!known) return no(fmt::format("there is no register {}; name the shop file with --shop", register_place.name));
  const std::string& named = flags.jobs.front();
  const auto id = order_named(around.disk, *known, named, out);
  if (!id && out.has_errors()) return std::nullopt;
  if (!id) return no(fmt::format("\"{}\" is neither a job file nor an order of {}", named, register_place.name));
  const auto number = flags.again == "last" ? std::nullopt : std::optional{std::stoi(flags.again)};
  const auto print = known->print_of_order(*id, number);
  if (!print)
    return no(fmt::format("{}order {} was never printed", number ? fmt::format("issue {} of ", *number) : "", *id));
  const std::string job_file = around.disk.exists(named) ? named : job_file_then(around.disk, shop_file, *print);
  auto run =
      run_of_prints(wanted, std::array{PrintOfJob{*print, job_file}}, known->contents(), shop_file, around, out);
  if (!run || print->print.program_version == run->read.program) return run;
  around.errors << fmt::format("blankwright: issue {} was made by {}; this is {}, and its pages may differ\n",
                               print->print.number, print->print.program_version, run->read.program);
  run->read.program = fmt::format("{} ({})", run->read.program, print->print.program_version);
  return run;
}

PlannedTogether planned_as_printed(const PrintedRun& run, Diagnostics& out) {
  const ReadRun& read = run.read;
  auto alone = plan_each(read, run.at, out);
  auto open = plan_open_orders(read.register_place, read.inputs.shop, ids_of(alone), out);
  auto known = Register::open_to_read(read.register_place);
  const auto set_back = [&](const std::string& id, OrderToMake& order) {
    if (run.were_new.contains(id)) order.holds_place = false;
    if (run.with.contains(id)) order.planned = plan_before(*known, id);  // not that of the print itself
  };
  for (PlannedJob& job : alone) {
    if (job.good) set_back(job.id, job.good->to_make);
  }
  for (PlannedJob::Good& other : open) {
    other.to_make.of_run = run.with.contains(other.order.id);
    set_back(other.order.id, other.to_make);
  }
  return plan_together(std::move(alone), std::move(open), read.inputs.shop, run.at);
}

std::vector<IssuedOrder> issued_as_printed(const PrintedRun& run, const PlannedTogether& planned) {
  auto issued = issued_so_far(planned);
  for (std::size_t n = 0; n < issued.size(); ++n) issued.at(n).issue = run.numbers.at(*planned.orders.at(n).job);
  return issued;
}

}  // namespace blankwright
