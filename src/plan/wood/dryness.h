#pragma once

#include <optional>

#include "entries/blank_state.h"
#include "plan/part/blank_size.h"
#include "plan/wood/drying.h"

namespace blankwright {

enum class DryAnswer {
  weigh,        ///< it was not weighed yet
  weigh_again,  ///< one weighing, or two that lie too near each other
  left_oven,    ///< the same, and out of the oven nothing more shows
  dry_longer,   ///< it still loses mass
  too_dense,    ///< no wood weighs that much: it was misread, or mistyped
  weigh_lain,   ///< it was dry, and has lain so long since that it may have taken up moisture: its mass tells
  dry_again,    ///< the same, and by its mass or by that time it has taken up too much
  in_oven,      ///< it is dry, and still in the oven
  hot,          ///< it is dry, and has come out of the oven too short a time ago
  dry           ///< into the bath
};

/// Is a blank dry enough for the bath?
struct Dryness {
  DryAnswer answer = DryAnswer::weigh;
  std::optional<Share> lost;           ///< between the last two weighings, of the last mass
  std::optional<Share> moisture_gone;  ///< since the first weighing, of the last mass
  std::optional<Instant> weigh_from;   ///< when the next weighing can count
  std::optional<Share> heavier;        ///< when last weighed than dry, of that: in no drying oven since
  std::optional<Share> regained;       ///< that, and what it may have taken up since, open in the room or sealed
  bool mostly_sealed = false;          ///< where it has taken that up
  std::optional<Instant> cool_from;    ///< where it was entered when it came out of the oven
  bool sealed = false;                 ///< from the room's air
  bool holds() const { return answer != DryAnswer::dry; }
};

/// How much moisture is taken up that a bath still bears: what drying() counts the regain to.
inline constexpr Share most_regain = 1 * percent;

/// Above this water boils off under the vacuum and keeps resin out. Common practice, no source.
inline constexpr Share too_moist = 2 * percent;

/// A blank's volume before its bath: as it was measured, or where it was not, by its order's plan; none where that
/// has no size of a dry blank.
std::optional<Volume> dry_volume(const BlankState& blank, const BlankSize& nominal);

/// Judges a blank by its weighings before the bath: dry when two between which it dried for at least the shop's
/// interval differ by no more than the shop's share of the last (EN 13183-1: 2 h and 0.1 %). Outside a drying oven that
/// was entered nothing dries: what was taken out too early weighs the same there. It only takes up moisture: what it
/// weighs there beyond that dry mass is water, however little two weighings differ.
///
///   regained = √(heavier² + (1 %)² · (time open/planned.regain + time sealed/facts.sealed_regain))
///
/// as moisture goes in with the square root of time; see drying(). That is an estimate on the early side, by times
/// alone: above most_regain it asks for a weighing, and holds above too_moist or where the weighing shows as much.
/// Out of the oven it has to cool for planned.cool. `volume`: the blank's, against which its mass is held. None once
/// it has been in a bath.
std::optional<Dryness> dryness(const BlankState& blank, std::optional<Volume> volume, const Drying& planned,
                               const DryingFacts& facts, Instant now);

}  // namespace blankwright
