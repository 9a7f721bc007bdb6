#include "sheet/flow.h"

#include <utility>

#include "diagnose/failure.h"

namespace blankwright {

Flow begin_flow(const Dossier& dossier, const FontMetrics& fonts, Word title, int number) {
  Flow flow{dossier, fonts, title, number, {}, {}};
  flow.sheets.push_back(begin_sheet(dossier, fonts, title, false, number));
  flow.top = flow.sheets.back().body.y;
  return flow;
}

void next_sheet(Flow& flow) {
  flow.sheets.push_back(begin_sheet(flow.dossier, flow.fonts, flow.title, true, flow.number));
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

Canvas canvas_of(Flow& flow) {
  return Canvas{flow.sheets.back().page, flow.fonts, flow.dossier.sheet_template.lettering.value / whole};
}

Canvas drawing_canvas(Flow& flow) { return Canvas{flow.sheets.back().page, flow.fonts}; }

std::vector<Page> pages_of(Flow flow) {
  std::vector<Page> pages;
  for (Sheet& sheet : flow.sheets) pages.push_back(std::move(sheet.page));
  return pages;
}

}  // namespace blankwright
