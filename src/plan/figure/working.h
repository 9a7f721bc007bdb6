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

namespace blankwright {

/// Powers of metre, kilogram, second, kelvin, for printing a term.
using Powers = std::array<int, 4>;

/// What was computed, kept so that it can be printed: one expression computes a step and prints it, so the working
/// cannot say something else than what was done.
struct Expression {
  enum class Op { term, plus, minus, times, over, power, function, phrase };
  Op op = Op::term;
  std::string name;        ///< of a term, function or phrase; empty for a bare number
  bool is_number = false;  ///< of a term: its name is the number itself
  double si = 0;           ///< the value
  Powers powers{};
  std::string origin;  ///< of a term: "shop", "standard: common practice, no source"
  std::vector<std::shared_ptr<const Expression>> parts{};
};

/// `full = embedded + reservoir`
std::string symbolic(const Expression& expression, const Spelling& spelling = english_spelling());
/// `25.0 mm + 6.0 mm`
std::string with_numbers(const Expression& expression, UnitSystem system,
                         const Spelling& spelling = english_spelling());
/// The terms in the order of their first use.
std::vector<ExpressionPtr> terms_of(const Expression& expression);
/// A term's name, a number as the language writes it.
std::string name_text(const Expression& term, const Spelling& spelling = english_spelling());
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
Traced<Q> traced(Expression::Op op, std::string name, Q value, std::vector<ExpressionPtr> parts,
                 std::string origin = {}) {
  auto e = std::make_shared<Expression>();
  e->op = op;
  e->name = std::move(name);
  e->si = PowersOf<Q>::si(value);
  e->powers = PowersOf<Q>::powers;
  e->origin = std::move(origin);
  e->parts = std::move(parts);
  return Traced<Q>{std::move(e)};
}

/// A named term.
template <class Q>
Traced<Q> term(std::string name, Q value, std::string origin = {}) {
  return traced(Expression::Op::term, std::move(name), value, {}, std::move(origin));
}
/// A number that has an origin, named by its digits.
template <class Q>
Traced<Q> term(const Number& number, Q value, std::string origin) {
  auto e = std::make_shared<Expression>(*term(number.digits, value, std::move(origin)).expression());
  e->is_number = true;
  return Traced<Q>{std::move(e)};
}
/// A number that stands for itself.
inline Traced<double> term(double number) { return traced(Expression::Op::term, "", number, {}); }
inline Traced<double> traced_pi() { return term("π", std::numbers::pi); }
inline Traced<double> operator""_exactly(unsigned long long n) { return term(static_cast<double>(n)); }

/// Where a value came from, in words.
template <class T>
std::string origin_text(const Given<T>& given) {
  switch (given.origin) {
    case Origin::job:
      return "job";
    case Origin::shop:
      return "shop";
    case Origin::entry:
      return "register";
    case Origin::standard:
      break;
  }
  return "standard value: " + given.source;
}
template <class Q>
Traced<Q> term(std::string name, const Given<Q>& given) {
  return term(std::move(name), given.value, origin_text(given));
}

template <class Q>
Traced<Q> operator+(const Traced<Q>& a, const Traced<Q>& b) {
  return traced(Expression::Op::plus, "", a.value() + b.value(), {a.expression(), b.expression()});
}
template <class Q>
auto operator-(const Traced<Q>& a, const Traced<Q>& b) {
  return traced(Expression::Op::minus, "", a.value() - b.value(), {a.expression(), b.expression()});
}
template <class A, class B>
auto operator*(const Traced<A>& a, const Traced<B>& b) {
  return traced(Expression::Op::times, "", a.value() * b.value(), {a.expression(), b.expression()});
}
template <class A, class B>
auto operator/(const Traced<A>& a, const Traced<B>& b) {
  return traced(Expression::Op::over, "", a.value() / b.value(), {a.expression(), b.expression()});
}
/// A lone term is written as a product, since "8 mm²" would be read as an area.
template <class Q>
auto squared(const Traced<Q>& a) {
  if (a.expression()->op == Expression::Op::term) return a * a;
  return traced(Expression::Op::power, "", a.value() * a.value(), {a.expression()});
}
/// A function of values, computed by the caller: `call("max", larger, {a.expression(), b.expression()})` is printed
/// as "max(a, b)".
template <class Q>
Traced<Q> call(std::string name, Q value, std::vector<ExpressionPtr> arguments) {
  return traced(Expression::Op::function, std::move(name), value, std::move(arguments));
}
/// Likewise what has no sign of its own, in words before its arguments: "boiling point: p".
template <class Q>
Traced<Q> phrase(std::string words, Q value, std::vector<ExpressionPtr> arguments) {
  return traced(Expression::Op::phrase, std::move(words), value, std::move(arguments));
}
template <class Q>
Traced<Q> larger(const Traced<Q>& a, const Traced<Q>& b) {
  return call("max", std::max(a.value(), b.value()), {a.expression(), b.expression()});
}
template <class Q>
Traced<Q> smaller(const Traced<Q>& a, const Traced<Q>& b) {
  return call("min", std::min(a.value(), b.value()), {a.expression(), b.expression()});
}

}  // namespace blankwright
