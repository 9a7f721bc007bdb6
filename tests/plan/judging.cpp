#include "judging.h"

#include <doctest/doctest.h>

#include <algorithm>

namespace blankwright {

const Diagnostic* found(const Diagnostics& said, Problem problem) {
  const auto it = std::ranges::find_if(said.all(), [&](const Diagnostic& d) { return d.problem == problem; });
  return it == said.all().end() ? nullptr : &*it;
}

const Diagnostic& about(const Diagnostics& said, Problem problem) {
  CAPTURE(rendered(said));
  const Diagnostic* d = found(said, problem);
  REQUIRE(d != nullptr);
  return *d;
}

const Diagnostic& refused(const Diagnostics& said, Problem problem) {
  CAPTURE(rendered(said));
  const Diagnostic& d = about(said, problem);
  CHECK(d.severity == Severity::error);
  return d;
}

void keeps_silent(const Diagnostics& said) {
  CAPTURE(rendered(said));
  CHECK(said.all().empty());
}

std::string marked(const Place& at) {
  REQUIRE(at.source != nullptr);
  std::string_view rest = at.source->text;
  for (int line = 1; line < at.line; ++line) rest.remove_prefix(rest.find('\n') + 1);
  return std::string{rest.substr(static_cast<std::size_t>(at.column - 1), static_cast<std::size_t>(at.length))};
}

std::vector<std::string> to_paste(const Diagnostic& said) {
  std::vector<std::string> out;
  const std::string& text = said.hint_text();
  for (auto from = text.find('"'); from != std::string::npos; from = text.find('"', from + 1)) {
    const auto to = text.find('"', from + 1);
    REQUIRE(to != std::string::npos);
    out.push_back(text.substr(from, to - from + 1));
    from = to;
  }
  REQUIRE_FALSE(out.empty());
  return out;
}

}  // namespace blankwright
