#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

#include "diagnose/place.h"
#include "measure/quantity_text.h"
#include "plan/figure/note.h"
#include "plan/figure/worked.h"
#include "read/labels.h"
#include "read/terms.h"

namespace blankwright {

/// Powers of metre, kilogram, second, kelvin, for printing a term.
using Powers = std::array<int, 4>;

/// Where a term's value came from, and whose it is where one is named: a grade's, a drill's.
struct TermSource {
  TermSource() = default;
  TermSource(TermFrom where, Printed named = {}) : from{where}, whose{std::move(named)} {}
  TermSource(TermFrom where, std::string_view published, Printed named = {})
      : from{where}, whose{std::move(named)}, source{published} {}
  bool operator==(const TermSource&) const = default;

  TermFrom from = TermFrom::nowhere;
  Printed whose{};
  std::string source{};    ///< of a table or of a standard value, in English
  bool per_100mm = false;  ///< a slope that was told so
};

/// What was computed, kept so that it can be printed: one expression computes a step and prints it, so the working
/// cannot say something else than what was done.
struct Expression {
  enum class Op { term, plus, minus, times, over, power, function, phrase };
  Op op = Op::term;
  Term name = Term::unnamed;  ///< of a term, function or phrase
  Printed behind{};           ///< the name, which of several; alone, a number that has an origin
  double si = 0;              ///< the value
  Powers powers{};
  TermSource origin{};  ///< of a term
  std::vector<std::shared_ptr<const Expression>> parts{};

  bool is_bare_number() const { return name == Term::unnamed && !behind.known(); }
};

/// The words that a working is written in.
struct WorkingLanguage {
  const TermTable& terms;
  const OriginTable& origins;
  const LabelTable& sources;
  const Spelling& spelling;
};
WorkingLanguage english_working();

/// `full = embedded + reservoir`
std::string symbolic(const Expression& expression, const WorkingLanguage& in = english_working());
/// `25.0 mm + 6.0 mm`
std::string with_numbers(const Expression& expression, UnitSystem system,
                         const WorkingLanguage& in = english_working());
/// The terms in the order of their first use.
std::vector<ExpressionPtr> terms_of(const Expression& expression);
/// A term's name, a number as the language writes it.
std::string name_text(const Expression& term, const WorkingLanguage& in = english_working());
/// "shop", "standard value: common practice, no source"; empty for a number of nature.
std::string origin_text(const TermSource& origin, const WorkingLanguage& in = english_working());
/// "6.0 mm", "0.0060": a value of those powers.
Printed printed(double si, const Powers& powers, UnitSystem system);

template <class Q>
struct PowersOf;
template <>
struct PowersOf<double> {
  static constexpr Powers powers{};
  static double si(double v) { return v; }
  static double from(double v) { return v; }
};
template <int M, int Kg, int S, int K>
struct PowersOf<Quantity<M, Kg, S, K>> {
  using Q = Quantity<M, Kg, S, K>;
  static constexpr Powers powers{M, Kg, S, K};
  static double si(Q q) { return q / Q::unit(); }
  static Q from(double v) { return v * Q::unit(); }
};

/// A point on the scale of temperature is a term like any other; no quantity has these powers.
inline constexpr Powers temperature_point{0, 0, 0, 99};
template <>
struct PowersOf<Temperature> {
  static constexpr Powers powers = temperature_point;
  static double si(Temperature t) { return (t - Temperature{}) / kelvin; }
  static Temperature from(double v) { return Temperature::above_zero(v * kelvin); }
};

/// A value of type Q together with how it came about.
template <class Q>
class Traced {
 public:
  explicit Traced(ExpressionPtr expression) : expression_{std::move(expression)} {}
  Q value() const { return PowersOf<Q>::from(expression_->si); }
  const ExpressionPtr& expression() const { return expression_; }

