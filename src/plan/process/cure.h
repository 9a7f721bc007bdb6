#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/figure/worked.h"
#include "read/shop.h"

namespace blankwright {

/// Time until the middle of a block reaches `target`, in air that is warm from the start.
struct HeatingInput {
  Length across, along;              ///< full section and length, > 0
  double k_across = 0, k_along = 0;  ///< conductivity, W/(m K), > 0
  double heat_capacity = 0;          ///< J/(kg K), > 0
  Density density;                   ///< > 0
  double film = 0;                   ///< film coefficient, W/(m² K), > 0
  Temperature start, air, target;    ///< start < target < air
};

struct Cure {
  const OvenFacts* oven = nullptr;
  std::optional<Temperature> dial;  ///< unknown without a calibration
  Temperature air;                  ///< true temperature of the oven's air
  std::optional<Temperature> core;  ///< that the data sheet asks of the core
  std::optional<Duration> core_time, core_time_cautious;
  std::optional<HeatingInput>
      cautiously;  ///< what the cautious time was worked out from, if the core is to be warmed
  Duration hold;
  bool hold_from_core = false;  ///< else from the air
  Duration total;               ///< at least: with the cautious core time
  Duration total_likely;        ///< with the likely one
};

/// Where a blank lies on a shelf: its corner at the left and front, from the oven's.
struct TrayPlace {
  Length x, y;
  bool turned = false;  ///< its length runs across the oven's width instead of its depth
};

/// How the shelves of an oven are loaded with blanks that lie on them.
struct OvenLoad {
  int shelves = 1;
  Length section, length;         ///< of the largest blank: every place is as large
  std::vector<TrayPlace> places;  ///< of one shelf, in the order in which they are filled
  int on_shelf() const { return static_cast<int>(places.size()); }
  int capacity() const { return shelves * on_shelf(); }
};

/// Thermometers are read to a degree.
inline constexpr TemperatureChange reading_slack = 0.5 * kelvin;

/// How long blanks have to be in where no core is measured.
struct CureRung {
  Temperature air;  ///< the lowest that was read, whole degrees of the shop's scale
  Duration time;    ///< cure_time() at that
};

struct CureInput {
  const OvenFacts& oven;
  const ResinFacts& resin;
  Length section, length;  ///< of the blank, > 0
  double uptake = 0;       ///< resin taken up over oven-dry mass, >= 0
  Share resin_part;        ///< of the blank's volume that is resin, 0 to 1
  Density dry_density;     ///< of the wood, > 0
  Temperature start;       ///< of the wet blank: the room's
};

/// The cure: dial, time until the core is warm, hold.
///
///   total = core time + hold          where the hold counts from the core, and the data sheet names its temperature
///   total = max(core time, hold)      where it counts from the air
///
/// all from the moment when the blanks go into the oven with its air at temperature. The core's time is
/// heating_time()'s, twice: likely, and cautious with the slower film coefficient (plan/tables/oven.h) and the lower
/// conductivity (impregnated_wood()). Without a core temperature on the data sheet there is no core time; nor where
/// the air is no warmer than it, which judge_cure() refuses. The dial by linear interpolation within the calibration.
/// Heat of the resin's reaction is not modelled; nor is water: a wet core stays near the wet bulb until it is dry.
Worked<Cure> cure(const CureInput& in);

/// The air of the data sheet, rounded down, and what is 3 and 6 °C, or 5 and 10 °F, colder; without those at which
/// time alone never answers.
std::vector<CureRung> cure_ladder(const Cure& cure, UnitSystem units);

/// How long it takes at least from the moment when the blanks go in, in air of another temperature: cure()'s total,
/// with the cautious core time. None where the core never gets warm in it, or where the hold counts from the air and
/// that is colder than the data sheet's by more than thermometers are read to, half a degree.
std::optional<Duration> cure_time(const Cure& cure, Temperature air);

/// The product of three plane walls, each with its own conductivity; with L half of the section or length:
///
///   (T − air)/(start − air) = θ² θ_along,   θ = Σ Cn exp(−ζn² Fo),   Fo = k t/(ρ c L²),   Bi = h L/k
///   ζn tan ζn = Bi,   Cn = 4 sin ζn/(2 ζn + sin 2ζn)
///
/// The full series: one term is not enough below Fo 0.2 in any direction, nor a lumped mass above Bi 0.1. Uniform
/// start, constant properties, the same film on all faces, no heat from within. Outside the ranges BW_EXPECT.
/// Source: Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 5.
Duration heating_time(const HeatingInput& in);

/// How blanks lie in an oven, clearance to walls and elements and the gap between them kept: all in rows the one way
/// or the other, or where more of them then find room in blocks of rows, one way and the other, that a straight line
/// parts and each part at most once more. In the middle of the shelf; no places where none fits. Source: geometry.
OvenLoad oven_load(const OvenFacts& oven, Length section, Length length);

/// The dial's setting for a true temperature; none outside the measured span. The pairs rise in both, which
/// ovens_make_sense() has seen to.
std::optional<Temperature> dial_for(const std::vector<CalibrationPair>& calibration, Temperature wanted);

}  // namespace blankwright
