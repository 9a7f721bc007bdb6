#include "sheet/sheet/code_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "diagnose/failure.h"
#include "entries/entry_kind.h"
#include "sheet/frame/flow.h"
#include "sheet/mark/canvas.h"
#include "sheet/mark/fitted.h"
#include "sheet/mark/qr.h"

namespace blankwright {
namespace {

constexpr int columns = 3;
// Readers find the three corners of a symbol among all of a page: where symbols are many, or stand as far from each
// other one way as the other, they take corners of several for one. So many at this pitch both of ours read.
constexpr Length column_width = 62 * mm, row_height = 33 * mm;
constexpr Length symbol_room = 28.4 * mm;  // 20 mm and more without the quiet zone
constexpr Length group_height = 8 * mm;
constexpr Length coarse_dot = 2 * printer_dot;  // symbols' edges stand on those of a coarse picture's dots

struct Group {
  Word title;
  EntryKind first, last;
};
/// What is on one page: it hangs where that is done.
using CodePage = std::array<Group, 2>;
constexpr std::array code_pages{CodePage{Group{Word::codes_wood, EntryKind::sawn, EntryKind::opened},
                                         Group{Word::codes_resin, EntryKind::resin_opened, EntryKind::discarded}},
                                CodePage{Group{Word::codes_bath, EntryKind::into_bath, EntryKind::drained},
                                         Group{Word::codes_oven, EntryKind::into_oven, EntryKind::out_of_oven}},
                                CodePage{Group{Word::codes_blank, EntryKind::graded, EntryKind::stud_measured},
                                         Group{Word::codes_piece, EntryKind::turned, EntryKind::done}}};

struct Code {
  std::string code, name, says;
};

std::vector<Code> codes_of(const Group& group, const Template& t) {
  std::vector<Code> codes;
  for (const KindFacts& kind : kind_list()) {
    if (kind.kind < group.first || kind.kind > group.last || kind.code.empty()) continue;
    codes.push_back({std::string{kind.code}, std::string{kind.name}, t.actions.of(kind.name, kind.says)});
  }
  if (group.last == EntryKind::done) codes.push_back({std::string{undo_code}, "undo", t.words[Word::codes_undo]});
  return codes;
}

void draw_code(Canvas& canvas, const Box& cell, const Code& code) {
  auto symbol = qr_symbol({.text = code.code, .level = QrLevel::high, .least_version = 2, .most_version = 2});
  BW_EXPECT(symbol.has_value());  // four symbols are held by version 2 at level H
  const auto on_dot = [](Length at) { return std::ceil(at / coarse_dot) * coarse_dot; };
  const auto place = placed_qr(symbol->side, {on_dot(cell.x), on_dot(cell.y), symbol_room, symbol_room});
  BW_EXPECT(place.has_value());
  canvas.add(Matrix{place->at, place->module, symbol->side, std::move(symbol->black)}, Role::code);
  const Length x = cell.x + symbol_room;
  const Length width = cell.right() - x;
  canvas.text_fitted({x, cell.y + 3 * mm, width, 6 * mm}, code.name,
                     {.size = Lettering::machine, .face = Face::bold});
  fitted(canvas, {x, cell.y + 9.5 * mm, width, 12.5 * mm}, code.says, {}, Vertical::top);
  canvas.text_fitted({x, cell.y + 22 * mm, width, 4 * mm}, code.code, {.size = Lettering::note});
}

void put_group(Flow& flow, const Group& group) {
  const WordTable& words = flow.sheet_template.words;
  const auto codes = codes_of(group, flow.sheet_template);
  const Box title = take_strip(flow, group_height);
  Canvas canvas = canvas_of(flow);
  canvas.line({title.x, title.y + 1 * mm}, {title.right(), title.y + 1 * mm}, wide_line);
  canvas.text_fitted({title.x, title.y + 2 * mm, title.width, 5 * mm}, words[group.title],
                     {.size = Lettering::machine, .face = Face::bold});
  for (std::size_t i = 0; i < codes.size(); i += columns) {
    const Box row = take_strip(flow, row_height);
    for (std::size_t k = i; k < std::min(codes.size(), i + columns); ++k)
      draw_code(canvas, {row.x + static_cast<double>(k - i) * column_width, row.y, column_width - 2 * mm, row.height},
                codes.at(k));
  }
}

}  // namespace

std::vector<Page> code_sheets(const Template& t, const FontMetrics& fonts) {
  const ShopHead head{t.words[Word::codes_sheet], t.words[Word::codes_note]};
  Flow flow = flow_of(t, fonts, [&](PageOfKind page) { return begin_shop_sheet(t, fonts, head, page); });
  for (const CodePage& page : code_pages) {
    if (&page != &code_pages.front()) next_sheet(flow);
    for (const Group& group : page) put_group(flow, group);
  }
  std::vector<Page> pages = pages_of(std::move(flow));
  number_sheets(pages, t, fonts, "");
  return pages;
}

}  // namespace blankwright
