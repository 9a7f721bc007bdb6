#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ostream>

#include "commands/compile_steps.h"
#include "commands/harmless_stream.h"
#include "commands/past.h"
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
      out << fmt::format("    {} = {}{}\n", term->name, text(term->si, term->powers, units),
                         term->origin.empty() ? "" : " (" + term->origin + ")");
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

}  // namespace

Exit explain(const ExplainFlags& flags, Surroundings& around) {
  const auto wanted = figure_at(flags.figure);
  if (!flags.figure.empty() && !wanted) return unknown_figure(flags.figure, around.errors);
  Diagnostics out;
  const std::string shop_file = shop_path(flags.shop, flags.job);
  const auto inputs = read_shop_inputs(around.disk, shop_file, out);
  const ReadJob job = read_job(around.disk, flags.job);
  out.append(job.said);
  std::optional<OrderPlan> plan;
  Record record;
  ShopPlan together;
  if (job.order && inputs) {
    record = records_in(register_path(shop_file), inputs->shop)(job.order->id.value);
    plan = plan_order(*job.order, inputs->shop, record, out);
  }
  if (plan) {
    const std::array orders{order_to_make(*job.order, inputs->shop, *plan, record)};
    const ShopTime time = shop_time(inputs->shop, Instant{std::chrono::seconds{around.clock.now_unix()}});
    together = plan_shop(orders, inputs->shop, time, out);
  }
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  if (!plan) return Exit::mistakes;
  const UnitSystem units = inputs->shop.units.value;
  std::vector<Explained> parts{{plan->figures, plan->working}};
  for (const PlannedBath& bath : together.baths) parts.push_back({bath.figures, bath.working});
  if (wanted) {
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (is_of_a_bath(info(*wanted)) == (i > 0)) print_working(info(*wanted), parts.at(i), units, around.out);
    }
    return Exit::done;
  }
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) around.out << fmt::format("\nBath {}\n", i);
    for (const FigureInfo& figure : figure_infos()) {
      if (is_of_a_bath(figure) == (i > 0)) print_line(figure, parts.at(i), units, around.out);
    }
  }
  around.out << "\nThe way to one of them: blankwright explain JOB FIGURE\n";
  return Exit::done;
}

}  // namespace blankwright
