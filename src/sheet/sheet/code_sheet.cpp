#include "sheet/sheet/code_sheet.h"

#include <fmt/format.h>

#include <algorithm>
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
constexpr Length row_height = 28.5 * mm;
constexpr Length symbol_room = 28.2 * mm;  // 20 mm and more without the quiet zone
constexpr Length group_height = 8 * mm;

struct Group {
  Word title;
  EntryKind first, last;
};
constexpr std::array groups{Group{Word::codes_wood, EntryKind::sawn, EntryKind::opened},
                            Group{Word::codes_resin, EntryKind::resin_opened, EntryKind::discarded},
                            Group{Word::codes_bath, EntryKind::into_bath, EntryKind::drained},
                            Group{Word::codes_oven, EntryKind::into_oven, EntryKind::out_of_oven},
                            Group{Word::codes_blank, EntryKind::graded, EntryKind::stud_measured},
                            Group{Word::codes_piece, EntryKind::turned, EntryKind::done}};

struct Code {
  std::string code, name, says;
};

std::vector<Code> codes_of(const Group& group, const WordTable& words) {
  std::vector<Code> codes;
  for (const KindFacts& kind : kind_list()) {
    if (kind.kind < group.first || kind.kind > group.last || kind.code.empty()) continue;
    codes.push_back({std::string{kind.code}, std::string{kind.name}, std::string{kind.says}});
  }
  if (group.last == EntryKind::done) codes.push_back({std::string{undo_code}, "undo", words[Word::codes_undo]});
  return codes;
}

void draw_code(Canvas& canvas, const Box& cell, const Code& code) {
  auto symbol = qr_symbol({.text = code.code, .level = QrLevel::high, .least_version = 2, .most_version = 2});
  BW_EXPECT(symbol.has_value());  // four symbols are held by version 2 at level H
  const auto place = placed_qr(symbol->side, {cell.x, cell.y, symbol_room, symbol_room});
  BW_EXPECT(place.has_value());
  canvas.add(Matrix{place->at, place->module, symbol->side, std::move(symbol->black)}, Role::code);
  const Length x = cell.x + symbol_room;
  const Length width = cell.right() - x;
  canvas.text_fitted({x, cell.y + 3 * mm, width, 6 * mm}, code.name,
                     {.size = Lettering::machine, .face = Face::bold});
  fitted(canvas, {x, cell.y + 9.5 * mm, width, 8 * mm}, code.says, {.size = Lettering::note});
  canvas.text_fitted({x, cell.y + 18 * mm, width, 4 * mm}, code.code, {.size = Lettering::note});
}

}  // namespace

std::vector<Page> code_sheets(const Template& t, const FontMetrics& fonts) {
  const ShopHead head{t.words[Word::codes_sheet], t.words[Word::codes_note]};
  Flow flow = flow_of(t, fonts, [&](PageOfKind page) { return begin_shop_sheet(t, fonts, head, page); });
  for (const Group& group : groups) {
    const auto codes = codes_of(group, t.words);
    if (!fits(free_room(flow).height, group_height + row_height)) next_sheet(flow);  // a title does not stand alone
    const Box title = take_strip(flow, group_height);
    Canvas canvas = canvas_of(flow);
    canvas.line({title.x, title.y + 1 * mm}, {title.right(), title.y + 1 * mm}, wide_line);
    canvas.text_fitted({title.x, title.y + 2 * mm, title.width, 5 * mm}, t.words[group.title],
                       {.size = Lettering::machine, .face = Face::bold});
    for (std::size_t i = 0; i < codes.size(); i += columns) {
      const Box row = next_strip(flow, row_height);
      Canvas drawn = canvas_of(flow);
      for (std::size_t k = i; k < std::min(codes.size(), i + columns); ++k) {
        const Length width = row.width / columns;
        draw_code(drawn, {row.x + static_cast<double>(k - i) * width, row.y, width - 2 * mm, row.height},
                  codes.at(k));
      }
    }
  }
  std::vector<Page> pages = pages_of(std::move(flow));
  number_sheets(pages, t, fonts, "");
  return pages;
}

}  // namespace blankwright
