#include "plan/shop/kept_plan.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>

namespace blankwright {
namespace {

/// Takes a run together with what there is of its operation so far.
void add_run(KeptOperation& so_far, const Interval& at, int blanks) {
  so_far.at = {std::min(so_far.at.from, at.from), std::max(so_far.at.to, at.to)};
  so_far.blanks += blanks;
}

/// What of an operation is to come or runs; none where it is over.
std::optional<KeptOperation> to_come(const OperationFacts& facts, const PlannedOperation& operation) {
  std::optional<KeptOperation> open;
  for (const PlannedRun& run : operation.runs) {
    if (run.is == RunIs::past) continue;
    if (!open) open = KeptOperation{facts.name.value, run.at, 0};
    add_run(*open, run.at, run.blanks);
  }
  return open;
}

bool any_done(const PlannedOperation& operation) {
  return std::ranges::any_of(operation.runs, [](const PlannedRun& run) { return run.is == RunIs::past; });
}

/// Plans count on from the moment of a compile, to the second.
bool is_same_to_a_minute(const Interval& a, const Interval& b) {
  const auto same = [](Instant x, Instant y) {
    return std::chrono::floor<std::chrono::minutes>(x) == std::chrono::floor<std::chrono::minutes>(y);
  };
  return same(a.from, b.from) && same(a.to, b.to);
}

std::optional<std::int64_t> take_number(std::string_view& rest) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
  const auto used = static_cast<std::size_t>(end - rest.data());
  if (error != std::errc{} || used == rest.size() || rest.at(used) != ' ') return std::nullopt;
  rest.remove_prefix(used + 1);
  return value;
}

std::optional<KeptOperation> read_line(std::string_view line) {
  std::array<std::int64_t, 3> numbers{};
  for (std::int64_t& number : numbers) {
    const auto read = take_number(line);
    if (!read) return std::nullopt;
    number = *read;
  }
  const auto at = [](std::int64_t unix) { return Instant{std::chrono::seconds{unix}}; };
  return KeptOperation{std::string{line}, {at(numbers[0]), at(numbers[1])}, static_cast<int>(numbers[2])};
}

constexpr std::string_view cured_in = "cured in: ";
constexpr std::string_view bath_turns = "turns of a bath: ", own_turns = "own turns: ";

std::vector<std::size_t> read_turns(std::string_view numbers) {
  std::vector<std::size_t> turns;
  while (!numbers.empty()) {
    std::size_t turn = 0;
    const auto [end, error] = std::from_chars(numbers.data(), numbers.data() + numbers.size(), turn);
    if (error != std::errc{}) return turns;
    turns.push_back(turn);
    const auto used = static_cast<std::size_t>(end - numbers.data());
    numbers.remove_prefix(std::min(used + 1, numbers.size()));
  }
  return turns;
}

}  // namespace

std::string kept_plan(const PlacedTimes& times) {
  std::string lines;
  for (std::size_t i = 0; i < times.routing.size(); ++i) {
    for (const PlannedRun& run : times.planned.operations.at(i).runs) {
      if (run.is == RunIs::past) continue;
      lines += fmt::format("{} {} {} {}\n", run.at.from.time_since_epoch().count(),
                           run.at.to.time_since_epoch().count(), run.blanks, times.routing.at(i)->name.value);
    }
  }
  if (const std::string oven = oven_of(times, PlannedWork::cure); !oven.empty())
    lines += fmt::format("{}{}\n", cured_in, oven);
  for (const auto& turns : times.bath_turns) lines += fmt::format("{}{}\n", bath_turns, fmt::join(turns, " "));
  for (const auto& turns : times.own_turns) lines += fmt::format("{}{}\n", own_turns, fmt::join(turns, " "));
  return lines;
}

std::string read_kept_oven(std::string_view lines) {
  while (!lines.empty()) {
    const auto end = lines.find('\n');
    const std::string_view line = lines.substr(0, end);
    if (line.starts_with(cured_in)) return std::string{line.substr(cured_in.size())};
    lines.remove_prefix(end == std::string_view::npos ? lines.size() : end + 1);
  }
  return {};
}

KeptTurns read_kept_turns(std::string_view lines) {
  KeptTurns turns;
  while (!lines.empty()) {
    const auto end = lines.find('\n');
    const std::string_view line = lines.substr(0, end);
    if (line.starts_with(bath_turns)) turns.baths.push_back(read_turns(line.substr(bath_turns.size())));
    if (line.starts_with(own_turns)) turns.own.push_back(read_turns(line.substr(own_turns.size())));
    lines.remove_prefix(end == std::string_view::npos ? lines.size() : end + 1);
  }
  return turns;
}

std::vector<KeptOperation> read_kept_runs(std::string_view lines) {
  std::vector<KeptOperation> all;
  while (!lines.empty()) {
    const auto end = lines.find('\n');
    if (auto one = read_line(lines.substr(0, end))) all.push_back(std::move(*one));
    lines.remove_prefix(end == std::string_view::npos ? lines.size() : end + 1);
  }
  return all;
}

std::vector<KeptOperation> read_kept_plan(std::string_view lines) {
  std::vector<KeptOperation> all;
  for (KeptOperation& run : read_kept_runs(lines)) {
    const auto so_far = std::ranges::find(all, run.name, &KeptOperation::name);
    if (so_far == all.end()) {
      all.push_back(std::move(run));
    } else {
      add_run(*so_far, run.at, run.blanks);
    }
  }
  return all;
}

std::vector<MovedOperation> moved_since(const std::vector<KeptOperation>& before, const PlacedTimes& now) {
  std::vector<MovedOperation> moved;
  for (std::size_t i = 0; i < now.routing.size(); ++i) {
    const auto open = to_come(*now.routing.at(i), now.planned.operations.at(i));
    if (!open) continue;
    const auto then = std::ranges::find(before, open->name, &KeptOperation::name);
    if (then == before.end()) {
      moved.push_back({open->name, {}, open->at});
      continue;
    }
    // The first of them are done since: what was planned began with those.
    const bool is_rest = any_done(now.planned.operations.at(i)) && (then->blanks == 0 || open->blanks < then->blanks);
    const Interval planned{is_rest ? open->at.from : then->at.from, then->at.to};
    if (!is_same_to_a_minute(planned, open->at)) moved.push_back({open->name, planned, open->at});
  }
  for (const KeptOperation& then : before) {
    const bool is_there =
        std::ranges::any_of(now.routing, [&](const OperationFacts* facts) { return facts->name.value == then.name; });
    if (!is_there) moved.push_back({then.name, then.at, {}});
  }
  return moved;
}

}  // namespace blankwright
