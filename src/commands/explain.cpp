#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "commands/commands.h"
#include "commands/prepare.h"
#include "measure/nearest.h"
#include "plan/working.h"

namespace blankwright {
namespace {

void print_line(const FigureInfo& figure, const OrderPlan& plan, UnitSystem units, std::ostream& out) {
  out << fmt::format("{:<38} {:<26} {}\n", figure.path, text(figure.figure, plan.figures.get(figure.figure), units),
                     figure.label);
}

/// One figure with the whole way to it.
void print_working(const FigureInfo& figure, const OrderPlan& plan, UnitSystem units, std::ostream& out) {
  out << fmt::format("{}: {}\n  {} = {}\n", figure.path, figure.label, figure.path,
                     text(figure.figure, plan.figures.get(figure.figure), units));
  for (const Step& step : plan.working) {
    if (step.figure != figure.figure) continue;
    out << fmt::format("  formula  {}\n  numbers  {}\n", symbolic(*step.expression),
                       with_numbers(*step.expression, units));
    if (!step.note.empty()) out << fmt::format("  note     {}\n", note_text(step, units));
    for (const auto& term : terms_of(*step.expression)) {
      out << fmt::format("    {} = {}{}\n", term->name, value_text(term->si, term->powers, units),
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
  const Source source = read_source(around.disk, flags.job, out);
  std::optional<OrderPlan> plan;
  if (source != nullptr) {
    const auto order = read_order(source, out);
    if (order && inputs)
      plan = plan_order(*order, inputs->shop, records_in(register_path(shop_file))(order->id.value), out);
  }
  around.errors << rendered(out, around.errors_terminal.colour);
  if (!plan) return Exit::mistakes;
  const UnitSystem units = inputs->shop.units.value;
  if (wanted) {
    print_working(info(*wanted), *plan, units, around.out);
    return Exit::done;
  }
  for (const FigureInfo& figure : figure_infos()) print_line(figure, *plan, units, around.out);
  around.out << "\nThe way to one of them: blankwright explain JOB FIGURE\n";
  return Exit::done;
}

}  // namespace blankwright
