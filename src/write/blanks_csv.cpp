#include "write/blanks_csv.h"

#include <fmt/format.h>

#include <algorithm>

#include "plan/wood/blank_place.h"
#include "write/answer_text.h"

namespace blankwright {
namespace {

bool holds(const ShareOnPaper& share, const BlankId& id) {
  const auto is_among = [&](const std::vector<BlankId>& ids) { return std::ranges::find(ids, id) != ids.end(); };
  return is_among(share.blanks) || is_among(share.witnesses);
}

/// The number of the bath or load that a blank is in; empty where it is in none.
template <class Filling>
std::string number_of(const std::vector<Filling>& fillings, const BlankId& id) {
  for (const Filling& filling : fillings) {
    if (std::ranges::any_of(filling.shares, [&](const ShareOnPaper& share) { return holds(share, id); })) {
      return fmt::format("{}", filling.number);
    }
  }
  return {};
}

/// In mm to hundredths, or in inches to ten-thousandths.
std::string size_text(const std::optional<Length>& size, UnitSystem units) {
  if (!size) return {};
  return units == UnitSystem::metric ? fmt::format("{:.2f}", *size / mm) : fmt::format("{:.4f}", *size / inch);
}

/// "T4 1-2": with the board, since spreadsheets take a bare "1-2" for a day.
std::string sawn_from(const CuttingPlan& plan, const CutBlank& cut) {
  return fmt::format("{} {}", plan.boards.at(cut.board).name, position_text(plan, cut));
}

}  // namespace

std::string blanks_csv(const Dossier& d) {
  const UnitSystem units = d.shop.units.value;
  const std::string unit = units == UnitSystem::metric ? "mm" : "in";
  const auto pieces = static_cast<std::size_t>(piece_count(d));
  Answer table;
  table.columns = {"blank",
                   "order",
                   "number",
                   "role",
                   "item",
                   "client",
                   "species",
                   "condition",
                   "board",
                   "sawn_from",
                   "sawn_section_" + unit,
                   "sawn_length_" + unit,
                   "bath",
                   "load"};
  for (std::size_t n = 0; n < static_cast<std::size_t>(blank_count(d)); ++n) {
    const CutBlank* cut = d.plan.cutting ? cut_of(*d.plan.cutting, n, pieces) : nullptr;
    const bool named = n < d.blanks.size();
    table.rows.push_back({named ? d.blanks.at(n).shown() : "", d.order.id.value, fmt::format("{}", n + 1),
                          n < pieces ? "piece" : "witness", d.order.item.value, d.order.client.value, d.plan.species,
                          std::string{name_of(d.order.wood.condition.value)},
                          cut != nullptr ? d.plan.cutting->boards.at(cut->board).name : "",
                          cut != nullptr ? sawn_from(*d.plan.cutting, *cut) : "",
                          size_text(d.plan.blank.sawn_section, units), size_text(d.plan.blank.sawn_length, units),
                          named ? number_of(d.baths, d.blanks.at(n)) : "",
                          named ? number_of(d.loads, d.blanks.at(n)) : ""});
  }
  return answer_as_csv(table);
}

std::vector<BlankId> ids_of_blanks_csv(std::string_view text) {
  std::vector<BlankId> ids;
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(text.size(), line.size() + 1));
    std::string_view cell = line.substr(0, line.find_first_of(",;\t"));
    if (cell.starts_with('"')) cell = cell.substr(1, cell.size() - 2);
    if (const auto id = BlankId::read(cell)) ids.push_back(*id);
  }
  return ids;
}

}  // namespace blankwright
