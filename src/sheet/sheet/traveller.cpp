#include "sheet/sheet/traveller.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

#include "sheet/frame/frame.h"
#include "sheet/sheet/card_parts.h"
#include "sheet/sheet/sheets.h"

namespace blankwright {
namespace {

using Maker = void (*)(OrderFlow&);
/// In the order of the kinds.
constexpr auto makers = std::to_array<Maker>({
#define BW_MAKER(kind, title, maker, hand, sign) maker,
    BW_SHEETS(BW_MAKER)
#undef BW_MAKER
});

bool has(const Template& t, SheetKind kind) {
  return std::ranges::find(t.sheets, kind, &Given<SheetKind>::value) != t.sheets.end();
}

/// Whose leaf a sheet is on: what plans and signs goes with who runs saw, bath and oven.
Hand leaf_of(SheetKind kind) {
  return sheet_hands.at(static_cast<std::size_t>(kind)) == Hand::turner ? Hand::turner : Hand::bath;
}

void put_sheet(OrderFlow& flow, SheetKind kind) {
  const bool together = has(flow.sheet_template, SheetKind::bath) && has(flow.sheet_template, SheetKind::oven);
  if (together && kind == SheetKind::oven) return;  // stands with its bath
  if (together && kind == SheetKind::bath) return bath_and_oven_cards(flow);
  makers.at(static_cast<std::size_t>(kind))(flow);
}

/// Hands in the order in which the template first names a sheet of theirs.
std::vector<Hand> hands_of(const Dossier& d) {
  std::vector<Hand> out;
  for (const auto& kind : d.sheet_template.sheets) {
    const Hand hand = leaf_of(kind.value);
    if (std::ranges::find(out, hand) == out.end()) out.push_back(hand);
  }
  return out;
}

Page empty_side(const Dossier& d) { return {paper_of(d.sheet_template.paper.value), {}, {}, {}}; }

/// Adds a hand's pages, so that they begin on a leaf and nothing stands behind a card.
void append(std::vector<Page>& pages, OrderFlow&& flow, bool both_sides) {
  const auto to_next_leaf = [&] {
    if (both_sides && pages.size() % 2 == 1) pages.push_back(empty_side(flow.dossier));
  };
  if (!flow.sheets.empty()) to_next_leaf();
  for (Sheet& sheet : flow.sheets) {
    if (sheet.blank_back) to_next_leaf();
    pages.push_back(std::move(sheet.page));
    if (sheet.blank_back) to_next_leaf();
  }
}

std::vector<Page> numbered(std::vector<Page> pages, const Dossier& d, const FontMetrics& fonts) {
  number_sheets(pages, d.sheet_template, fonts, foot_text(d.sheet_template, d.shop, d.at, d.program, d.draft));
  return pages;
}

}  // namespace

std::vector<Page> traveller(const Dossier& d, const FontMetrics& fonts) {
  std::vector<Page> pages;
  for (const Hand hand : hands_of(d)) {
    OrderFlow flow = flow_for(d, fonts);
    for (const auto& kind : d.sheet_template.sheets) {
      if (leaf_of(kind.value) == hand) put_sheet(flow, kind.value);
    }
    append(pages, std::move(flow), d.sheet_template.sides.value == PrintedSides::both);
  }
  return numbered(std::move(pages), d, fonts);
}

std::vector<Page> worksheet_document(const Dossier& d, const FontMetrics& fonts) {
  return numbered(worksheets(d, fonts), d, fonts);
}

#define BW_PAGES(kind, title, maker, hand, sign)                              \
  std::vector<Page> maker(const Dossier& dossier, const FontMetrics& fonts) { \
    OrderFlow flow = flow_for(dossier, fonts);                                \
    maker(flow);                                                              \
    return pages_of(std::move(flow));                                         \
  }
BW_SHEETS(BW_PAGES)
#undef BW_PAGES

}  // namespace blankwright
