#include "plan/figure/working.h"
#include "plan/figure/figure.h"

#include <algorithm>
#include <array>
#include <set>

#include <doctest/doctest.h>

#include "formula.h"
#include "planning.h"

using namespace blankwright;

namespace {

bool is_named(const Expression& e) { return e.op == Expression::Op::function || e.op == Expression::Op::phrase; }

/// Functions that a pocket calculator has, and those that the worksheet only names.
bool only_arithmetic(const Expression& e) {
  constexpr std::array on_keys{Term::largest_of, Term::least_of, Term::tangent, Term::root};
  if (is_named(e) && std::ranges::find(on_keys, e.name) == on_keys.end()) return false;
  return std::ranges::all_of(e.parts, [](const auto& part) { return only_arithmetic(*part); });
}

/// In mm, N, N mm and seconds; speeds a minute.
double on_the_calculator(const Expression& e) {
  double value = e.si * std::pow(1000, e.powers.at(0));
  if (e.powers == PowersOf<Force>::powers) value = e.si;
  if (e.powers == PowersOf<Torque>::powers) value = e.si * 1000;
  if (e.powers == PowersOf<RotationalSpeed>::powers) value = e.si * 60;
  return value;
}

void leaves(const Expression& e, std::vector<const Expression*>& into) {
  if (e.op == Expression::Op::term) into.push_back(&e);
  for (const auto& part : e.parts) leaves(*part, into);
}

/// What stands between the terms of a printed formula: its brackets and signs.
std::vector<std::string> between(std::string_view formula, const std::vector<std::string>& terms) {
  std::vector<std::string> out;
  for (const std::string& term : terms) {
    const auto found = formula.find(term);
    REQUIRE_MESSAGE(found != std::string_view::npos, term);
    out.emplace_back(formula.substr(0, found));
    formula.remove_prefix(found + term.size());
  }
  out.emplace_back(formula);
  return out;
}

struct Sample {
  std::string_view order, shop;
};
const Sample samples[] = {{"awl-handle.toml", "shop.toml"},
                          {"knob-tapped.toml", "shop.toml"},
                          {"file-handle.toml", "shop-lathe.toml"},
                          {"two-units-mm.toml", "shop.toml"}};

std::vector<Step> all_steps() {
  std::vector<Step> steps;
  for (const Sample& sample : samples) {
    const OrderPlan plan = plan_of(order_file(std::string{sample.order}), order_file(std::string{sample.shop}));
    steps.insert(steps.end(), plan.working.begin(), plan.working.end());
  }
  return steps;
}

Traced<double> letter(const char* name, double value) { return term(Term::unnamed, value, {}, printed_words(name)); }

}  // namespace

TEST_CASE("every formula on the worksheet, put into a pocket calculator, gives the figure beside it") {
  int worked_out = 0;
  for (const Step& step : all_steps()) {
    const Expression& e = *step.expression;
    if (!only_arithmetic(e) || e.powers == temperature_point) continue;  // a point on a scale is not worked out
    ++worked_out;
    const std::string formula = with_numbers(e, UnitSystem::metric);
    CAPTURE(info(step.figure).path);
    CAPTURE(formula);
    const Band band = PocketCalculator::work_out(formula);
    const double value = on_the_calculator(e);
    CAPTURE(value);
    const double arithmetic = 1e-9 * (1 + std::abs(value));
    CHECK(value >= band.low - arithmetic);
    CHECK(value <= band.high + arithmetic);
    // The digits printed are enough to recognise the figure.
    // Coarsest is a stress of 2.0 N/mm², good to 5 in 100.
    if (e.op == Expression::Op::term) continue;  // the figure itself, such as "2 h"
    CHECK(band.high - band.low <= 0.1 + 0.08 * std::abs(value));
  }
  CHECK(worked_out > 80);
}

TEST_CASE("what a pocket calculator cannot do is named, and its arguments are worked out") {
  // Integrals, sums of the statistics, draws, and rounding to what a shop owns or can set.
  const std::set<std::string> named{"largest diameter of the form",
                                    "integral over the form of π/4 D²",
                                    "integral over the form of π D and both ends",
                                    "share that clears of 4096 draws",
                                    "least n with P(good ≥ quantity) ≥ confidence",
                                    "P(good ≥ quantity)",
                                    "EMC",
                                    "time for a thickness up to"};
  for (const Step& step : all_steps()) {
    const Expression& e = *step.expression;
    if (only_arithmetic(e)) continue;
    CAPTURE(info(step.figure).path);
    REQUIRE(is_named(e));
    const std::string name = name_text(e);
    if (named.contains(name)) continue;
    CAPTURE(name);
    const bool rounds_up = name.starts_with("rounded up") || name == "drill of at least";
    REQUIRE(rounds_up);
    REQUIRE(e.parts.size() == 1);
    REQUIRE(only_arithmetic(*e.parts.front()));
    const double argument = on_the_calculator(*e.parts.front());
    const double step_up = name == "drill of at least" ? 2 : 1.6;  // mm: saw 1 or 1/16 in, drills some way apart
    CHECK(on_the_calculator(e) >= argument - 1e-5);
    CHECK(on_the_calculator(e) < argument + step_up);
    const Band band = PocketCalculator::work_out(with_numbers(*e.parts.front(), UnitSystem::metric));
    CHECK(argument >= band.low - 1e-9);
    CHECK(argument <= band.high + 1e-9);
  }
}

