#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>
#include <mutex>
#include <ostream>

#include "commands/commands.h"
#include "commands/output.h"
#include "commands/past.h"
#include "commands/prepare.h"
#include "commands/workers.h"
#include "diagnose/failure.h"
#include "entries/order_id.h"
#include "register/register.h"
#include "sheet/label.h"
#include "sheet/on_paper.h"

namespace blankwright {
namespace {

/// What is kept of an order between planning and layout: little, so that the number of orders costs no memory. The
/// layout plans it again, which is quick and gives the same.
struct Job {
  Source source;
  Diagnostics said;
  std::string id;
  Place id_at;
  OrderToMake to_make;
  OrderGist gist;
  int to_start = 0;                  ///< blanks, the witnesses among them
  int witnesses = 0;                 ///< of these
  std::optional<std::int64_t> kept;  ///< moment of its last compile, if nothing changed since
  bool good = false;
  std::vector<BlankId> blanks;
  std::unique_ptr<const NamedTemplate> own_sheets;  ///< where the job names a template
  std::unique_ptr<const Record> record;             ///< where something was entered of its blanks
  std::string done;                                 ///< the line that tells what was written
  std::string world;                                ///< what was in the way of writing it
};

struct Compile {
  const CompileFlags& flags;
  Surroundings& around;
  const ShopInputs& inputs;
  std::string register_file;
  std::string version;  ///< of the program
  std::vector<Job>& jobs;
  Wanted wanted;
  ShopPast past{};  ///< as of before the run
};

/// The orders of a run that can be planned, together.
struct Run {
  std::vector<std::size_t> jobs;  ///< as the plan numbers them
  std::vector<OrderToMake> orders;
  ShopPlan plan;
  ShopTime time;
};

const Template& sheets_of(const Compile& c, const Job& job) {
  return job.own_sheets ? job.own_sheets->sheets : c.inputs.sheet_template;
}

CompileInputs inputs_of(const Compile& c, const Job& job) {
  return {job.source->text, c.inputs.shop.source->text,
          job.own_sheets ? job.own_sheets->text : c.inputs.template_text, c.version};
}

/// Reads the template that a job names. False where it cannot be used.
bool read_own_sheets(const Compile& c, Job& job, const Order& order) {
  if (!order.sheet_template) return true;
  auto own = read_named_template(c.around.disk, *order.sheet_template, job.source->name, job.said);
  if (own && wants(c.flags, "tags")) say_near_edge(own->sheets, c.inputs.shop.printer, job.said);
  if (own) job.own_sheets = std::make_unique<const NamedTemplate>(std::move(*own));
  return own.has_value();
}

/// Orders whose folders would be one on some systems.
void refuse_same_ids(std::vector<Job>& jobs) {
  std::map<std::string, std::size_t> seen;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    if (!jobs.at(i).good) continue;
    const auto [first, is_new] = seen.try_emplace(folded_order_id(jobs.at(i).id), i);
    if (is_new) continue;
    Job& other = jobs.at(first->second);
    const std::string what =
        other.id == jobs.at(i).id
            ? fmt::format("order \"{}\" is compiled twice in this run", other.id)
            : fmt::format("order \"{}\" differs from \"{}\" in case alone", jobs.at(i).id, other.id);
    jobs.at(i).said.error(Problem::same_order_id, jobs.at(i).id_at, what).label(other.id_at, "the other one");
    jobs.at(i).good = false;
    other.good = false;
  }
}

/// An id that the register has for another client's other item is a mistake, and the blanks would get mixed up.
bool is_same_order(Register& known, const Order& order, const Source& source, Diagnostics& out) {
  const std::string& id = order.id.value;
  if (const auto other = known.other_spelling(id)) {
    out.error(Problem::order_in_register_differs, order.id.at,
              fmt::format("the register has an order \"{}\", which differs from \"{}\" in case alone", *other, id));
    return false;
  }
  const auto stored = known.stored_job(id);
  if (!stored || *stored == source->text) return true;
  Diagnostics unheard;
  const auto before = read_order(std::make_shared<const SourceText>(SourceText{"register", *stored}), unheard);
  if (!before || before->client.value == order.client.value || before->item.value == order.item.value) return true;
  out.error(Problem::order_in_register_differs, order.id.at,
            fmt::format("order \"{}\" is \"{}\" for {} in the register; here it is \"{}\" for {}", id,
                        before->item.value, before->client.value, order.item.value, order.client.value))
      .hint("give this order an id of its own");
  return false;
}

/// The register as the threads that plan see it: one at a time.
struct Known {
  std::optional<Register> file;
  std::mutex one_at_a_time{};
};

void check_used_places(const Compile& c, Job& job) {
  const Template& t = sheets_of(c, job);
  const auto& used = c.wanted.used_places;
  const int on_sheet = places_of(tag_sheet(t));
  const auto of_sheet = std::ranges::count_if(used, [&](int place) { return place <= on_sheet; });
  if (t.tags.value == TagForm::tie_tags || of_sheet < on_sheet) return;
  job.said.error(Problem::out_of_range, {},
                 fmt::format("--used-places: no place is left on a sheet of \"{}\", which has {}",
                             tag_sheet(t).name.value, on_sheet));
}

/// Plans one order by itself, with what the register knows of it.
void plan_one(const Compile& c, Job& job, Known& known) {
  const auto order = read_order(job.source, job.said);
  if (!order || !read_own_sheets(c, job, *order)) return;
  Record record;
  if (known.file) {
    const std::lock_guard lock{known.one_at_a_time};
    if (!is_same_order(*known.file, *order, job.source, job.said)) return;
    record = record_of(*known.file, c.past, order->id.value);
    job.kept = known.file->kept_at(order->id.value, inputs_of(c, job));
  }
  const auto plan = plan_order(*order, c.inputs.shop, record, job.said);
  if (!plan) return;
  if (wants(c.flags, "tags")) {
    check_used_places(c, job);
    check_on_paper(*order, c.inputs.shop, *plan, sheets_of(c, job), job.said);
    if (job.said.has_errors()) return;
  }
  job.id = order->id.value;
  job.id_at = order->id.at;
  const auto& dye = order->treatment ? order->treatment->dye : std::nullopt;
  job.gist = {plan->species, std::string{name_of(order->wood.condition.value)}, dye ? dye->value : std::string{},
              order->quantity.value};
  job.to_make = order_to_make(*order, c.inputs.shop, *plan);
  job.to_start = plan->blanks();
  job.witnesses = plan->witnesses;
  job.blanks = record.issued_to_order;
  if (static_cast<int>(job.blanks.size()) < job.to_start) job.kept.reset();
  if (!record.blanks.empty() || !record.promised.empty())
    job.record = std::make_unique<const Record>(std::move(record));
  job.good = true;
}

void plan_each(Compile& c) {
  Known known{Register::open_to_read(c.register_file)};
  if (known.file) c.past = past_of(*known.file, c.inputs.shop);
  run_on_threads(c.flags.threads, c.jobs.size(), [&](std::size_t i) {
    if (c.jobs.at(i).source != nullptr) plan_one(c, c.jobs.at(i), known);
  });
}

/// The moment of an earlier compile, if that was the last one of all these orders and nothing changed since.
std::optional<Instant> kept_moment(const std::vector<Job>& jobs) {
  std::optional<std::int64_t> kept;
  for (const Job& job : jobs) {
    if (!job.good) continue;
    if (!job.kept || (kept && *kept != *job.kept)) return std::nullopt;
    kept = job.kept;
  }
  return kept ? std::optional{Instant{std::chrono::seconds{*kept}}} : std::nullopt;
}

/// Plans the orders together. One that cannot be planned so is left out, and the others are planned again without it.
Run plan_together(const Compile& c, Instant at, Diagnostics& out) {
  while (true) {
    Run run{{}, {}, {}, shop_time(c.inputs.shop, at)};
    for (std::size_t i = 0; i < c.jobs.size(); ++i) {
      if (!c.jobs.at(i).good) continue;
      run.jobs.push_back(i);
      run.orders.push_back(c.jobs.at(i).to_make);
    }
    Diagnostics said;
    run.plan = plan_shop(run.orders, c.inputs.shop, run.time, said);
    bool all = true;
    for (std::size_t k = 0; k < run.jobs.size(); ++k) {
      if (run.plan.orders.at(k).times) continue;
      Job& job = c.jobs.at(run.jobs.at(k));
      job.said.append(std::move(run.plan.orders.at(k).said));
      job.good = false;
      all = false;
    }
    if (!all) continue;
    for (const std::size_t i : run.jobs) c.jobs.at(i).to_make = {};
    out.append(std::move(said));
    return run;
  }
}

void issue_all(const Compile& c, const Run& run) {
  std::vector<OrderToIssue> wanted;
  for (const std::size_t i : run.jobs) {
    const Job& job = c.jobs.at(i);
    wanted.push_back({job.id, job.to_start - job.witnesses, inputs_of(c, job), job.gist, job.witnesses});
  }
  if (wanted.empty()) return;
  auto issued = Register{c.register_file}.issue(wanted, run.time.at.time_since_epoch().count(),
                                                Instant{std::chrono::seconds{c.around.clock.now_unix()}});
  if (!issued) {
    throw WorldError(c.register_file,
                     fmt::format("another run has just stored order \"{}\", which differs from \"{}\" in case alone",
                                 issued.error().stored, issued.error().asked));
  }
  for (std::size_t k = 0; k < run.jobs.size(); ++k) {
    c.jobs.at(run.jobs.at(k)).blanks = std::move(issued->at(k));
  }
}

/// What was entered of the order's blanks, for the sheets.
std::map<BlankId, BlankState> seen_of(const Compile& c, const Job& job) {
  std::map<BlankId, BlankState> seen;
  if (job.record == nullptr || c.flags.draft) return seen;
  for (const BlankState& blank : job.record->blanks) seen.emplace(*blank.id, blank);
  return seen;
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
  const Dossier dossier{prepared->order,
                        c.inputs.shop,
                        prepared->plan,
                        *planned.times,
                        sheets_of(c, job),
                        c.flags.draft ? std::vector<BlankId>{} : job.blanks,
                        c.flags.draft,
                        run.time.at,
                        program_version(),
                        baths_of(number, run.plan, issued),
                        loads_of(number, run.plan, issued),
                        seen_of(c, job)};
  already_said.append(planned.said);  // plan.json lists it too
  job.said.append(std::move(planned.said));
  Diagnostics on_paper;
  job.done = write_order(dossier, already_said, c.wanted, c.around.disk, on_paper);
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

Exit report(const Compile& c, Diagnostics& out) {
  int good = 0;
  Exit exit = Exit::done;
  for (Job& job : c.jobs) {
    good += job.good ? 1 : 0;
    if (!job.world.empty()) exit = Exit::world;
    out.append(std::move(job.said));
  }
  c.around.errors << rendered(out, c.around.errors_terminal.colour);
  for (const Job& job : c.jobs) c.around.errors << job.world;
  if (!c.flags.quiet) {
    for (const Job& job : c.jobs) c.around.out << job.done;
    c.around.out << fmt::format("{} of {} orders compiled{}; {} errors, {} warnings\n", good, c.jobs.size(),
                                c.flags.draft ? " as drafts" : "", out.errors(), out.warnings());
  }
  return worse(exit, out.has_errors() ? Exit::mistakes : Exit::done);
}

std::optional<Instant> moment(const CompileFlags& flags, Surroundings& around) {
  if (flags.at.empty()) return Instant{std::chrono::seconds{around.clock.now_unix()}};
  const auto at = parse_instant(flags.at, Zone{});
  if (at) return *at;
  around.errors << fmt::format("blankwright: --at: {}{}{}\n", at.error().message,
                               at.error().hint.empty() ? "" : "; write ", at.error().hint);
  return std::nullopt;
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
  const auto at = moment(flags, around);
  const auto used = places_used(flags, around);
  if (!at || !used) return Exit::command_line;
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
    around.errors << rendered(out, around.errors_terminal.colour);
    return Exit::mistakes;
  }
  if (wants(flags, "tags")) say_near_edge(inputs->sheet_template, inputs->shop.printer, out);
  Compile c{flags, around, *inputs, register_path(shop_file), program_version(), jobs, {flags, *used}};
  plan_each(c);
  refuse_same_ids(jobs);
  const auto kept = flags.at.empty() ? kept_moment(jobs) : std::nullopt;
  Run run = plan_together(c, kept.value_or(*at), out);
  if (!flags.draft) issue_all(c, run);
  write_all(c, run);
  return report(c, out);
}

}  // namespace blankwright
