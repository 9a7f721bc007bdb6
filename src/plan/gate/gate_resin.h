#pragma once

#include <optional>

#include "diagnose/saying.h"
#include "entries/blank_state.h"
#include "entries/process_state.h"
#include "plan/gate/verdict.h"
#include "plan/order/order_plan.h"

namespace blankwright {

enum class ResinAnswer {
  weigh,       ///< a mass is missing
  impossible,  ///< more than the void holds, or wood denser than its own substance: a mass or a size is wrong
  soak_again,  ///< wet, and short of resin
  cure,        ///< wet, and full enough
  poor,        ///< cured, and short of resin
  good         ///< cured, and full enough
};
Verdict verdict_of(ResinAnswer answer);

/// Has the resin gone in?
struct ResinGate {
  ResinAnswer answer = ResinAnswer::weigh;
  bool lacks_dry = false;           ///< it was not weighed before its bath
  bool wood_is_off = false;         ///< taken away since: what it weighs now tells nothing of the resin
  bool own_size = true;             ///< measured on this blank; else the order's nominal dry size
  std::optional<Share> fill;        ///< of this blank's void space; of a cured one without the resin that bled out
  std::optional<Mass> seen, least;  ///< the mass that was judged, and what it has to be at least
  std::optional<Duration> soaked, least_soak;  ///< of a wet blank, as far as its bath's times were entered
  std::optional<Duration> soak_longer;         ///< an estimate, where the soak's time is known
};

struct ResinGateInput {
  const BlankState& blank;
  const OrderPlan& plan;  ///< with resin, vacuum and uptake
  const BathState& bath;  ///< its last one
  const VacuumFacts& vacuum;
};

/// Judges the last mass after the bath against this blank's own void space, by its last dry mass and its dry size:
///
///   fill = (m_wet − m_dry) / (ρ_r (V − m_dry/ρ_cw))
///
/// and the least masses of ladder_rung(). A wet blank that is short soaks again, longer by soaked · ((f*/f)² − 1):
/// resin goes into capillaries with the square root of time (Washburn, Physical Review 17 (1921) 273), so that is a
/// rough figure. A wet mass that suffices answers for the soak, however long that was; how long it should have been
/// is told where there is no mass: by least_soak(), or as planned. What was wrong wet stays so in and after the oven
/// until it was weighed cured. Once wood was taken away the last mass before tells: of a blank that is short, and of
/// one that has none, until it is sent; a witness shows that resin went in, not how much this blank took. None before
/// the bath, in the bath and in the oven.
std::optional<ResinGate> resin_gate(const ResinGateInput& in);

/// Does a cured blank's mass show that its resin suffices? Not where one is missing.
bool is_full_cured(const ResinGateInput& in);

/// The least soak by what was entered of the bath: the shop's share of the time from target reached to the release,
/// or to the end of the bubbling where the shop counts to that. None where those were not entered.
std::optional<Duration> least_soak(const BathState& bath, const VacuumFacts& facts);

/// In words, without the blank's ID.
Saying says_of(const ResinGate& gate, UnitSystem units);

}  // namespace blankwright
