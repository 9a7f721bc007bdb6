#include "plan/figure/working.h"

#include <fmt/format.h>

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
    case Expression::Op::call:
      return 4;
  }
  return 4;
}

using Leaf = std::function<std::string(const Expression&)>;

std::string written(const Expression& e, const Leaf& leaf) {
  const auto part = [&](std::size_t i, int at_least) {
    const Expression& p = *e.parts.at(i);
    const std::string inner = written(p, leaf);
    return binding(p) < at_least ? "(" + inner + ")" : inner;
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
    case Expression::Op::call: {
      std::string inner;
      for (const auto& p : e.parts) inner += (inner.empty() ? "" : ", ") + written(*p, leaf);
      if (inner.empty()) return e.name;
      const bool phrase = e.name.find(' ') != std::string::npos;
      return phrase ? e.name + ": " + inner : e.name + "(" + inner + ")";
    }
  }
  return {};
}

void collect(const ExpressionPtr& e, std::vector<ExpressionPtr>& into) {
  if (e->op == Expression::Op::term && !e->name.empty()) {
    const bool known = std::any_of(into.begin(), into.end(), [&](const auto& t) { return t->name == e->name; });
    if (!known) into.push_back(e);
  }
  for (const auto& part : e->parts) collect(part, into);
}

}  // namespace

std::string value_text(double si, const Powers& powers, UnitSystem system) {
  if (powers == PowersOf<Length>::powers) {
    return text(si * metre, {system, Round::nearest, Fineness::measured});
  }
  if (powers == PowersOf<Area>::powers) return text(si * Area::unit(), system);
  if (powers == PowersOf<Volume>::powers) return text(si * Volume::unit(), system);
  if (powers == PowersOf<Force>::powers) {  // to a tenth, since what a pull leaves of a bond may be a few newtons
    return system == UnitSystem::metric ? fmt::format("{:.1f} N", si)
                                        : fmt::format("{:.1f} lbf", si * newton / pound_force);
  }
  if (powers == PowersOf<Stress>::powers) {
    constexpr double pressures = 2e5;  // Pa: below, it is air and no strength
    return si < pressures ? text(AbsolutePressure::above_zero(si * pascal), system) : text(si * pascal, system);
  }
  if (powers == Powers{1, 0, -2, 0}) return fmt::format("{:.2f} m/s²", si);
  if (powers == PowersOf<Torque>::powers) return text(si * newton_metre, system);
  if (powers == PowersOf<Mass>::powers) return text(si * kilogram, system);
  if (powers == PowersOf<Density>::powers) return text(si * kilogram_per_m3, system);
  if (powers == PowersOf<VolumeFlow>::powers) return text(si * VolumeFlow::unit(), system);
  if (powers == PowersOf<Duration>::powers) return text(si * second);
  if (powers == PowersOf<TemperatureChange>::powers) return fmt::format("{:.1f} K", si);
  if (powers == temperature_point) return text(Temperature::above_zero(si * kelvin), system);
  if (powers == PowersOf<RotationalSpeed>::powers) return text(si * RotationalSpeed::unit());
  if (powers == PowersOf<Speed>::powers) {
    const Speed speed = si * Speed::unit();
    return system == UnitSystem::metric ? fmt::format("{:.0f} mm/min", speed / (mm / minute))
                                        : fmt::format("{:.0f} in/min", speed / (inch / minute));
  }
  const double magnitude = std::abs(si);
  if (si == std::round(si) && magnitude < 1e6) return fmt::format("{:.0f}", si);
  return magnitude < 0.1 ? fmt::format("{:.5f}", si) : fmt::format("{:.4f}", si);
}

std::string symbolic(const Expression& expression) {
  return written(expression, [](const Expression& term) {
    return term.name.empty() ? value_text(term.si, term.powers, UnitSystem::metric) : term.name;
  });
}

std::string with_numbers(const Expression& expression, UnitSystem system) {
  return written(expression, [system](const Expression& term) { return value_text(term.si, term.powers, system); });
}

std::string note_text(const Step& step, UnitSystem system) {
  const auto gap = step.note.find("{}");
  if (gap == std::string::npos) return step.note;
  return step.note.substr(0, gap) + text(step.note_length, {system, Round::nearest, Fineness::sawn}) +
         step.note.substr(gap + 2);
}

std::vector<ExpressionPtr> terms_of(const Expression& expression) {
  std::vector<ExpressionPtr> terms;
  collect(std::make_shared<Expression>(expression), terms);
  return terms;
}

}  // namespace blankwright
