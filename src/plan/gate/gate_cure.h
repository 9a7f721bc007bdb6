#pragma once

#include <optional>
#include <span>
#include <vector>

#include "diagnose/saying.h"
#include "entries/process_state.h"
#include "plan/gate/verdict.h"
#include "plan/process/cure.h"

namespace blankwright {

/// What shows that the resin of a blank is cured, or that nothing does.
enum class CureAnswer {
  soft,      ///< a blank of its load was cut open and was not hard to the middle
  cut_open,  ///< one that warms as slowly was cut open and was hard
  by_core,   ///< the core was at its temperature, and was held there
  by_time,   ///< the air was warm enough, first and last, for long enough
  in_oven,   ///< it is in the oven, and nothing answers yet
  open       ///< it is out of the oven, and nothing answers
};
Verdict verdict_of(CureAnswer answer);

/// How long the middle of one of a load's blanks takes to get warm, by its plan; cautiously.
struct CoreTime {
  BlankId blank;
  Duration time;
  std::optional<Duration> stay{};  ///< in the oven; none while it is in
  bool can_be_cut = false;         ///< open: out of it, and not turned yet
  bool witness = false;
};

/// Is the resin of a blank cured? By the load that it was cured in.
struct CureGate {
  CureAnswer answer = CureAnswer::open;
  std::optional<BlankId> cut;         ///< the blank that was cut open
  std::optional<Instant> out_from;    ///< from when on it may come out, as far as the readings tell
  std::optional<Temperature> lowest;  ///< of the air, as read
  bool air_too_cold = false;          ///< at that, time alone never answers
  bool core_of_others = false;        ///< what was read of cores tells only of blanks that warm sooner
  bool cut_of_others = false;         ///< so does what was cut open and was hard
  bool cut_of_longer = false;         ///< what was cut open and was hard was in longer
  std::optional<BlankId> to_cut{};    ///< where it is open: what tells of it, once it is cut; itself, if nothing else
  bool none_to_cut = false;           ///< where it is open: nothing that could tell can be cut any more
};

struct CureGateInput {
  const LoadState& load;
  const Cure& cure;                    ///< of the blank's order
  Instant into_oven;                   ///< when this blank went in
  std::optional<Instant> out_of_oven;  ///< none while it is in
  Instant now;
  std::vector<CoreTime> of_load{};  ///< of all its blanks; without, no core and no cut tells of another blank
};

/// Does a reading of a core tell of a blank? That of one that warms as slowly does. One that names no blank may be of
/// any: it tells of those than which none of the load warms sooner. Always, where it has no core time.
bool tells_of(const CoreReading& reading, const Cure& cure, std::span<const CoreTime> of_load);

/// Judges by the first of these that answers:
///
///   cut open  a blank of the load, whenever it is cut: not hard to the middle, or hard where it warms as slowly and
///             was in no longer
///   by core   hold from the reading on since which no reading of the core was below its temperature; where the data
///             sheet counts from the air, from the first reading of the air at its temperature
///   by time   cure_time() at the lowest reading of the air, from the first reading to the last
///
/// Readings count while the blank is in, those of cores where they tell of it. One that went in after the load's
/// first lags behind what was read of the core by as much. Moments are entered to a minute, thermometers read to a
/// degree: a minute and half a degree are let pass. Heat of the resin's own is left out. Source: the resin's data
/// sheet for temperatures and hold; cure().
CureGate cure_gate(const CureGateInput& in);

/// In words, without the blank's ID; they name the load.
Saying says_of(const CureGate& gate, const LoadState& load, const Zone& zone, UnitSystem units);

}  // namespace blankwright
