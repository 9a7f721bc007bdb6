#pragma once

#include <concepts>
#include <cstddef>
#include <optional>
#include <string_view>

// A row of the catalogue of what diagnostics say: says_*.h, a file for each room that speaks.

namespace blankwright {

/// What the code of a sentence stands for.
struct SentenceRow {
  std::string_view name;   ///< its code: never shown, and no two are alike
  std::string_view words;  ///< in English; {} or {0}, {1}, ... where its arguments stand, {{ and }} for braces
};

/// With as many arguments as it takes: one more or less does not compile.
template <std::size_t arguments>
struct Sentence : SentenceRow {};

/// How many arguments the words take: {} in turn, or {0} to {9}; none where a brace that stands for itself is not
/// written twice, or only some places are numbered.
constexpr std::optional<std::size_t> places_in_text(std::string_view words) {
  std::size_t in_turn = 0, numbered = 0;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const char c = words[i];
    if (c != '{' && c != '}') continue;
    if (i + 1 == words.size()) return std::nullopt;
    const char next = words[++i];
    if (next == c) continue;
    if (c == '}') return std::nullopt;
    if (next == '}') {
      ++in_turn;
    } else if (next >= '0' && next <= '9' && i + 1 < words.size() && words[i + 1] == '}') {
      numbered = std::size_t(next - '0') + 1 > numbered ? std::size_t(next - '0') + 1 : numbered;
      ++i;
    } else {
      return std::nullopt;
    }
  }
  if (in_turn > 0 && numbered > 0) return std::nullopt;
  return in_turn + numbered;
}

/// The same of a row of the catalogue: a wrong one does not compile.
consteval std::size_t places_in(std::string_view words) { return places_in_text(words).value(); }

}  // namespace blankwright

/// A row: BW_SENTENCE(web_too_thin, "bore leaves {} of wood"); used as says::web_too_thin.
#define BW_SENTENCE(name, words)                                                   \
  namespace blankwright::says {                                                    \
  inline constexpr ::blankwright::Sentence<places_in(words)> name{{#name, words}}; \
  }
