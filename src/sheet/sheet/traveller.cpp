#include "sheet/sheet/traveller.h"

#include <array>
#include <iterator>
#include <utility>

#include "sheet/frame/frame.h"
#include "sheet/sheet/sheets.h"

namespace blankwright {
namespace {

void append(std::vector<Page>& pages, std::vector<Page> more) {
  pages.insert(pages.end(), std::move_iterator{more.begin()}, std::move_iterator{more.end()});
}

/// In the order of the kinds.
constexpr auto makers = std::to_array<std::vector<Page> (*)(const Dossier&, const FontMetrics&)>({
#define BW_MAKER(kind, title, maker, sign) maker,
    BW_SHEETS(BW_MAKER)
#undef BW_MAKER
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
