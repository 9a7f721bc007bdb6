#include "wood.h"

#include <algorithm>
#include <cmath>

namespace simulated {
namespace {

constexpr double fastest_open_hours = 20;

/// Towards the room's equilibrium.
double moisture_after(double hours, double moisture_share, double room_share, double hours_constant) {
  return room_share + (moisture_share - room_share) * std::exp(-hours / hours_constant);
}

}  // namespace

double dry_volume_cm3(const Blank& blank) { return blank.width_mm * blank.depth_mm * blank.length_mm / 1000; }

double void_share(const Blank& blank) { return 1 - blank.density_g_cm3 / cell_wall_g_cm3; }

double mass_g(const Blank& blank) {
  return blank.dry_mass_g * (1 + blank.moisture_share) + blank.resin_g + blank.film_g;
}

void saw(Blank& blank, const Species& species, const Sawn& sawn, Chance& chance) {
  blank.density_g_cm3 = species.dry_density_g_cm3 * chance.between(0.9, 1.1);
  if (sawn.punky) blank.density_g_cm3 *= 1 - chance.between(0, 0.3);
  blank.moisture_share = sawn.moisture_share * chance.between(0.85, 1.1);
  blank.moisture_at_most_share = blank.moisture_share;
  blank.open_hours_constant = chance.between(fastest_open_hours, 100);
  // Of 45 mm, 24 h leave less than half a hundredth; thinner wood dries faster, between by thickness and by its
  // square.
  blank.drying_hours_constant = chance.between(2.5, 4.5) * std::pow(sawn.section_mm / 45, 1.5);
  blank.cooling_minutes_constant = chance.between(24, 38);
  // Most of it drinks well; a few pieces are closed by tyloses or heart.
  blank.reach_share = chance.yes(0.9) ? chance.between(0.7, 1.0) : chance.between(0.3, 0.7);
  blank.soak_hours_constant = chance.yes(0.85) ? chance.between(1, 3) : chance.between(3, 12);
  blank.bleed_share = chance.between(0.02, 0.04);
  blank.place_share = chance.between(0.8, 1.2);
  blank.bond_MPa = chance.between(2, 6);  // the shop states 2, as its weakest pulled witness showed

  blank.sawn_width_mm = sawn.section_mm + chance.error(0.15);
  blank.sawn_depth_mm = sawn.section_mm + chance.error(0.15);
  blank.sawn_length_mm = sawn.length_mm + chance.error(0.2);
  const double shrunk = species.tangential_share * std::min(blank.moisture_share / fibre_saturation_share, 1.0);
  blank.width_mm = (blank.sawn_width_mm - sawn.planed_off_mm) * (1 - shrunk * chance.between(0.6, 1.0));
  blank.depth_mm = (blank.sawn_depth_mm - sawn.planed_off_mm) * (1 - shrunk * chance.between(0.6, 1.0));
  blank.length_mm = blank.sawn_length_mm * (1 - 0.001 * chance.between(0, 1));
  blank.dry_mass_g = blank.density_g_cm3 * dry_volume_cm3(blank);
}

void dry_in_oven(Blank& blank, double hours, double air_C) {
  blank.moisture_share *= std::exp(-hours / blank.drying_hours_constant);
  blank.moisture_at_most_share = blank.moisture_share;
  blank.temperature_C = air_C;
}

void lie_in_room(Blank& blank, double hours, double room_moisture_share) {
  if (blank.place == Place::in_oven || blank.place == Place::in_bath) return;
  const double slower = blank.place == Place::sealed ? 50 : 1;
  blank.moisture_share =
      moisture_after(hours, blank.moisture_share, room_moisture_share, blank.open_hours_constant * slower);
  blank.moisture_at_most_share =
      moisture_after(hours, blank.moisture_at_most_share, room_moisture_share, fastest_open_hours * slower);
  blank.temperature_C =
      room_C + (blank.temperature_C - room_C) * std::exp(-hours * 60 / blank.cooling_minutes_constant);
}

void soak(Blank& blank, double pressure_in_pores_kPa, double air_pressure_kPa, double hours, double resin_g_cm3,
          double film_mm) {
  const double removed = std::max(0.0, 1 - pressure_in_pores_kPa / air_pressure_kPa);
  const double most = removed * blank.reach_share;
  const double deep = 1 - std::exp(-std::sqrt(hours / blank.soak_hours_constant));
  // A blank that soaks again under a new vacuum fills part of what the first one left.
  blank.filled_share = std::max(blank.filled_share, blank.filled_share + (most - blank.filled_share) * deep);
  blank.resin_g = blank.filled_share * void_share(blank) * dry_volume_cm3(blank) * resin_g_cm3;
  const double surface_cm2 =
      (2 * blank.width_mm * blank.depth_mm + 2 * (blank.width_mm + blank.depth_mm) * blank.length_mm) / 100;
  blank.film_g = surface_cm2 * film_mm / 10 * resin_g_cm3;
  ++blank.soaks;
}

void bleed_out(Blank& blank) {
  blank.resin_g *= 1 - blank.bleed_share;
  blank.film_g = 0;
}

}  // namespace simulated
