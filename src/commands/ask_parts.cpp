#include "commands/ask_parts.h"

#include <fmt/format.h>

namespace blankwright {
namespace {

/// Where the blank is, in a table.
std::string place_of(const BlankSummary& blank) {
  if (blank.stage == Stage::in_bath) return "bath " + blank.bath;
  if (blank.stage == Stage::in_oven) return "oven, load " + blank.load;
  return blank.stage >= Stage::sent ? std::string{name_of(blank.stage)} : "shop";
}

const std::vector<std::string>& blank_columns() {
  static const std::vector<std::string> columns{"blank", "order", "stage", "place", "board", "bath",
                                                "load",  "dry",   "wet",   "cured", "since"};
  return columns;
}

std::vector<std::string> blank_row(const Asked& asked, const BlankSummary& blank) {
  return {blank.id->shown(),
          blank.promised,
          std::string{name_of(blank.stage)},
          place_of(blank),
          blank.board,
          blank.bath,
          blank.load,
          asked.mass(blank.dry),
          asked.mass(blank.wet),
          asked.mass(blank.cured),
          asked.when(blank.last_at)};
}

}  // namespace

std::string Asked::mass(const std::optional<Mass>& value) const { return value ? text(*value, at.units()) : ""; }

std::string Asked::length(Length value) const {
  return text(value, Printing{at.units(), Round::nearest, Fineness::measured});
}

std::string Asked::when(const std::optional<Instant>& value) const {
  return value ? clock_text(at.zone(), *value) : "";
}

std::string percent_text(double part) { return fmt::format("{:.1f} %", 100 * part); }

Answer table_of(const Asked& asked, const std::vector<KnownBlank>& blanks) {
  Answer answer;
  answer.columns = blank_columns();
  for (const KnownBlank& known : blanks) answer.rows.push_back(blank_row(asked, known.blank));
  return answer;
}

std::vector<KnownBlank> rows_of(Asked& asked, const std::vector<BlankId>& ids) {
  std::vector<KnownBlank> out;
  for (const BlankId& id : ids) {
    if (const auto state = asked.at.known.blank(id)) out.push_back({summary_of(*state), {}, {}, {}});
  }
  return out;
}

}  // namespace blankwright