TEST_CASE("a formula in words and the same with numbers have the same signs and brackets") {
  for (const Step& step : all_steps()) {
    for (const UnitSystem system : {UnitSystem::metric, UnitSystem::inches}) {
      const Expression& e = *step.expression;
      std::vector<const Expression*> terms;
      leaves(e, terms);
      std::vector<std::string> names;
      std::vector<std::string> numbers;
      for (const Expression* term : terms) {
        const std::string bare_number = text(term->si, term->powers, UnitSystem::metric);
        names.push_back(term->is_bare_number() ? bare_number : name_text(*term));
        numbers.push_back(text(term->si, term->powers, system));
      }
      std::string words = symbolic(e);
      std::string figures = with_numbers(e, system);
      if (is_named(e)) {  // whose name may have the names of terms in it
        const std::string name = name_text(e);
        REQUIRE(words.starts_with(name));
        REQUIRE(figures.starts_with(name));
        words.erase(0, name.size());
        figures.erase(0, name.size());
      }
      CAPTURE(words);
      CAPTURE(figures);
      CHECK(between(words, names) == between(figures, numbers));
    }
  }
}

TEST_CASE("brackets stand where the arithmetic needs them") {
  const auto a = letter("a", 2.0);
  const auto b = letter("b", 3.0);
  const auto c = letter("c", 4.0);
  CHECK(symbolic(*((a + b) * c).expression()) == "(a + b) × c");
  CHECK(symbolic(*(a + b * c).expression()) == "a + b × c");
  CHECK(symbolic(*(a - (b - c)).expression()) == "a − (b − c)");
  CHECK(symbolic(*(a - b - c).expression()) == "a − b − c");
  CHECK(symbolic(*(a / (b * c)).expression()) == "a / (b × c)");
  CHECK(symbolic(*(a / b / c).expression()) == "a / b / c");
  CHECK(symbolic(*squared(a - b).expression()) == "(a − b)²");
  CHECK(symbolic(*larger(a, b + c).expression()) == "max(a, b + c)");
  CHECK(with_numbers(*((a + b) * c).expression(), UnitSystem::metric) == "(2 + 3) × 4");
}

TEST_CASE("what has a sign is written as a function, what has none in words before its arguments") {
  const auto a = letter("a", 2.0);
  const auto b = letter("b", 3.0);
  CHECK(symbolic(*call(Term::equilibrium_moisture, 6.0, {a.expression(), b.expression()}).expression()) ==
        "EMC(a, b)");
  CHECK(symbolic(*phrase(Term::boiling_point, 5.0, {a.expression(), b.expression()}).expression()) ==
        "boiling point: a, b");
  CHECK(symbolic(*phrase(Term::largest_diameter_of_the_form, 5.0, {}).expression()) ==
        "largest diameter of the form");
}

TEST_CASE("a figure is printed within its step and errs only to the safe side") {
  for (const Sample& sample : samples) {
    const OrderPlan plan = plan_of(order_file(std::string{sample.order}), order_file(std::string{sample.shop}));
    for (const FigureInfo& i : figure_infos()) {
      const FigureValue value = plan.figures.get(i.figure);
      if (!std::holds_alternative<double>(value)) continue;
      CAPTURE(i.path);
      const double exact = std::get<double>(value);
      double unit = 1;
      double step = 1;
      double zero = 0;
      switch (i.unit) {
        case FigureUnit::millimetres:
          unit = 1e-3, step = 0.01;
          break;
        case FigureUnit::millimetres_per_100mm:
          unit = 0.01, step = 0.01;
          break;
        case FigureUnit::cubic_centimetres:
          unit = 1e-6, step = 0.01;
          break;
        case FigureUnit::square_centimetres:
          unit = 1e-4, step = 0.01;
          break;
        case FigureUnit::square_millimetres:
          unit = 1e-6, step = 0.01;
          break;
        case FigureUnit::newtons:
          break;
        case FigureUnit::part_of_one:
          step = 0.0001;
          break;
        case FigureUnit::in_percent:
          unit = 0.01, step = 0.1;
          break;
        case FigureUnit::turns_per_minute:
          unit = 1.0 / 60;
          break;
        case FigureUnit::whole_number:
          break;
        case FigureUnit::pieces:
          step = 0.01;
          break;
        case FigureUnit::newton_metres:
        case FigureUnit::ratio:
        case FigureUnit::money:
          step = 0.01;
          break;
        case FigureUnit::megapascals:
          unit = 1e6, step = 0.1;
          break;
        case FigureUnit::degrees_celsius:
          step = 0.1, zero = 273.15;
          break;
        case FigureUnit::hours:
          unit = 3600, step = 0.01;
          break;
        case FigureUnit::minutes:
          unit = 60;
          break;
        case FigureUnit::grams:
          unit = 1e-3, step = 0.1;
          break;
        case FigureUnit::kilograms_per_m3:
          break;
        case FigureUnit::millilitres:
          unit = 1e-6;
          break;
        case FigureUnit::kilopascals:
          unit = 1e3, step = 0.01;
          break;
        case FigureUnit::words:
          FAIL("words are no number");
      }
      const double off = contract_number(i.figure, exact) - (exact - zero) / unit;
      const double slack = 2e-6 * step + 1e-9;
      CHECK(std::abs(off) <= step + slack);
      if (i.safe == Round::up) CHECK(off >= -slack);
      if (i.safe == Round::down) CHECK(off <= slack);
      if (i.safe == Round::nearest) CHECK(std::abs(off) <= step / 2 + slack);
    }
  }
}
