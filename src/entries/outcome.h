#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

// What grading, an inspection, a cut and a gauge say, and its texts in commands, CSV, register and export.

namespace blankwright {

/// What becomes of a blank that was graded.
enum class Graded { go_on, fill, scrap };
inline constexpr std::array<std::string_view, 3> graded_names{"go-on", "fill", "scrap"};

/// How an inspection, the cut of a witness or a thread gauge came out.
enum class Outcome { pass, fail };
inline constexpr std::array<std::string_view, 2> outcome_names{"pass", "fail"};

constexpr std::string_view name_of(Graded graded) { return graded_names.at(static_cast<std::size_t>(graded)); }
constexpr std::string_view name_of(Outcome outcome) { return outcome_names.at(static_cast<std::size_t>(outcome)); }

template <class E, std::size_t n>
constexpr std::optional<E> named_in(const std::array<std::string_view, n>& names, std::string_view name) {
  const auto* const found = std::ranges::find(names, name);
  if (found == names.end()) return std::nullopt;
  return static_cast<E>(found - names.begin());
}
constexpr auto graded_named(std::string_view name) { return named_in<Graded>(graded_names, name); }
constexpr auto outcome_named(std::string_view name) { return named_in<Outcome>(outcome_names, name); }

}  // namespace blankwright
