#include <fmt/format.h>

#include <map>
#include <ostream>

#include "commands/commands.h"
#include "commands/output.h"
#include "commands/prepare.h"
#include "commands/workers.h"
#include "diagnose/failure.h"
#include "entries/order_id.h"
#include "register/register.h"
#include "sheet/tags.h"

namespace blankwright {
namespace {

/// What is kept of an order between planning and layout: little, so that the number of orders costs no memory. The
/// layout plans it again, which is quick and gives the same.
struct Job {
  Source source;
  Diagnostics said;
  std::string id;
  Place id_at;
  int pieces = 0;
  bool good = false;
  std::vector<BlankId> blanks;
  Instant at;
  std::string done;   ///< the line that tells what was written
  std::string world;  ///< what was in the way of writing it
};

struct Compile {
  const CompileFlags& flags;
  Surroundings& around;
  const ShopInputs& inputs;
  std::string register_file;
  std::vector<Job>& jobs;
};

CompileInputs inputs_of(const Compile& c, const Job& job) {
  return {job.source->text, c.inputs.shop.source->text, c.inputs.template_text, program_version()};
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

void plan_one(const Compile& c, Job& job, const Record& record, const ShopTime& time) {
  const auto prepared = prepare(
      job.source, c.inputs.shop, [&](const std::string&) { return record; }, time, job.said);
  if (!prepared) return;
  if (wants(c.flags, "tags")) {
    const Dossier unissued{prepared->order,
                           c.inputs.shop,
                           prepared->plan,
                           prepared->times,
                           c.inputs.sheet_template,
                           {},
                           true,
                           time.at,
                           {}};
    check_tags(unissued, sheet_fonts().metrics, job.said);
    if (job.said.has_errors()) return;
  }
  job.id = prepared->order.id.value;
  job.id_at = prepared->order.id.at;
  job.pieces = prepared->plan.start.pieces;
  job.good = true;
}

/// An id that the register has for another client's other item is a mistake, and the blanks would get mixed up.
bool is_same_order(Register& known, Job& job) {
  const auto stored = known.stored_job(job.id);
  if (!stored || *stored == job.source->text) return true;
  Diagnostics unheard;
  const auto before = read_order(std::make_shared<const SourceText>(SourceText{"register", *stored}), unheard);
  const auto now = read_order(job.source, unheard);
  if (!before || !now) return true;
  if (before->client.value == now->client.value || before->item.value == now->item.value) return true;
  job.said
      .error(Problem::order_in_register_differs, job.id_at,
             fmt::format("order \"{}\" is \"{}\" for {} in the register; here it is \"{}\" for {}", job.id,
                         before->item.value, before->client.value, now->item.value, now->client.value))
      .hint("give this order an id of its own");
  job.good = false;
  return false;
}

/// Plans every order as of `at`, or as of the moment that the register kept for it.
void plan_all(const Compile& c, Instant at, bool at_given) {
  const ShopTime now = shop_time(c.inputs.shop, at);
  run_on_threads(c.flags.threads, c.jobs.size(), [&](std::size_t i) {
    Job& job = c.jobs.at(i);
    job.at = at;
    if (job.source != nullptr) plan_one(c, job, {}, now);
  });
  auto known = Register::open_to_read(c.register_file);
  for (Job& job : c.jobs) {
    if (!known || !job.good) continue;
    const auto other = known->other_spelling(job.id);
    if (other) {
      job.said.error(
          Problem::order_in_register_differs, job.id_at,
          fmt::format("the register has an order \"{}\", which differs from \"{}\" in case alone", *other, job.id));
      job.good = false;
      continue;
    }
    if (!is_same_order(*known, job)) continue;
    const Record record{known->issued_to(job.id)};
    const auto kept = at_given || static_cast<int>(record.issued_to_order.size()) < job.pieces
                          ? std::nullopt
                          : known->kept_at(job.id, inputs_of(c, job));
    if (record.issued_to_order.empty() && !kept) continue;
    // Planned anew with what the register knows: more blanks take longer, and an old moment has other working days.
    job.said = {};
    job.good = false;
    if (kept) job.at = Instant{std::chrono::seconds{*kept}};
    plan_one(c, job, record, kept ? shop_time(c.inputs.shop, job.at) : now);
    if (!c.flags.draft) job.blanks = record.issued_to_order;
  }
}

void issue_all(const Compile& c, Instant at, bool at_given) {
  std::vector<OrderToIssue> wanted;
  std::vector<Job*> jobs;
  for (Job& job : c.jobs) {
    if (!job.good) continue;
    wanted.push_back({job.id, job.pieces, inputs_of(c, job)});
    jobs.push_back(&job);
  }
  if (wanted.empty()) return;
  const auto issued = Register{c.register_file}.issue(wanted, at.time_since_epoch().count(), at_given);
  if (!issued) {
    throw WorldError(c.register_file,
                     fmt::format("another run has just stored order \"{}\", which differs from \"{}\" in case alone",
                                 issued.error().stored, issued.error().asked));
  }
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    jobs.at(i)->blanks = issued->at(i).blanks;
    jobs.at(i)->at = Instant{std::chrono::seconds{issued->at(i).at_unix}};
  }
}

/// Plans an order again as it was issued, and writes what was asked for.
void write_one(const Compile& c, Job& job, const ShopTime& shared, const SheetFonts& fonts) {
  Diagnostics already_said;
  const Records records = [&](const std::string&) { return Record{job.blanks}; };
  const auto prepared = job.at == shared.at ? prepare(job.source, c.inputs.shop, records, shared, already_said)
                                            : prepare(job.source, c.inputs.shop, records,
                                                      shop_time(c.inputs.shop, job.at), already_said);
  if (!prepared) {  // another run has given it more blanks in the meantime than can be planned
    job.said.append(std::move(already_said));
    job.good = false;
    return;
  }
  const Dossier dossier{prepared->order, c.inputs.shop, prepared->plan, prepared->times,  c.inputs.sheet_template,
                        job.blanks,      c.flags.draft, job.at,         program_version()};
  Diagnostics on_paper;
  job.done = write_order(dossier, already_said, c.flags, fonts, c.around.disk, on_paper);
  if (on_paper.has_errors()) job.good = false;
  job.said.append(std::move(on_paper));
}

void write_all(const Compile& c, Instant at) {
  const SheetFonts& fonts = sheet_fonts();
  const ShopTime shared = shop_time(c.inputs.shop, at);
  Progress progress{c.around.errors, c.around.errors_terminal, c.flags.quiet, c.jobs.size()};
  // One thread more than are to be busy: one is always waiting for the disk to have a file.
  run_on_threads(thread_count(c.flags.threads) + 1, c.jobs.size(), [&](std::size_t i) {
    Job& job = c.jobs.at(i);
    try {
      if (job.good) write_one(c, job, shared, fonts);
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

}  // namespace

Exit compile(const CompileFlags& flags, Surroundings& around) {
  const auto at = moment(flags, around);
  if (!at) return Exit::command_line;
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
  const Compile c{flags, around, *inputs, register_path(shop_file), jobs};
  plan_all(c, *at, !flags.at.empty());
  refuse_same_ids(jobs);
  if (!flags.draft) issue_all(c, *at, !flags.at.empty());
  write_all(c, *at);
  return report(c, out);
}

}  // namespace blankwright
