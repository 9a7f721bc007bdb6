#include "plan/shop/lead.h"

#include <algorithm>
#include <vector>

#include "entries/fate.h"
#include "measure/elapsed.h"
#include "plan/shop/kept_plan.h"

namespace blankwright {
namespace {

bool is_work(EntryKind kind) {
  return kind != EntryKind::issued && kind != EntryKind::sent && kind != EntryKind::promised;
}

/// When the last work was done to a blank; none where nothing was.
std::optional<Instant> last_work(const BlankState& blank) {
  std::optional<Instant> last;
  const auto note = [&](Instant at) { last = std::max(last.value_or(at), at); };
  for (const auto& [kind, times] : blank.told) {
    for (const Instant at : times) {
      if (is_work(kind)) note(at);
    }
  }
  for (const auto& [operation, at] : blank.done) note(at);
  return last;
}

bool is_of_first_print(const BlankState& blank, Instant made) {
  const auto issued = blank.told.find(EntryKind::issued);
  return issued != blank.told.end() && issued->second.front() <= made;
}

}  // namespace

std::optional<double> lead_share(std::string_view kept_plan, Instant made, std::span<const BlankState> blanks,
                                 int wanted) {
  Instant planned = made;
  for (const KeptOperation& run : read_kept_runs(kept_plan)) planned = std::max(planned, run.at.to);
  std::vector<Instant> through;
  for (const BlankState& blank : blanks) {
    if (blank.witness || fate_of(blank) != Fate::good || !is_of_first_print(blank, made)) continue;
    if (const auto last = last_work(blank)) through.push_back(*last);
  }
  std::ranges::sort(through);
  const auto count = std::min(through.size(), static_cast<std::size_t>(std::max(wanted, 0)));
  if (planned <= made || count == 0) return std::nullopt;
  return between(made, through.at(count - 1)) / between(made, planned);
}

}  // namespace blankwright
