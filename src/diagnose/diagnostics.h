#pragma once

#include <list>
#include <optional>
#include <source_location>
#include <string>
#include <vector>

#include "diagnose/place.h"
#include "diagnose/saying.h"

namespace blankwright {

/// Named in diagnose/problem.h, which only those include who name one: a problem more then leaves the others as they
/// are.
enum class Problem : int;

enum class Severity { error, warning, note };

/// A sentence, and where in the source it is said.
template <std::size_t arguments>
struct SaidHere {
  Sentence<arguments> sentence;
  std::source_location from;
  SaidHere(Sentence<arguments> what, std::source_location where = std::source_location::current())
      : sentence{what}, from{where} {}
};

/// One thing to tell the user, with the places that it is about.
struct Diagnostic {
  struct Label {
    Place at;
    Saying says;
  };

  Severity severity = Severity::error;
  Problem problem{};
  Place at;
  Saying message;  ///< stands alone; lower case, no full stop, what was found before what is wanted
  std::vector<Label> labels{};
  std::optional<Saying> way_out{};

  /// A further place that explains the first. Places outside all files are passed over.
  Diagnostic& label(const Place& place, Saying says, std::source_location from = std::source_location::current());
  template <class... As>
  Diagnostic& label(const Place& place, SaidHere<sizeof...(As)> what, const As&... with) {
    return label(place, say(what.sentence, with...), what.from);
  }

  /// What to do, with text that can be pasted.
  Diagnostic& hint(Saying says, std::source_location from = std::source_location::current());
  template <class... As>
  Diagnostic& hint(SaidHere<sizeof...(As)> what, const As&... with) {
    return hint(say(what.sentence, with...), what.from);
  }

  std::string message_text() const { return text(message); }
  std::string hint_text() const { return way_out ? text(*way_out) : std::string{}; }
};

/// Is told of every label that has a place, and of every hint, where in the source it is said. Tests look so for
/// those that no file among the mistakes provokes.
using Watcher = void (*)(const std::source_location& from);
/// Null: nobody watches. Not while diagnostics are collected on another thread.
void watch_labels_and_hints(Watcher watcher);

/// Collects what one run has to say.
class Diagnostics {
 public:
  Diagnostic& error(Problem problem, const Place& at, Saying message);
  Diagnostic& warning(Problem problem, const Place& at, Saying message);
  Diagnostic& note(Problem problem, const Place& at, Saying message);
  template <class... As>
  Diagnostic& error(Problem problem, const Place& at, Sentence<sizeof...(As)> message, const As&... with) {
    return error(problem, at, say(message, with...));
  }
  template <class... As>
  Diagnostic& warning(Problem problem, const Place& at, Sentence<sizeof...(As)> message, const As&... with) {
    return warning(problem, at, say(message, with...));
  }
  template <class... As>
  Diagnostic& note(Problem problem, const Place& at, Sentence<sizeof...(As)> message, const As&... with) {
    return note(problem, at, say(message, with...));
  }

  /// Adds a hint to what was said last.
  template <class... As>
  void hint_last(SaidHere<sizeof...(As)> what, const As&... with) {
    all_.back().hint(what, with...);
  }

  bool has_errors() const { return errors_ > 0; }
  int errors() const { return errors_; }
  int warnings() const;
  const std::list<Diagnostic>& all() const { return all_; }
  /// Takes over what another one collected, behind what is here, but no warning and no note a second time that stands
  /// here already, in the same words and of the same place.
  void append(Diagnostics other);

 private:
  Diagnostic& add(Severity severity, Problem problem, const Place& at, Saying message);
  std::list<Diagnostic> all_;  ///< a list, so that a reference lasts while more are added, and none takes no room
  int errors_ = 0;
};

/// The diagnostics as a compiler prints them, sorted by place; files in the order in which they first occur.
/// `colour` marks the severities for a terminal.
std::string rendered(const Diagnostics& diagnostics, bool colour = false);

}  // namespace blankwright
