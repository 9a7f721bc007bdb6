#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "sheet/frame/flow.h"
#include "sheet/mark/block.h"
#include "sheet/paper/limits.h"

namespace blankwright {
namespace {

constexpr Length worksheet_gap = 6 * mm;
constexpr Length above_rule = 1 * mm;  // free between a step and the rule of the next one
constexpr Length below_rule = 0.8 * mm;
constexpr TextStyle working_style{.size = Lettering::note};
constexpr TextStyle label_style{.size = Lettering::hand, .face = Face::bold, .least = Lettering::hand};
constexpr TextStyle value_style{.size = Lettering::hand, .face = Face::bold, .align = Align::right};

WorkingLanguage language_of(const Template& t) { return {t.terms, t.origins, t.sources, t.spelling}; }

/// "finish, bow (shop); e, t (axis error)": the terms by where they came from. Numbers of nature are left out.
std::string origins(const Expression& expression, const WorkingLanguage& in) {
  std::vector<std::pair<TermSource, std::string>> groups;  // origin, names
  for (const ExpressionPtr& term : terms_of(expression)) {
    if (term->origin == TermSource{}) continue;
    const auto known =
        std::find_if(groups.begin(), groups.end(), [&](const auto& g) { return g.first == term->origin; });
    if (known == groups.end()) {
      groups.emplace_back(term->origin, name_text(*term, in));
    } else {
      known->second += ", " + name_text(*term, in);
    }
  }
  std::string words;
  for (const auto& [origin, names] : groups)
    words += (words.empty() ? "" : "; ") + names + " (" + origin_text(origin, in) + ")";
  return words;
}

/// The formula and the numbers put into it, on one line where there is room.
std::vector<Phrase> formula(const Canvas& canvas, const Dossier& d, const Expression& expression, Length width) {
  const WorkingLanguage in = language_of(d.sheet_template);
  if (expression.op == Expression::Op::term) {  // its number stands above already
    const std::string from = origins(expression, in);
    return {{"= " + (from.empty() ? symbolic(expression, in) : from), working_style}};
  }
  const std::string terms = "= " + symbolic(expression, in);
  const std::string numbers = "= " + with_numbers(expression, d.shop.units.value, in);
  if (numbers == terms) return {{terms, working_style}};
  const std::string both = terms + " " + numbers;
  if (canvas.width_of(both, working_style) <= width) return {{both, working_style}};
  return {{terms, working_style}, {numbers, working_style}};
}

struct SetStep {
  Block label, value, body;
  Length height;
};

SetStep set_step(const Canvas& canvas, const Dossier& d, const Step& step, Length width) {
  const WordTable& w = d.sheet_template.words;
  const UnitSystem system = d.shop.units.value;
  const FigureInfo& about = info(step.figure);
  const std::array value{Phrase{shown(d, printed(step.figure, step.expression->si, system)), value_style}};
  const std::array label{Phrase{d.sheet_template.labels.of(about.path, about.label), label_style}};
  std::vector<Phrase> body = formula(canvas, d, *step.expression, width);
  if (step.note)
    body.push_back({text(*step.note, system, d.sheet_template.notes, d.sheet_template.spelling), working_style});
  const bool lone_term = step.expression->op == Expression::Op::term;
  const std::string from = origins(*step.expression, language_of(d.sheet_template));
  if (!from.empty() && !lone_term) body.push_back({w[Word::with] + " " + from, working_style});
  body.push_back({fmt::format("{}: {} · {}", w[Word::source], d.sheet_template.sources.of(about.source, about.source),
                              about.path),
                  working_style});

  SetStep set;
  const Length value_width = std::min(canvas.width_of(value.front().words, value_style) * (1 + 1e-9), width / 2);
  set.value = set_block(canvas, value, value_width);
  set.label = set_block(canvas, label, width - value_width - 3 * mm);
  set.body = set_block(canvas, body, width);
  set.height = below_rule + std::max(set.label.height, set.value.height) + set.body.height + above_rule;
  return set;
}

void place_step(Canvas& canvas, Spot at, Length width, const SetStep& step) {
  canvas.line(at, {at.x + width, at.y});
  at.y += below_rule;
  place_block(canvas, at, step.label);
  place_block(canvas, {at.x + width - step.value.width, at.y}, step.value);
  at.y += std::max(step.label.height, step.value.height);
  place_block(canvas, at, step.body);
}

/// Fills the left column, then the right one, then goes on on a further page.
void put_steps(Flow& flow, std::span<const SetStep> steps, Length width) {
  Length x = free_room(flow).x;
  Length y = flow.top;
  bool at_right = false;
  for (const SetStep& step : steps) {
    if (!fits(whole_room(flow).bottom() - y, step.height)) {
      if (at_right) next_sheet(flow);
      at_right = !at_right;
      x = whole_room(flow).x + (at_right ? width + worksheet_gap : 0 * mm);
      y = flow.top;
    }
    Canvas canvas = canvas_of(flow);
    place_step(canvas, {x, y}, width, step);
    y += step.height;
  }
}

}  // namespace

/// How every figure of the plan came about, in the order of the calculation: value, formula, the numbers put in,
/// where they came from, and whose formula it is. Two columns; one figure's working is never cut.
void worksheets(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  begin_part(flow, Word::worksheet);
  const std::array note{Phrase{d.sheet_template.words[Word::worksheet_note], {}}};
  const Block block = set_block(canvas_of(flow), note, whole_room(flow).width);
  const Box strip = take_strip(flow, block.height + 1.5 * mm);
  Canvas canvas = canvas_of(flow);
  place_block(canvas, {strip.x, strip.y}, block);

  const Length width = (whole_room(flow).width - worksheet_gap) / 2;
  std::vector<SetStep> steps;
  for (const Step& step : d.plan.working) steps.push_back(set_step(canvas, d, step, width));
  put_steps(flow, steps, width);
  flow.top = whole_room(flow).bottom();
}

}  // namespace blankwright
