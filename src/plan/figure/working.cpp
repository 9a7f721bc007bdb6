#include "plan/figure/working.h"

#include <algorithm>
#include <functional>

namespace blankwright {
namespace {

int binding(const Expression& e) {
  switch (e.op) {
    case Expression::Op::plus:
    case Expression::Op::minus:
      return 1;
    case Expression::Op::times:
    case Expression::Op::over:
      return 2;
    case Expression::Op::power:
      return 3;
    case Expression::Op::term:
    case Expression::Op::function:
    case Expression::Op::phrase:
      return 4;
  }
  return 4;
}

using Leaf = std::function<std::string(const Expression&)>;

std::string written(const Expression& e, const WorkingLanguage& in, const Leaf& leaf) {
  const auto part = [&](std::size_t i, int at_least) {
    const Expression& p = *e.parts.at(i);
    const std::string inner = written(p, in, leaf);
    return binding(p) < at_least ? "(" + inner + ")" : inner;
  };
  const auto arguments = [&] {
    std::string all;
    for (const auto& p : e.parts) all += (all.empty() ? "" : ", ") + written(*p, in, leaf);
    return all;
  };
  switch (e.op) {
    case Expression::Op::term:
      return leaf(e);
    case Expression::Op::plus:
      return part(0, 1) + " + " + part(1, 1);
    case Expression::Op::minus:
      return part(0, 1) + " − " + part(1, 2);
    case Expression::Op::times:
      return part(0, 2) + " × " + part(1, 2);
    case Expression::Op::over:
      return part(0, 2) + " / " + part(1, 3);
    case Expression::Op::power:
      return part(0, 4) + "²";
    case Expression::Op::function:
      return in.terms[e.name] + "(" + arguments() + ")";
    case Expression::Op::phrase:
      return e.parts.empty() ? in.terms[e.name] : in.terms[e.name] + ": " + arguments();
  }
  return {};
}

void collect(const ExpressionPtr& e, std::vector<ExpressionPtr>& into) {
  if (e->op == Expression::Op::term && !e->is_bare_number()) {
    const bool known =
        std::ranges::any_of(into, [&](const auto& t) { return t->name == e->name && t->behind == e->behind; });
    if (!known) into.push_back(e);
  }
  for (const auto& part : e->parts) collect(part, into);
}

}  // namespace

Printed printed(double si, const Powers& powers, UnitSystem system) {
  const bool metric = system == UnitSystem::metric;
  if (powers == PowersOf<Length>::powers) {
    return printed(si * metre, {system, Round::nearest, Fineness::measured});
  }
  if (powers == PowersOf<Area>::powers) return printed(si * Area::unit(), system);
  if (powers == PowersOf<Volume>::powers) return printed(si * Volume::unit(), system);
  if (powers == PowersOf<Force>::powers) {  // to a tenth, since what a pull leaves of a bond may be a few newtons
    return metric ? printed(decimal(si, 1), PrintedUnit::N)
                  : printed(decimal(si * newton / pound_force, 1), PrintedUnit::lbf);
  }
  if (powers == PowersOf<Stress>::powers) {
    constexpr double pressures = 2e5;  // Pa: below, it is air and no strength
    return si < pressures ? printed(AbsolutePressure::above_zero(si * pascal), system) : printed(si * pascal, system);
  }
  if (powers == Powers{1, 0, -2, 0}) return printed(decimal(si, 2), PrintedUnit::m_per_s2);
  if (powers == PowersOf<Torque>::powers) return printed(si * newton_metre, system);
  if (powers == PowersOf<Mass>::powers) return printed(si * kilogram, system);
  if (powers == PowersOf<Density>::powers) return printed(si * kilogram_per_m3, system);
  if (powers == PowersOf<VolumeFlow>::powers) return printed(si * VolumeFlow::unit(), system);
  if (powers == PowersOf<Duration>::powers) return printed(si * second);
  if (powers == PowersOf<TemperatureChange>::powers) return printed(decimal(si, 1), PrintedUnit::K);
  if (powers == temperature_point) return printed(Temperature::above_zero(si * kelvin), system);
  if (powers == PowersOf<RotationalSpeed>::powers) return printed(si * RotationalSpeed::unit());
  if (powers == PowersOf<Speed>::powers) {
    const Speed speed = si * Speed::unit();
    return metric ? printed(decimal(speed / (mm / minute), 0), PrintedUnit::mm_per_min)
                  : printed(decimal(speed / (inch / minute), 0), PrintedUnit::in_per_min);
  }
  const double magnitude = std::abs(si);
  const bool is_whole = si == std::round(si) && magnitude < 1e6;
  return printed(decimal(si, is_whole ? 0 : magnitude < 0.1 ? 5 : 4), PrintedUnit::none);
}

WorkingLanguage english_working() {
  static const TermTable terms;
  static const OriginTable origins;
  static const LabelTable sources;
  return {terms, origins, sources, english_spelling()};
}

std::string name_text(const Expression& term, const WorkingLanguage& in) {
  return joined({term.name == Term::unnamed ? std::string{} : in.terms[term.name],
                 term.behind.known() ? text(term.behind, in.spelling) : std::string{}});
}

std::string origin_text(const TermSource& origin, const WorkingLanguage& in) {
  const std::string words = joined({origin.from == TermFrom::nowhere ? std::string{} : in.origins[origin.from],
                                    origin.whose.known() ? text(origin.whose, in.spelling) : std::string{},
                                    in.sources.of(origin.source, origin.source)});
  return origin.per_100mm ? words + ", " + in.origins[TermFrom::per_100mm] : words;
}

std::string symbolic(const Expression& expression, const WorkingLanguage& in) {
  return written(expression, in, [&in](const Expression& term) {
    return term.is_bare_number() ? text(printed(term.si, term.powers, UnitSystem::metric), in.spelling)
                                 : name_text(term, in);
  });
}

std::string with_numbers(const Expression& expression, UnitSystem system, const WorkingLanguage& in) {
  return written(expression, in, [&in, system](const Expression& term) {
    return text(printed(term.si, term.powers, system), in.spelling);
  });
}

std::vector<ExpressionPtr> terms_of(const Expression& expression) {
  std::vector<ExpressionPtr> terms;
  collect(std::make_shared<Expression>(expression), terms);
  return terms;
}

}  // namespace blankwright
