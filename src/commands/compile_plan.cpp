#include <algorithm>
#include <filesystem>
#include <map>
#include <mutex>

#include "commands/at_register.h"
#include "commands/changed_order.h"
#include "commands/compile_steps.h"
#include "commands/gates.h"
#include "commands/past.h"
#include "commands/workers.h"
#include "diagnose/problem.h"
#include "diagnose/says_run.h"
#include "entries/open_orders.h"
#include "entries/order_id.h"
#include "plan/order/plan_order.h"
#include "register/register.h"
#include "sheet/tag/label.h"

namespace blankwright {
namespace {

/// An id that the register has for another client's other item is a mistake, and the blanks would get mixed up.
bool is_same_order(Register& known, const Order& order, const Source& source, Diagnostics& out) {
  const std::string& id = order.id.value;
  if (const auto other = known.other_spelling(id)) {
    out.error(Problem::order_in_register_differs, order.id.at, says::other_case_in_register, *other, id);
    return false;
  }
  const auto stored = known.stored_job(id);
  if (!stored || *stored == source->text) return true;
  Diagnostics ignored;
  const auto before = read_order(std::make_shared<const SourceText>(SourceText{"register", *stored}), ignored);
  if (!before || before->client.value == order.client.value || before->item.value == order.item.value) return true;
  out.error(Problem::order_in_register_differs, order.id.at, says::other_order_in_register, id, before->item.value,
            before->client.value, order.item.value, order.client.value)
      .hint(says::give_own_id);
  return false;
}

/// The register as the threads that plan see it: one at a time.
struct Known {
  std::optional<Register> file;
  std::optional<Gates> gates{};
  std::mutex one_at_a_time{};
};

void check_used_places(const UsedPlaces& used, const Template& t, Diagnostics& out) {
  const int on_sheet = places_of(tag_sheet(t));
  if (t.tags.value == TagForm::tie_tags || used.empty()) return;
  const std::string& sheet = tag_sheet(t).name.value;
  if (const int last = std::ranges::max(used); last > on_sheet) {
    out.error(Problem::out_of_range, {}, says::no_such_place, last, sheet, on_sheet);
  } else if (std::ssize(used) == on_sheet) {
    out.error(Problem::out_of_range, {}, says::no_place_left, sheet, on_sheet);
  }
}

/// An order's plan, and the record that it rests on in the end.
struct PlannedWith {
  std::optional<OrderPlan> plan;
  Record record;
};

/// Plans an order, and says which of its blanks do not fit it any more; they are given up where that is asked for.
PlannedWith planned_for_what_is_there(const ReadRun& read, const Order& order, Known& known, Record record,
                                      Diagnostics& out) {
  const Shop& shop = read.inputs.shop;
  Diagnostics said;
  auto plan = plan_order(order, shop, record, said);
  if (plan && known.file) {
    const std::lock_guard lock{known.one_at_a_time};
    auto unfit = fit_no_more(*known.file, record, {&order, &*plan, &shop});
    const auto is_given_up = [&](const FitsNoMore& one) { return one.is_given_up(read.wanted.flags.replace); };
    for (const FitsNoMore& one : unfit) {
      if (is_given_up(one)) record.replaced.push_back(*one.blank.id);
    }
    const auto kept =
        std::ranges::count_if(unfit, [&](const FitsNoMore& one) { return one.against && !is_given_up(one); });
    record.no_more_witnesses = kept > 0;
    if (!unfit.empty()) {
      said = {};
      plan = plan_order(order, shop, record, said);
    }
    std::erase_if(unfit, [&](const FitsNoMore& one) { return is_given_up(one) && !one.is_promised_in(); });
    if (plan && !unfit.empty()) say_fit_no_more(*known.file, unfit, {&order, &*plan, &shop}, said);
    // Another compile may have started others in the place of those that do not fit.
    if (plan) say_not_needed(record, order, plan->start.needed + static_cast<int>(kept), said);
  }
  out.append(std::move(said));
  return {std::move(plan), std::move(record)};
}

/// Plans one order by itself, with what the register knows of it.
PlannedJob plan_one(const ReadRun& read, std::size_t number, const ShopPast& past, Known& known, Instant at) {
  const ReadJob& job = read.jobs.at(number);
  PlannedJob out;
  if (!job.order) return out;
  const Order& order = *job.order;
  const std::string& id = order.id.value;
  Record record;
  Tally so_far;
  if (known.file) {
    const std::lock_guard lock{known.one_at_a_time};
    if (!is_same_order(*known.file, order, job.source, out.said)) return out;
    record = record_of(*known.file, past, id);
    add_gates(record, *known.gates);
    for (const KnownBlank& blank : known.file->blanks_of_order(id)) {
      if (blank.blank.promised == id) so_far.add(blank.blank);
    }
  }
  auto planned = planned_for_what_is_there(read, order, known, std::move(record), out.said);
  if (!planned.plan || !job.has_its_sheets()) return out;
  if (known.file && wants(read.wanted.flags, "traveller")) {
    const std::lock_guard lock{known.one_at_a_time};
    Gates gates{*known.file, read.inputs.shop, past};  // its own: what others judge by is what was printed last
    gates.judge_by(order, *planned.plan);
    planned.record.held = gates.held(planned.record.blanks, at);
  }
  if (wants(read.wanted.flags, "tags")) {
    const Template& sheets = sheets_of(job, read.inputs);
    check_used_places(read.wanted.used_places, sheets, out.said);
    check_on_paper(order, read.inputs.shop, *planned.plan, sheets, out.said);
    if (out.said.has_errors()) return out;
  }
  out.id = id;
  out.good = kept_of(number, order, read.inputs.shop, *planned.plan, std::move(planned.record));
  out.good->order.so_far = so_far;
  if (known.file) {
    const std::lock_guard lock{known.one_at_a_time};
    out.good->to_make.planned = known.file->newest_plan(id);
  }
  return out;
}

/// An id that the order may have in place of one that another has: its file's name, where that is none yet.
std::string id_by_file(const std::string& file, const std::string& taken) {
  const std::string stem = std::filesystem::path{file}.stem().string();
  const bool is_free = !order_id_problem(stem) && folded_order_id(stem) != folded_order_id(taken);
  return is_free ? stem : taken + "-2";
}

/// Refuses orders whose folders would be one on some systems.
std::vector<PlannedJob> without_same_ids(const ReadRun& read, std::vector<PlannedJob> jobs) {
  std::map<std::string, std::size_t> seen;
  std::vector<std::size_t> refused;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    if (!jobs.at(i).good) continue;
    const auto& own = read.jobs.at(i).order->id;
    const auto [first, is_new] = seen.try_emplace(folded_order_id(own.value), i);
    if (is_new) continue;
    const auto& other = read.jobs.at(first->second).order->id;
    jobs.at(i)
        .said
        .error(Problem::same_order_id, own.at,
               other.value == own.value ? say(says::compiled_twice, other.value)
                                        : say(says::differs_in_case, own.value, other.value))
        .label(other.at, says::the_other_one)
        .hint(says::id_of_its_own, id_by_file(read.jobs.at(i).file, own.value));
    refused.insert(refused.end(), {first->second, i});
  }
  for (const std::size_t i : refused) jobs.at(i).good.reset();
  return jobs;
}

/// Orders that are compiled together are printed together: where one of them is new, the others may share with it,
/// and hold no place before it.
void let_run_share(std::vector<OrderToMake>& orders) {
  const auto is_new = [](const OrderToMake& order) { return order.of_run && !order.holds_place; };
  if (std::ranges::none_of(orders, is_new)) return;
  for (OrderToMake& order : orders) order.holds_place = order.holds_place && !order.of_run;
}

}  // namespace

