#include "sheet/sheet/today_sheet.h"

#include <algorithm>

#include "sheet/frame/flow.h"
#include "sheet/frame/table.h"

namespace blankwright {
namespace {

constexpr TextStyle title_text{.size = Lettering::machine, .face = Face::bold, .least = Lettering::hand};
constexpr TextStyle today_strong{.size = Lettering::machine, .face = Face::bold, .least = Lettering::machine};
constexpr TextStyle today_plain{.size = Lettering::hand, .least = Lettering::hand};
constexpr Length today_gap = 3 * mm;

Table section_table(const TodaySection& section) {
  Table table;
  table.columns = {{24 * mm}, {11 * mm}, {48 * mm, 2}, {30 * mm}, {30 * mm}, {40 * mm, 1}, {9 * mm}};
  table.head = {{Cell{{{section.title, title_text}}}}, 8 * mm};
  table.head.own_columns = {{180 * mm, 1}};
  for (const TodayRow& row : section.rows) {
    table.rows.push_back({{Cell{{{row.time, today_strong}}}, Cell{{{row.step, today_plain}}},
                           Cell{{{row.what, today_strong}}}, Cell{{{row.where, today_plain}}},
                           Cell{{{row.order, today_plain}}}, Cell{{{row.note, today_plain}}}, Cell{}},
                          9 * mm});
  }
  return table;
}

}  // namespace

std::vector<Page> today_sheets(const TodayFacts& facts, const FontMetrics& fonts) {
  const Template& t = facts.sheet_template;
  const ShopHead head{t.words[Word::today_sheet], today_title(facts), false};
  Flow flow = flow_of(t, fonts, [&](PageOfKind page) { return begin_shop_sheet(t, fonts, head, page); });
  for (const TodaySection& section : today_sections(facts)) {
    put_table(flow, section_table(section));
    take_strip(flow, std::min(today_gap, free_room(flow).height));
  }
  std::vector<Page> pages = pages_of(std::move(flow));
  number_sheets(pages, t, fonts, foot_text(t, facts.shop, facts.at, facts.program));
  return pages;
}

}  // namespace blankwright
