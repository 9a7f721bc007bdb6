#include "sheet/sheet/traveller.h"

#include <array>
#include <iterator>
#include <utility>

#include "sheet/frame/frame.h"
#include "sheet/sheet/bath_card.h"
#include "sheet/sheet/bottle_label.h"
#include "sheet/sheet/caution_sheet.h"
#include "sheet/sheet/cutting_sheet.h"
#include "sheet/sheet/half_profile.h"
#include "sheet/sheet/inspection_sheet.h"
#include "sheet/sheet/oven_card.h"
#include "sheet/sheet/routing_sheet.h"
#include "sheet/sheet/stamping_sheet.h"
#include "sheet/sheet/target_sheets.h"
#include "sheet/sheet/turner_sheet.h"
#include "sheet/sheet/weighing_sheet.h"
#include "sheet/sheet/worksheet.h"

namespace blankwright {
namespace {

void append(std::vector<Page>& pages, std::vector<Page> more) {
  pages.insert(pages.end(), std::move_iterator{more.begin()}, std::move_iterator{more.end()});
}

/// What makes the sheets of each kind, in the kinds' order.
using Maker = std::vector<Page> (*)(const Dossier&, const FontMetrics&);
constexpr auto makers = std::to_array<Maker>({
    [](const Dossier& d, const FontMetrics& fonts) { return std::vector<Page>{turner_sheet(d, fonts)}; },
    routing_sheets,
    cutting_sheets,
    stamping_sheets,
    weighing_sheets,
    bath_cards,
    oven_cards,
    bottle_labels,
    inspection_sheets,
    target_sheets,
    half_profile_sheets,
    caution_sheets,
    worksheets,
});

}  // namespace

std::vector<Page> traveller(const Dossier& d, const FontMetrics& fonts) {
  std::vector<Page> pages;
  for (const auto& kind : d.sheet_template.sheets) {
    append(pages, makers.at(static_cast<std::size_t>(kind.value))(d, fonts));
  }
  number_sheets(pages, d.sheet_template, fonts, foot_text(d.sheet_template, d.shop, d.at, d.program, d.draft));
  return pages;
}

}  // namespace blankwright
