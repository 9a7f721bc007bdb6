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

OrderFlow begin_flow(const Dossier& dossier, const FontMetrics& fonts, Word title, int number) {
  const auto begin = [&dossier, &fonts, title, number](PageOfKind page) {
    return begin_sheet(dossier, fonts, title, page, number);
  };
  return {flow_of(dossier.sheet_template, fonts, begin), dossier};
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
  return Canvas{flow.sheets.back().page, flow.fonts, flow.sheet_template.lettering.value / whole};
}

Canvas drawing_canvas(Flow& flow) { return Canvas{flow.sheets.back().page, flow.fonts}; }

std::vector<Page> pages_of(Flow&& flow) {
  std::vector<Page> pages;
  for (Sheet& sheet : flow.sheets) pages.push_back(std::move(sheet.page));
  return pages;
}

}  // namespace blankwright
