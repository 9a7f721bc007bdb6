#include "entries/blank_summary.h"

namespace blankwright {
namespace {

std::optional<Mass> last_net(const std::vector<Weighing>& weighings) {
  return weighings.empty() ? std::nullopt : std::optional{weighings.back().net};
}

}  // namespace

AxisOffset axis_offset(const AxisSeen& seen) {
  return {(seen.to_face[2] - seen.to_face[0]) / 2, (seen.to_face[3] - seen.to_face[1]) / 2,
          -(seen.lean_1 / seen.over), -(seen.lean_2 / seen.over)};
}

BlankSummary summary_of(const BlankState& s) {
  const auto& seen = s.stud ? s.stud : s.bore;
  return {.id = s.id,
          .order = s.order,
          .promised = s.promised,
          .witness = s.witness,
          .stage = s.stage,
          .bath = s.bath,
          .load = s.load,
          .board = s.board,
          .reason = s.reason,
          .verdict = s.verdict,
          .result = s.result,
          .begun = s.is_begun(),
          .drying = s.is_drying ? s.drying_load : std::string{},
          .dry = last_net(s.dry),
          .wet = last_net(s.wet),
          .cured = last_net(s.cured),
          .axis = seen ? std::optional{axis_offset(*seen)} : std::nullopt,
          .pulled = s.pulled,
          .last_at = s.last_done == Instant{} ? s.last_at : s.last_done};
}

}  // namespace blankwright
