#pragma once

#include <optional>
#include <string>

#include "entries/blank_state.h"
#include "plan/order_plan.h"

namespace blankwright {

enum class ResinAnswer {
  weigh,       ///< a mass is missing
  impossible,  ///< more than the void holds, or wood denser than its own substance: a mass or a size is wrong
  soak_again,  ///< wet, and short of resin
  cure,        ///< wet, and full enough
  poor,        ///< cured, and short of resin
  good         ///< cured, and full enough
};

/// Has the resin gone in?
struct ResinGate {
  ResinAnswer answer = ResinAnswer::weigh;
  bool own_size = true;             ///< measured on this blank; else the order's nominal dry size
  std::optional<Share> fill;        ///< of this blank's void space; of a cured one without the resin that bled out
  std::optional<Mass> seen, least;  ///< the mass that was judged, and what it has to be at least
  std::optional<Duration> soak_longer;  ///< an estimate, where the soak's time is known
  bool holds() const { return answer != ResinAnswer::cure && answer != ResinAnswer::good; }
};

struct ResinGateInput {
  const BlankState& blank;
  const OrderPlan& plan;           ///< with resin and uptake
  std::optional<Duration> soaked;  ///< from the vacuum's release to the end of the bath
};

/// Judges the last mass after the bath against this blank's own void space, by its last dry mass and its dry size:
///
///   fill = (m_wet − m_dry) / (ρ_r (V − m_dry/ρ_cw))
///
/// and the least masses of ladder_rung(). A wet blank that is short soaks again, longer by soaked · ((f*/f)² − 1):
/// resin goes into capillaries with the square root of time (Washburn, Physical Review 17 (1921) 273), so that is a
/// rough figure. None before the bath, in the bath, in the oven, and once wood was taken away.
std::optional<ResinGate> resin_gate(const ResinGateInput& in);

/// In words, without the blank's ID.
std::string in_words(const ResinGate& gate, UnitSystem units);

}  // namespace blankwright
