#include "sheet/weighing_sheet.h"

#include <fmt/format.h>

#include "sheet/blank_table.h"

namespace blankwright {
namespace {

constexpr Length field_width = 16 * mm;  // eight of them beside the ID on a page held upright

}  // namespace

std::vector<Page> weighing_sheets(const Dossier& d, const FontMetrics& fonts) {
  const WordTable& w = d.sheet_template.words;
  const bool metric = d.shop.units.value == UnitSystem::metric;
  const auto mass = [&](Word word, Length width = field_width) {
    return BlankField{fmt::format("{} ({})", w[word], metric ? "g" : "oz"), {width}};
  };
  const auto size = [&](Word word) {
    return BlankField{fmt::format("{} ({})", w[word], metric ? "mm" : "in"), {field_width}};
  };
  Flow flow = begin_flow(d, fonts, Word::weighing_sheet);
  put_blank_table(
      flow, w[Word::weighing_note],
      std::array{mass(Word::tare_head, 13 * mm), mass(Word::first_weighing), mass(Word::second_weighing),
                 size(Word::dry_width), size(Word::dry_height), size(Word::dry_length), mass(Word::wet_mass_head),
                 mass(Word::cured_mass_head), BlankField{w[Word::remarks], {20 * mm, 1}}});
  return pages_of(std::move(flow));
}

}  // namespace blankwright
