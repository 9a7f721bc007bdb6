#include "sheet/paper/hold_place.h"

#include <algorithm>

namespace blankwright {
namespace {

bool has(const Dossier& d, SheetKind kind) {
  return std::ranges::find(d.sheet_template.sheets, kind, &Given<SheetKind>::value) != d.sheet_template.sheets.end();
}

/// Is it done by who bores, when bath and oven are over?
bool is_the_turners(const std::vector<const OperationFacts*>& routing, std::size_t n) {
  const auto bores = [](const OperationFacts* op) { return op->ended_by && op->ended_by->value == EntryKind::bored; };
  const auto bore = std::ranges::find_if(routing, bores);
  if (bore == routing.end() || (*bore)->who.value != routing.at(n)->who.value) return false;
  const auto is_of_bath_or_oven = [](const OperationFacts* op) {
    return op->planned && !op->is(PlannedWork::glue_setting);
  };
  return std::none_of(routing.begin() + static_cast<std::ptrdiff_t>(n), routing.end(), is_of_bath_or_oven);
}

}  // namespace

HoldPlace hold_place(const Dossier& d, std::size_t n) {
  const OperationFacts& op = *d.times.routing.at(n);
  if (op.is(PlannedWork::vacuum) && has(d, SheetKind::bath) && !d.baths.empty()) return HoldPlace::bath_card;
  if (op.is(PlannedWork::cure) && has(d, SheetKind::oven) && !d.loads.empty()) return HoldPlace::oven_card;
  if (has(d, SheetKind::inspection) && is_the_turners(d.times.routing, n)) return HoldPlace::inspection;
  return HoldPlace::routing;
}

std::string hold_words(const Dossier& d, PlannedWork work, Word otherwise) {
  const auto of_it = [&](const OperationFacts* op) { return op->hold && op->is(work); };
  const auto found = std::ranges::find_if(d.times.routing, of_it);
  return found == d.times.routing.end() ? d.sheet_template.words[otherwise] : (*found)->hold->value;
}

}  // namespace blankwright
