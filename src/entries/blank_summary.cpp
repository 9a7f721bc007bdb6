#include "entries/blank_summary.h"

namespace blankwright {
namespace {

std::optional<Mass> last(const std::vector<Weighing>& weighings) {
  return weighings.empty() ? std::nullopt : std::optional{weighings.back().net};
}

}  // namespace

AxisOffset axis_offset(const AxisSeen& seen) {
  return {(seen.to_face[2] - seen.to_face[0]) / 2, (seen.to_face[3] - seen.to_face[1]) / 2,
          -(seen.lean_1 / seen.over), -(seen.lean_2 / seen.over)};
}

BlankSummary summary_of(const BlankState& s) {
  const auto& seen = s.stud ? s.stud : s.bore;
  return {s.id,          s.order,
          s.promised,    s.stage,
          s.bath,        s.load,
          s.board,       s.verdict,
          s.result,      s.reason,
          last(s.dry),   last(s.wet),
          last(s.cured), seen ? std::optional{axis_offset(*seen)} : std::nullopt,
          s.pulled,      s.last_at};
}

}  // namespace blankwright
