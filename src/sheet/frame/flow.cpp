#include "sheet/frame/flow.h"

#include <utility>

#include "diagnose/failure.h"

namespace blankwright {

Flow flow_of(const Template& sheet_template, const FontMetrics& fonts, std::function<Sheet(PageOfKind)> begin) {
  Flow flow{sheet_template, fonts, std::move(begin), {}, {}};
  flow.sheets.push_back(flow.begin(PageOfKind::first));
  flow.top = flow.sheets.back().body.y;
  return flow;
}

OrderFlow flow_for(const Dossier& dossier, const FontMetrics& fonts) {
  return {Flow{dossier.sheet_template, fonts, {}, {}, {}}, dossier};
}

void begin_part(OrderFlow& flow, Word title, std::optional<Length> least) {
  flow.begin = [&d = flow.dossier, &fonts = flow.fonts, title](PageOfKind page) {
    return begin_sheet(d, fonts, title, page);
  };
  constexpr Length above = 4 * mm;
  if (flow.sheets.empty() || !least || !fits(free_room(flow).height, above + part_title_height + *least)) {
    flow.sheets.push_back(flow.begin(PageOfKind::first));
    flow.top = flow.sheets.back().body.y;
    return;
  }
  take_strip(flow, above);
  const Box strip = take_strip(flow, part_title_height);
  Canvas canvas = canvas_of(flow);
  draw_part_title(canvas, flow.dossier, strip, title);
}

void add_pages(OrderFlow& flow, std::vector<Page> pages) {
  for (Page& page : pages) {
    flow.sheets.push_back({std::move(page), {}});
    flow.top = {};
  }
}

void next_sheet(Flow& flow) {
  flow.sheets.push_back(flow.begin(PageOfKind::further));
  flow.top = flow.sheets.back().body.y;
}

Box whole_room(const Flow& flow) { return flow.sheets.back().body; }

Box free_room(const Flow& flow) {
  const Box body = whole_room(flow);
  return {body.x, flow.top, body.width, body.bottom() - flow.top};
}

Box take_strip(Flow& flow, Length height) {
  const Box room = free_room(flow);
  BW_EXPECT(fits(room.height, height));
  flow.top += height;
  return {room.x, room.y, room.width, height};
}

Box next_strip(Flow& flow, Length height) {
  if (!fits(free_room(flow).height, height)) next_sheet(flow);
  return take_strip(flow, height);
}

Canvas canvas_of(Flow& flow) {
  return Canvas{flow.sheets.back().page, flow.fonts, lettering_of(flow.sheet_template)};
}

std::vector<Page> pages_of(Flow&& flow) {
  std::vector<Page> pages;
  for (Sheet& sheet : flow.sheets) pages.push_back(std::move(sheet.page));
  return pages;
}

}  // namespace blankwright
