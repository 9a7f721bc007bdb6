#include "sheet/sheet/traveller.h"

#include <algorithm>
#include <array>
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

/// Whose leaf a sheet is on. Of an order without treatment nobody runs bath and oven: what is left of theirs, saw and
/// list, goes with the routing.
Hand leaf_of(const Dossier& d, SheetKind kind) {
  const Hand hand = sheet_hands.at(static_cast<std::size_t>(kind));
  return hand == Hand::bath && !d.order.treatment ? Hand::desk : hand;
}

bool is_card(SheetKind kind) { return kind == SheetKind::bath || kind == SheetKind::oven; }

/// What is cut out of a page would take with it what stands behind.
bool is_cut_out(SheetKind kind) {
  return kind == SheetKind::targets || kind == SheetKind::profile || kind == SheetKind::bottle_labels;
}

void put_sheet(OrderFlow& flow, SheetKind kind) {
  const bool together = has(flow.sheet_template, SheetKind::bath) && has(flow.sheet_template, SheetKind::oven);
  if (together && kind == SheetKind::oven) return;  // stands with its bath
  if (together && kind == SheetKind::bath) return bath_and_oven_cards(flow);
  makers.at(static_cast<std::size_t>(kind))(flow);
}

/// The same, and notes on which pages it stands: those that it began, and the last one before where it goes on there.
void put_noted(OrderFlow& flow, SheetKind kind) {
  std::size_t first = flow.sheets.size();
  const std::size_t marks = flow.sheets.empty() ? 0 : flow.sheets.back().page.items.size();
  put_sheet(flow, kind);
  if (is_card(kind)) return;  // noted card by card
  if (first > 0 && flow.sheets.at(first - 1).page.items.size() > marks) --first;
  for (; first < flow.sheets.size(); ++first) {
    flow.sheets.at(first).parts.push_back({kind});
    flow.sheets.at(first).blank_back = flow.sheets.at(first).blank_back || is_cut_out(kind);
  }
}

/// Hands in the order in which the template first names a sheet of theirs.
std::vector<Hand> hands_of(const Dossier& d) {
  std::vector<Hand> out;
  for (const auto& kind : d.sheet_template.sheets) {
    const Hand hand = leaf_of(d, kind.value);
    if (std::ranges::find(out, hand) == out.end()) out.push_back(hand);
  }
  return out;
}

TravellerPage empty_side(const Dossier& d) { return {{paper_of(d.sheet_template.paper.value), {}, {}, {}}, {}}; }

bool both_sides(const Dossier& d) { return d.sheet_template.sides.value == PrintedSides::both; }

/// Adds a hand's pages, so that they begin on a leaf and nothing stands behind a card or what is cut out.
void append(std::vector<TravellerPage>& pages, OrderFlow&& flow) {
  const auto to_next_leaf = [&] {
    if (both_sides(flow.dossier) && pages.size() % 2 == 1) pages.push_back(empty_side(flow.dossier));
  };
  if (!flow.sheets.empty()) to_next_leaf();
  for (Sheet& sheet : flow.sheets) {
    if (sheet.blank_back) to_next_leaf();
    pages.push_back({std::move(sheet.page), std::move(sheet.parts)});
    if (sheet.blank_back) to_next_leaf();
  }
}

std::vector<Page> numbered(std::vector<Page> pages, const Dossier& d, const FontMetrics& fonts) {
  number_sheets(pages, d.sheet_template, fonts, foot_text(d));
  return pages;
}

/// What of the pages is wanted: what was on one leaf stays on one, and nothing else comes behind it.
std::vector<Page> only(std::vector<Page> pages, const std::vector<bool>& wanted, const Dossier& d) {
  std::vector<Page> out;
  std::size_t last_leaf = 0;
  for (std::size_t n = 0; n < pages.size(); ++n) {
    if (!wanted.at(n)) continue;
    const std::size_t leaf = n / 2;
    if (both_sides(d) && leaf != last_leaf && out.size() % 2 == 1) out.push_back(empty_side(d).page);
    out.push_back(std::move(pages.at(n)));
    last_leaf = leaf;
  }
  return out;
}

}  // namespace

std::vector<TravellerPage> traveller_sheets(const Dossier& d, const FontMetrics& fonts) {
  std::vector<TravellerPage> pages;
  for (const Hand hand : hands_of(d)) {
    OrderFlow flow = flow_for(d, fonts);
    for (const auto& kind : d.sheet_template.sheets) {
      if (leaf_of(d, kind.value) == hand) put_noted(flow, kind.value);
    }
    append(pages, std::move(flow));
  }
  return pages;
}

std::vector<Page> traveller(const Dossier& d, const FontMetrics& fonts, std::vector<TravellerPage> sheets,
                            const std::optional<std::vector<bool>>& wanted) {
  std::vector<Page> pages;
  for (TravellerPage& sheet : sheets) pages.push_back(std::move(sheet.page));
  pages = numbered(std::move(pages), d, fonts);
  return wanted ? only(std::move(pages), *wanted, d) : pages;
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
