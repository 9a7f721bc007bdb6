#pragma once

#include <optional>
#include <string>
#include <vector>

#include "entries/blank_id.h"
#include "entries/outcome.h"
#include "measure/quantity_text.h"
#include "read/template.h"
#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"

namespace blankwright {

/// What was recorded of a piece that goes back to the client; what nobody recorded is missing, and nothing is
/// planned but how hard it may be tightened.
struct PieceRecorded {
  std::optional<BlankId> blank;
  std::string maker;                                        ///< the shop
  std::string order, client, item, drawing, wood, finish;  ///< of the order
  std::string board, lots, remarks, inspected, sent, by;
  std::optional<Outcome> thread;  ///< the gauge's answer
  std::optional<Length> squareness, projection, bore, offset;
  std::optional<Mass> dry, cured;
  std::optional<GaugePressure> gauge;
  std::optional<Duration> vacuum, soak, cure;
  std::optional<Temperature> core;
  std::optional<Torque> tightening;  ///< the largest that its bond, stud and the client's thread allow
};

/// One card a piece, A6: seat, stud, thread gauge and the largest tightening at the top, then who, what and how. What
/// nobody recorded is left out. Words shrink to their boxes, however long a client's name is.
std::vector<Page> client_cards(const std::vector<PieceRecorded>& pieces, const Template& words, UnitSystem units,
                               const FontMetrics& fonts);

}  // namespace blankwright
