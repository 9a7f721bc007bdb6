#include "commands/starter.h"

#include "diagnose/failure.h"
#include "measure/utf8.h"
#include "read/keys.h"

namespace blankwright {
namespace {

std::string value_of(std::string_view place, const Starter& starter) {
  if (const auto bar = place.find('|'); bar != std::string_view::npos) {
    return std::string{starter.inch ? place.substr(bar + 1) : place.substr(0, bar)};
  }
  if (place == "NAME") return in_quotes(starter.name);
  if (place == "ZONE") return starter.zone;
  BW_EXPECT(place == "TEMPLATE");
  return starter.letter ? "letter" : "a4";
}

/// A line with its places filled in; a comment behind a value stays in its column where there is room.
std::string filled_line(std::string_view line, const Starter& starter) {
  constexpr std::size_t comment_column = 27;
  std::string out;
  while (!line.empty()) {
    const auto open = line.find('<');
    out += line.substr(0, open);
    if (open == std::string_view::npos) break;
    const auto close = line.find('>', open);
    BW_EXPECT(close != std::string_view::npos);
    out += value_of(line.substr(open + 1, close - open - 1), starter);
    line.remove_prefix(close + 1);
  }
  const auto comment = out.find("  #");
  if (comment == std::string::npos) return out;
  const auto text = out.find('#', comment);
  const std::string before = out.substr(0, out.find_last_not_of(' ', comment) + 1);
  const std::size_t columns = code_point_count(before);
  const std::size_t gap = columns + 2 > comment_column ? 2 : comment_column - columns;
  return before + std::string(gap, ' ') + out.substr(text);
}

}  // namespace

std::string filled_in(std::string_view text, const Starter& starter) {
  std::string out;
  bool belongs = true;
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(line.size() + 1);
    if (line == "#-") {
      belongs = true;
    } else if (line.starts_with("#+ ")) {
      belongs = (line == "#+ treated") == starter.treated;
    } else if (belongs) {
      out += filled_line(line, starter) + "\n";
    }
  }
  return out;
}

}  // namespace blankwright
