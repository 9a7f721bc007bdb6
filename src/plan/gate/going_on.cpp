#include "plan/gate/going_on.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <vector>

namespace blankwright {
namespace {

/// It goes nowhere by that: its gate may be answered so.
bool is_measured_again(const BlankState& before, EntryKind kind) {
  return (kind == EntryKind::bored && before.stage == Stage::bored) ||
         (kind == EntryKind::stud_measured && before.stage == Stage::stud_set) ||
         (kind == EntryKind::inspected && before.stage == Stage::inspected);
}

}  // namespace

bool goes_on(EntryKind kind) {
  return kind == EntryKind::into_bath || kind == EntryKind::into_oven || kind == EntryKind::out_of_oven ||
         kind == EntryKind::squared || kind == EntryKind::bored || kind == EntryKind::stud_measured ||
         kind == EntryKind::turned || kind == EntryKind::inspected || kind == EntryKind::sent;
}

bool passes_gates(const BlankState& before, const Entry& entry) {
  if (!goes_on(entry.kind)) return false;
  if (entry.kind == EntryKind::into_bath && before.stage == Stage::wet) return false;
  return !is_measured_again(before, entry.kind);
}

std::optional<Objection> went_against(std::span<const Judged> gates) {
  std::vector<std::string> told;
  Verdict strongest = Verdict::waits;
  for (const Judged& judged : gates) {
    if (!judged.holds()) continue;
    told.push_back(fmt::format("went on against its check ({}): {}", name_of(judged.gate), in_words(judged)));
    strongest = std::max(strongest, judged.verdict);
  }
  if (told.empty()) return std::nullopt;
  return Objection{strongest, fmt::format("{}", fmt::join(told, "; "))};
}

std::optional<Objection> stands_against(std::span<const Judged> then, std::span<const Judged> now) {
  std::vector<Judged> silent{then.begin(), then.end()};
  std::erase_if(
      silent, [&](const Judged& judged) { return std::ranges::find(now, judged.gate, &Judged::gate) != now.end(); });
  return went_against(silent);
}

}  // namespace blankwright
