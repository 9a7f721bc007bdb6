#include "diagnose/diagnostics.h"

#include <algorithm>
#include <utility>

namespace blankwright {
namespace {

bool says_the_same(const Diagnostic& a, const Diagnostic& b) {
  return a.severity == b.severity && a.problem == b.problem && a.at.source == b.at.source && a.at.line == b.at.line &&
         a.at.column == b.at.column && text(a.message) == text(b.message);
}

Watcher watcher_or_null = nullptr;

void tell_watcher(const std::source_location& from) {
  if (watcher_or_null != nullptr) watcher_or_null(from);
}

}  // namespace

void watch_labels_and_hints(Watcher watcher) { watcher_or_null = watcher; }

Diagnostic& Diagnostic::label(const Place& place, Saying says, std::source_location from) {
  if (place.source == nullptr || place.line == 0) return *this;
  labels.push_back({place, std::move(says)});
  tell_watcher(from);
  return *this;
}

Diagnostic& Diagnostic::hint(Saying says, std::source_location from) {
  way_out = std::move(says);
  tell_watcher(from);
  return *this;
}

Diagnostic& Diagnostics::add(Severity severity, Problem problem, const Place& at, Saying message) {
  return all_.emplace_back(Diagnostic{severity, problem, at, std::move(message)});
}

Diagnostic& Diagnostics::error(Problem problem, const Place& at, Saying message) {
  ++errors_;
  return add(Severity::error, problem, at, std::move(message));
}

Diagnostic& Diagnostics::warning(Problem problem, const Place& at, Saying message) {
  return add(Severity::warning, problem, at, std::move(message));
}

Diagnostic& Diagnostics::note(Problem problem, const Place& at, Saying message) {
  return add(Severity::note, problem, at, std::move(message));
}

int Diagnostics::warnings() const {
  return static_cast<int>(
      std::count_if(all_.begin(), all_.end(), [](const Diagnostic& d) { return d.severity == Severity::warning; }));
}

void Diagnostics::append(Diagnostics other) {
  errors_ += other.errors_;
  other.all_.remove_if([this](const Diagnostic& more) {
    return more.severity != Severity::error &&
           std::ranges::any_of(all_, [&](const Diagnostic& said) { return says_the_same(said, more); });
  });
  all_.splice(all_.end(), other.all_);
}

}  // namespace blankwright
