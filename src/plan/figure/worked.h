#pragma once

#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "plan/figure/note.h"

// A result with its working, for those who hand it on; plan/figure/working.h is for those who work something out.

namespace blankwright {

enum class Figure : int;  ///< named in plan/figure/figure.h

struct Expression;
using ExpressionPtr = std::shared_ptr<const Expression>;
template <class Q>
class Traced;

/// One figure with the way to it.
struct Step {
  Figure figure;
  ExpressionPtr expression;
  std::optional<StepNote> note{};
};

/// A result and its working.
template <class T>
struct Worked {
  T value{};
  std::vector<Step> steps{};

  /// Notes down how `figure` came about, and gives its value.
  template <class Q>
  Q step(Figure figure, const Traced<Q>& what, std::optional<StepNote> note = {}) {
    steps.push_back({figure, what.expression(), std::move(note)});
    return what.value();
  }
};

}  // namespace blankwright