PlannedJob::Good kept_of(std::optional<std::size_t> job, const Order& order, const Shop& shop, const OrderPlan& plan,
                         Record record) {
  const auto& dye = order.treatment ? order.treatment->dye : std::nullopt;
  OrderToMake to_make = order_to_make(order, shop, plan, record);
  return {{.job = job,
           .id = order.id.value,
           .gist = {plan.species, std::string{name_of(order.wood.condition.value)}, dye ? dye->value : std::string{},
                    order.quantity.value},
           .to_start = plan.blanks(),
           .witnesses = plan.witnesses,
           .so_far = {},
           .material = order_material(order, plan, record),
           .record = std::move(record)},
          std::move(to_make)};
}

void take_plans_printed(const RegisterPlace& register_place, std::span<PlannedJob> jobs) {
  auto known = Register::open_to_read(register_place);
  if (!known) return;
  for (PlannedJob& job : jobs) {
    if (job.good) job.good->to_make.planned = known->newest_plan(job.good->order.id);
  }
}

std::vector<PlannedJob> plan_each(const ReadRun& read, Instant at, Diagnostics& out) {
  std::vector<PlannedJob> jobs(read.jobs.size());
  Known known{Register::open_to_read(read.register_place)};
  if (known.file && !is_named_series(known.file->series(), read.inputs.shop, out)) return jobs;
  const ShopPast past = known.file ? past_of(*known.file, read.inputs.shop) : ShopPast{};
  if (known.file) known.gates.emplace(*known.file, read.inputs.shop, past);
  run_on_threads(read.wanted.flags.threads, jobs.size(),
                 [&](std::size_t i) { jobs.at(i) = plan_one(read, i, past, known, at); });
  return without_same_ids(read, std::move(jobs));
}

