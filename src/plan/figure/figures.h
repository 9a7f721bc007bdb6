#pragma once

#include <map>
#include <string>
#include <utility>
#include <variant>

namespace blankwright {

/// Named in plan/figure/figure.h, which only those include who name one: a figure more then leaves the others as they
/// are.
enum class Figure : int;

/// A figure's value: a number in SI units (a tilt as a slope, a share as a part of 1), a text, or not known.
using FigureValue = std::variant<std::monostate, double, std::string>;

class Figures {
 public:
  void set(Figure figure, FigureValue value) { values_[figure] = std::move(value); }
  FigureValue get(Figure figure) const {
    const auto found = values_.find(figure);
    return found == values_.end() ? FigureValue{} : found->second;
  }
  bool known(Figure figure) const { return !std::holds_alternative<std::monostate>(get(figure)); }

 private:
  std::map<Figure, FigureValue> values_;
};

}  // namespace blankwright
