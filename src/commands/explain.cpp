#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <utility>

#include "commands/compile_steps.h"
#include "commands/gates.h"
#include "commands/harmless_stream.h"
#include "measure/nearest.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/order/plan_order.h"

namespace blankwright {
namespace {

/// Figures with the way to them: of the order, or of one of its baths.
struct Explained {
  const Figures& figures;
  const std::vector<Step>& working;
  std::string bath;  ///< as its card is headed; empty for the order
};

void print_line(const FigureInfo& figure, const Explained& plan, UnitSystem units, std::ostream& out) {
  out << fmt::format("{:<38} {:<26} {}\n", figure.path, text(figure.figure, plan.figures.get(figure.figure), units),
                     figure.label);
}

/// One figure with the whole way to it.
void print_working(const FigureInfo& figure, const Explained& plan, UnitSystem units, std::ostream& out) {
  out << fmt::format("{}: {}\n  {} = {}\n", figure.path, figure.label, figure.path,
                     text(figure.figure, plan.figures.get(figure.figure), units));
  for (const Step& step : plan.working) {
    if (step.figure != figure.figure) continue;
    out << fmt::format("  formula  {}\n  numbers  {}\n", symbolic(*step.expression),
                       with_numbers(*step.expression, units));
    if (step.note) out << fmt::format("  note     {}\n", text(*step.note, units));
    for (const auto& term : terms_of(*step.expression)) {
      const std::string from = origin_text(term->origin);
      out << fmt::format("    {} = {}{}\n", name_text(*term), text(term->si, term->powers, units),
                         from.empty() ? "" : " (" + from + ")");
    }
  }
  out << fmt::format("  source   {}\n", figure.source);
}

Exit unknown_figure(const std::string& typed, std::ostream& errors) {
  std::vector<std::string> paths;
  for (const FigureInfo& figure : figure_infos()) paths.emplace_back(figure.path);
  const auto meant = nearest_names(typed, paths, 2);
  errors << fmt::format(
      "blankwright: no figure is called {}; {}\n", typed,
      meant.empty() ? "leave it out to see all" : fmt::format("did you mean {}?", fmt::join(meant, " or ")));
  return Exit::command_line;
}

/// An order as it is planned by itself.
struct PlannedAlone {
  const ReadJob& job;
  const OrderPlan& plan;
  Record record;
};
struct KnownUntil {
  RegisterPlace register_place;
  Instant now;
};

/// The baths that its blanks go into, planned with the shop's open orders as a compile does.
std::vector<PlannedBath> baths_planned(PlannedAlone alone, const ShopInputs& inputs, const KnownUntil& known,
                                       Diagnostics& out) {
  const Order& order = *alone.job.order;
  PlannedJob own;
  own.id = order.id.value;
  own.good = kept_of(0, order, inputs.shop, alone.plan, std::move(alone.record));
  std::vector<PlannedJob> jobs;
  jobs.push_back(std::move(own));
  take_plans_printed(known.register_place, jobs);
  const std::vector ids{order.id.value};
  auto open = plan_open_orders(known.register_place, inputs.shop, ids, out);
  PlannedTogether run = plan_together(std::move(jobs), std::move(open), inputs.shop, known.now);
  out.append(std::move(run.said.front()));
  if (run.of_run == 0) return {};
  std::erase_if(run.plan.baths, [](const PlannedBath& bath) {
    return std::ranges::none_of(bath.shares, [](const BlankShare& share) { return share.order == 0; });
  });
  return std::move(run.plan.baths);
}

}  // namespace

Exit explain(const ExplainFlags& flags, Surroundings& around) {
  const std::string named = fmt::format("{}", fmt::join(flags.figure, "."));
  const auto wanted = figure_at(named);
  if (!wanted && named.ends_with(".toml")) {
    around.errors << fmt::format("blankwright: the job stands before the figure: explain {} {}\n", named, flags.job);
    return Exit::command_line;
  }
  if (!named.empty() && !wanted) return unknown_figure(named, around.errors);
  Diagnostics out;
  const std::string shop_file = shop_path(flags.shop, flags.job);
  const auto inputs = read_shop_inputs(around.disk, shop_file, out);
  const ReadJob job = read_job(around.disk, flags.job);
  out.append(job.said);
  std::optional<OrderPlan> plan;
  std::vector<PlannedBath> baths;
  if (job.order && inputs) {
    const RegisterPlace register_place = place_of_register(inputs->shop, shop_file);
    Record record = records_in(register_place, inputs->shop)(job.order->id.value);
    plan = plan_order(*job.order, inputs->shop, record, out);
    if (plan) {
      const Instant now{std::chrono::seconds{around.clock.now_unix()}};
      baths = baths_planned({job, *plan, std::move(record)}, *inputs, {register_place, now}, out);
    }
  }
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  if (!plan) return Exit::mistakes;
  const UnitSystem units = inputs->shop.units.value;
  std::vector<Explained> parts{{plan->figures, plan->working, {}}};
  for (const PlannedBath& bath : baths) {
    parts.push_back({bath.figures, bath.working, fmt::format("Bath {}", bath.number + 1)});
  }
  if (wanted) {
    for (const Explained& part : parts) {
      if (is_of_a_bath(info(*wanted)) == part.bath.empty()) continue;
      if (parts.size() > 2 && !part.bath.empty()) around.out << fmt::format("{}\n", part.bath);
      print_working(info(*wanted), part, units, around.out);
    }
    return Exit::done;
  }
  for (const Explained& part : parts) {
    if (!part.bath.empty()) around.out << fmt::format("\n{}\n", part.bath);
    for (const FigureInfo& figure : figure_infos()) {
      if (is_of_a_bath(figure) == !part.bath.empty()) print_line(figure, part, units, around.out);
    }
  }
  around.out << "\nThe way to one of them: blankwright explain JOB FIGURE\n";
  return Exit::done;
}

}  // namespace blankwright