std::vector<std::string> ids_of(const std::vector<PlannedJob>& jobs) {
  std::vector<std::string> ids;
  for (const PlannedJob& job : jobs) {
    if (job.good) ids.push_back(job.good->order.id);
  }
  return ids;
}

std::vector<PlannedJob::Good> plan_open_orders(const RegisterPlace& register_place, const Shop& shop,
                                               std::span<const std::string> without, Diagnostics& out) {
  std::vector<PlannedJob::Good> all;
  auto known = Register::open_to_read(register_place);
  if (!known) return all;
  const ShopPast past = past_of(*known, shop);
  Gates gates{*known, shop, past};
  for (const std::string& id : open_orders(known->known_blanks(), known->quantities())) {
    if (std::ranges::find(without, id) != without.end()) continue;
    const auto text = known->stored_job(id);
    if (!text) continue;
    Diagnostics ignored;
    const auto order = read_order(std::make_shared<const SourceText>(SourceText{id, *text}), ignored);
    Record record = record_of(*known, past, id);
    add_gates(record, gates);
    const auto plan = order ? plan_order(*order, shop, record, ignored) : std::nullopt;
    if (!plan) {
      out.warning(Problem::open_order_not_planned, {}, says::open_order_not_planned, id).hint(says::compile_its_job);
      continue;
    }
    all.push_back(kept_of(std::nullopt, *order, shop, *plan, std::move(record)));
    all.back().to_make.of_run = false;
    all.back().to_make.planned = known->newest_plan(id);
  }
  return all;
}

std::vector<OrderMaterial> materials_of(const PlannedTogether& planned) {
  std::vector<OrderMaterial> materials;
  for (const PlannedOrder& order : planned.orders) materials.push_back(order.material);
  return materials;
}

PlannedTogether plan_together(std::vector<PlannedJob> jobs, std::vector<PlannedJob::Good> open, const Shop& shop,
                              Instant at) {
  PlannedTogether run{{}, {}, {}, shop_time(shop, at), {}, {}, {}, 0, {}};
  const auto add = [&](PlannedJob::Good good) {
    run.orders.push_back(std::move(good.order));
    run.to_make.push_back(std::move(good.to_make));
  };
  for (PlannedJob& job : jobs) {
    run.ids.push_back(std::move(job.id));
    run.said.push_back(std::move(job.said));
    if (job.good) add(std::move(*job.good));
  }
  run.of_run = run.orders.size();
  for (PlannedJob::Good& one : open) add(std::move(one));
  let_run_share(run.to_make);
  Diagnostics not_placed;
  while (true) {
    run.said_of_shop = {};
    run.plan = plan_shop(run.to_make, shop, run.time, run.said_of_shop);
    bool all = true;
    for (std::size_t n = run.orders.size(); n-- > 0;) {
      if (run.plan.orders.at(n).times) continue;
      if (const auto job = run.orders.at(n).job) {
        run.said.at(*job).append(std::move(run.plan.orders.at(n).said));
        --run.of_run;
      } else {
        not_placed.warning(Problem::open_order_not_planned, {}, says::open_order_not_planned, run.orders.at(n).id)
            .hint(says::compile_its_job);
      }
      run.orders.erase(run.orders.begin() + static_cast<std::ptrdiff_t>(n));
      run.to_make.erase(run.to_make.begin() + static_cast<std::ptrdiff_t>(n));
      all = false;
    }
    if (!all) continue;
    run.said_of_shop.append(std::move(not_placed));
    return run;
  }
}

}  // namespace blankwright