 private:
  ExpressionPtr expression_;
};

template <class Q>
Traced<Q> traced(Expression::Op op, Term name, Q value, std::vector<ExpressionPtr> parts, TermSource origin = {},
                 Printed behind = {}) {
  auto e = std::make_shared<Expression>();
  e->op = op;
  e->name = name;
  e->behind = std::move(behind);
  e->si = PowersOf<Q>::si(value);
  e->powers = PowersOf<Q>::powers;
  e->origin = std::move(origin);
  e->parts = std::move(parts);
  return Traced<Q>{std::move(e)};
}

/// A named term; `which` of several stands behind its name.
template <class Q>
Traced<Q> term(Term name, Q value, TermSource origin = {}, Printed which = {}) {
  return traced(Expression::Op::term, name, value, {}, std::move(origin), std::move(which));
}
/// A number that has an origin, named by its digits.
template <class Q>
Traced<Q> term(const Number& number, Q value, TermSource origin) {
  return term(Term::unnamed, value, std::move(origin), printed(number, PrintedUnit::none));
}
/// A number that stands for itself.
inline Traced<double> term(double number) { return term(Term::unnamed, number); }
inline Traced<double> traced_pi() { return term(Term::pi, std::numbers::pi); }
inline Traced<double> operator""_exactly(unsigned long long n) { return term(static_cast<double>(n)); }

/// Where a value came from.
template <class T>
TermSource origin_of(const Given<T>& given) {
  switch (given.origin) {
    case Origin::job:
      return TermFrom::job;
    case Origin::shop:
      return TermFrom::shop;
    case Origin::entry:
      return TermFrom::from_register;
    case Origin::standard:
      break;
  }
  return {TermFrom::standard_value, given.source};
}
template <class Q>
Traced<Q> term(Term name, const Given<Q>& given) {
  return term(name, given.value, origin_of(given));
}

template <class Q>
Traced<Q> operator+(const Traced<Q>& a, const Traced<Q>& b) {
  return traced(Expression::Op::plus, Term::unnamed, a.value() + b.value(), {a.expression(), b.expression()});
}
template <class Q>
auto operator-(const Traced<Q>& a, const Traced<Q>& b) {
  return traced(Expression::Op::minus, Term::unnamed, a.value() - b.value(), {a.expression(), b.expression()});
}
template <class A, class B>
auto operator*(const Traced<A>& a, const Traced<B>& b) {
  return traced(Expression::Op::times, Term::unnamed, a.value() * b.value(), {a.expression(), b.expression()});
}
template <class A, class B>
auto operator/(const Traced<A>& a, const Traced<B>& b) {
  return traced(Expression::Op::over, Term::unnamed, a.value() / b.value(), {a.expression(), b.expression()});
}
/// A lone term is written as a product, since "8 mm²" would be read as an area.
template <class Q>
auto squared(const Traced<Q>& a) {
  if (a.expression()->op == Expression::Op::term) return a * a;
  return traced(Expression::Op::power, Term::unnamed, a.value() * a.value(), {a.expression()});
}
/// A function of values, computed by the caller: `call(Term::largest_of, larger, {a.expression(), b.expression()})`
/// is printed as "max(a, b)".
template <class Q>
Traced<Q> call(Term name, Q value, std::vector<ExpressionPtr> arguments) {
  return traced(Expression::Op::function, name, value, std::move(arguments));
}
/// Likewise what has no sign of its own, in words before its arguments: "boiling point: p".
template <class Q>
Traced<Q> phrase(Term words, Q value, std::vector<ExpressionPtr> arguments) {
  return traced(Expression::Op::phrase, words, value, std::move(arguments));
}
template <class Q>
Traced<Q> larger(const Traced<Q>& a, const Traced<Q>& b) {
  return call(Term::largest_of, std::max(a.value(), b.value()), {a.expression(), b.expression()});
}
template <class Q>
Traced<Q> smaller(const Traced<Q>& a, const Traced<Q>& b) {
  return call(Term::least_of, std::min(a.value(), b.value()), {a.expression(), b.expression()});
}

}  // namespace blankwright
