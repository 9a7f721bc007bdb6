#include "diagnose/diagnostics.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace blankwright {
Diagnostic& Diagnostic::label(const Place& place, std::string says) {
  if (place.source != nullptr && place.line > 0) labels.push_back({place, std::move(says)});
  return *this;
}

Diagnostic& Diagnostic::hint(std::string says) {
  hint_text = std::move(says);
  return *this;
}

Diagnostic& Diagnostics::add(Severity severity, Problem problem, const Place& at, std::string message) {
  return all_.emplace_back(Diagnostic{severity, problem, at, std::move(message)});
}

Diagnostic& Diagnostics::error(Problem problem, const Place& at, std::string message) {
  ++errors_;
  return add(Severity::error, problem, at, std::move(message));
}

Diagnostic& Diagnostics::warning(Problem problem, const Place& at, std::string message) {
  return add(Severity::warning, problem, at, std::move(message));
}

Diagnostic& Diagnostics::note(Problem problem, const Place& at, std::string message) {
  return add(Severity::note, problem, at, std::move(message));
}

int Diagnostics::warnings() const {
  return static_cast<int>(
      std::count_if(all_.begin(), all_.end(), [](const Diagnostic& d) { return d.severity == Severity::warning; }));
}

void Diagnostics::append(Diagnostics other) {
  errors_ += other.errors_;
  std::move(other.all_.begin(), other.all_.end(), std::back_inserter(all_));
}

}  // namespace blankwright
