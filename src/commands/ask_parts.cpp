#include "commands/ask_parts.h"

#include <fmt/format.h>

#include <array>
#include <memory>
#include <set>

#include "entries/fate.h"

namespace blankwright {
namespace {

constexpr std::array<std::string_view, 7> columns_there_are{"board", "bath", "load", "dry", "wet", "cured", "since"};

std::string cell(const Asked& asked, const BlankSummary& blank, std::string_view column) {
  if (column == "board") return blank.board;
  if (column == "bath") return blank.bath;
  if (column == "load") return blank.load;
  if (column == "dry") return asked.mass(blank.dry);
  if (column == "wet") return asked.mass(blank.wet);
  if (column == "cured") return asked.mass(blank.cured);
  return asked.when(blank.last_at);
}

std::optional<Order> job_of(Asked& asked, const std::string& order) {
  const auto job = asked.at.known.stored_job(order);
  Diagnostics ignored;  // it was told when the order was compiled
  return job ? read_order(std::make_shared<const SourceText>(SourceText{order, *job}), ignored) : std::nullopt;
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

std::span<const std::string_view> all_columns() { return columns_there_are; }

Answer table_of(const Asked& asked, const std::vector<KnownBlank>& blanks, std::span<const std::string_view> columns,
                const EntryOfBlank& entries) {
  Answer answer;
  answer.columns = {"blank", "order", "role", "stage", "place"};
  answer.columns.insert(answer.columns.end(), columns.begin(), columns.end());
  if (!entries.empty()) answer.columns.emplace_back("entry");
  for (const KnownBlank& known : blanks) {
    const BlankSummary& blank = known.blank;
    std::vector<std::string> row{blank.id->shown(), blank.promised, blank.witness ? "witness" : "",
                                 std::string{stage_words(blank)}, text(place_of(blank))};
    for (const std::string_view column : columns) row.push_back(cell(asked, blank, column));
    const auto entry = entries.find(*blank.id);
    if (!entries.empty()) row.push_back(entry == entries.end() ? "" : std::to_string(entry->second));
    answer.rows.push_back(std::move(row));
  }
  return answer;
}

std::vector<KnownBlank> rows_of(Asked& asked, const std::vector<BlankId>& ids) {
  std::vector<KnownBlank> out;
  for (const BlankId& id : ids) {
    if (const auto state = asked.at.known.blank(id)) out.push_back({summary_of(*state), {}, {}, {}});
  }
  return out;
}

EntryOfBlank entries_of_kind(std::span<const Entry* const> entries, EntryKind kind) {
  EntryOfBlank out;
  for (const Entry* entry : entries) {
    if (entry->kind == kind && entry->blank) out[*entry->blank] = entry->number;
  }
  return out;
}

void tell_client(Asked& asked, const std::string& order, Answer& answer) {
  const auto job = job_of(asked, order);
  if (!job) return;
  answer.facts.emplace_back("client", job->client.value);
  answer.facts.emplace_back("item", job->item.value);
  if (job->due) answer.facts.emplace_back("due", text(job->due->value));
}

void tell_clients(Asked& asked, std::span<const KnownBlank> blanks, Answer& answer) {
  std::set<std::string> orders;
  for (const KnownBlank& known : blanks) orders.insert(known.blank.promised);
  for (const std::string& order : orders) {
    const auto job = job_of(asked, order);
    if (!job) continue;
    const std::string due = job->due ? fmt::format(", due {}", text(job->due->value)) : std::string{};
    answer.facts.emplace_back("order " + order, fmt::format("{}: {}{}", job->client.value, job->item.value, due));
  }
}

}  // namespace blankwright
