#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <mutex>

#include "commands/at_register.h"
#include "commands/changed_order.h"
#include "commands/compile_run.h"
#include "commands/workers.h"
#include "entries/order_id.h"
#include "plan/order/plan_order.h"
#include "register/register.h"
#include "sheet/tag/label.h"

namespace blankwright {
namespace {

/// Reads the template that a job names. False where it cannot be used.
bool read_own_sheets(const Compile& c, Job& job, const Order& order) {
  if (!order.sheet_template) return true;
  auto own = read_named_template(c.around.disk, *order.sheet_template, job.source->name, job.said);
  if (own && wants(c.flags, "tags")) say_near_edge(own->sheets, c.inputs.shop.printer, job.said);
  if (own) job.own_sheets = std::make_unique<const NamedTemplate>(std::move(*own));
  return own.has_value();
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
  if (t.tags.value == TagForm::tie_tags || used.empty()) return;
  const std::string& sheet = tag_sheet(t).name.value;
  if (const int last = std::ranges::max(used); last > on_sheet) {
    job.said.error(
        Problem::out_of_range, {},
        fmt::format("--used-places: there is no place {} on a sheet of \"{}\", which has {}", last, sheet, on_sheet));
  } else if (std::ssize(used) == on_sheet) {
    job.said.error(
        Problem::out_of_range, {},
        fmt::format("--used-places: no place is left on a sheet of \"{}\", which has {}", sheet, on_sheet));
  }
}

/// Plans an order, and says which of its blanks do not fit it any more; they are given up where that is asked for.
std::optional<OrderPlan> planned_for_what_is_there(const Compile& c, Job& job, const Order& order, Known& known,
                                                   Record& record) {
  Diagnostics said;
  auto plan = plan_order(order, c.inputs.shop, record, said);
  if (plan && known.file) {
    const std::lock_guard lock{known.one_at_a_time};
    const OpenOrder now{&order, &*plan, &c.inputs.shop};
    auto unfit = fit_no_more(*known.file, record, now);
    const auto is_given_up = [&](const FitsNoMore& one) { return one.is_given_up(c.flags.replace); };
    for (const FitsNoMore& one : unfit) {
      if (is_given_up(one)) record.replaced.push_back(*one.blank.id);
    }
    const auto kept =
        std::ranges::count_if(unfit, [&](const FitsNoMore& one) { return one.against && !is_given_up(one); });
    record.no_more_witnesses = kept > 0;
    if (!unfit.empty()) {
      said = {};
      plan = plan_order(order, c.inputs.shop, record, said);
    }
    std::erase_if(unfit, [&](const FitsNoMore& one) { return is_given_up(one) && !one.is_promised_in(); });
    if (plan && !unfit.empty()) say_fit_no_more(*known.file, unfit, {&order, &*plan, &c.inputs.shop}, said);
    // Another compile may have started others in the place of those that do not fit.
    if (plan) say_not_needed(record, order, plan->start.needed + static_cast<int>(kept), said);
  }
  job.said.append(std::move(said));
  return plan;
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
    for (const KnownBlank& blank : known.file->blanks_of_order(order->id.value)) {
      if (blank.blank.promised == order->id.value) job.so_far.add(blank.blank);
    }
    job.kept = known.file->kept_at(order->id.value, inputs_of(c, job));
  }
  const auto plan = planned_for_what_is_there(c, job, *order, known, record);
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

}  // namespace

void plan_each(Compile& c, Diagnostics& out) {
  Known known{Register::open_to_read(c.register_file)};
  if (known.file && !is_named_series(known.file->series(), c.inputs.shop, out)) return;
  if (known.file) c.past = past_of(*known.file, c.inputs.shop);
  run_on_threads(c.flags.threads, c.jobs.size(), [&](std::size_t i) {
    if (c.jobs.at(i).source != nullptr) plan_one(c, c.jobs.at(i), known);
  });
}

std::optional<Instant> kept_moment(const std::vector<Job>& jobs) {
  std::optional<std::int64_t> kept;
  for (const Job& job : jobs) {
    if (!job.good) continue;
    if (!job.kept || (kept && *kept != *job.kept)) return std::nullopt;
    kept = job.kept;
  }
  return kept ? std::optional{Instant{std::chrono::seconds{*kept}}} : std::nullopt;
}

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

CompileInputs inputs_of(const Compile& c, const Job& job) {
  return {job.source->text, c.inputs.shop.source->text,
          job.own_sheets ? job.own_sheets->text : c.inputs.template_text, c.version};
}

const Template& sheets_of(const Compile& c, const Job& job) {
  return job.own_sheets ? job.own_sheets->sheets : c.inputs.sheet_template;
}

}  // namespace blankwright
