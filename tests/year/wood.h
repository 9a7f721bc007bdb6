#pragma once

#include <string>

#include "chance.h"
#include "form.h"

namespace simulated {

/// A kind of wood: oven-dry density and tangential shrinkage from green, Wood Handbook (FPL-GTR-282) tables 4-3 and
/// 5-3; of beech EN 350 and Sell.
struct Species {
  std::string name;
  double dry_density_g_cm3 = 0.6;
  double tangential_share = 0.08;
};

inline constexpr double cell_wall_g_cm3 = 1.53;         ///< Siau, Transport Processes in Wood
inline constexpr double fibre_saturation_share = 0.28;  ///< Wood Handbook, chapter 4: about 30 %
inline constexpr double room_C = 20;

enum class Place { open, sealed, in_oven, in_bath };

/// All that is true of one blank, whether anybody has seen it or not.
struct Blank {
  std::string id;
  std::string order;
  bool witness = false;
  int bath = 1, load = 1;
  std::string bath_name, load_name;  ///< where it was last
  bool cure_open = false;  ///< its load had to come out before its readings showed enough; none was cut since

  // wood
  double density_g_cm3 = 0.6;  ///< oven-dry
  double dry_mass_g = 0;
  double moisture_share = 0.09;     ///< of the dry mass
  double open_hours_constant = 40;  ///< in the open room; sealed fifty times that
  /// As moist as it would be if it took up water as fast as any wood does: nobody can know that it does not.
  double moisture_at_most_share = 0.09;
  double drying_hours_constant = 3.5;  ///< in the drying oven
  double temperature_C = room_C;
  Place place = Place::open;
  double cooling_minutes_constant = 32;
  double weighings_apart_share = 0;  ///< by how much the last two dry weighings differ as they were read, of the mass
  double last_read_g = 0;
  double sawn_width_mm = 0, sawn_depth_mm = 0, sawn_length_mm = 0;
  double width_mm = 0, depth_mm = 0, length_mm = 0;  ///< once it is planed and dry

  // resin
  double reach_share = 0.9;  ///< of its voids that resin can get at
  double soak_hours_constant = 3;
  double filled_share = 0;  ///< of its voids
  double film_g = 0;        ///< left on it when it was wiped
  double bleed_share = 0.03;
  double resin_g = 0;

  // oven
  double place_share = 1;  ///< of the film coefficient, by its place
  double held_C = room_C;  ///< the warmest temperature at which its core was for the whole hold

  // bore, stud, form
  Axis axis;
  SquaredWood squared;
  double bond_MPa = 3;
  bool turned = false, sent = false, out = false;  ///< out: scrapped or cut, it goes no further
  int soaks = 0;
};

double dry_volume_cm3(const Blank& blank);
double void_share(const Blank& blank);
/// What lies on the scale, without tag and wire.
double mass_g(const Blank& blank);

struct Sawn {
  double section_mm = 0, length_mm = 0;  ///< as paper asks
  double planed_off_mm = 1;
  double moisture_share = 0.09;
  bool punky = false;
};

/// A blank as it comes from the board, of about the sawn size, and what it will measure once it is planed and dry.
void saw(Blank& blank, const Species& species, const Sawn& sawn, Chance& chance);
void dry_in_oven(Blank& blank, double hours, double air_C);
/// Open or sealed; elsewhere nothing happens by itself.
void lie_in_room(Blank& blank, double hours, double room_moisture_share);
/// What goes in: of the air that the vacuum took away, the share within reach, the deeper the longer it soaks. A
/// second soak goes on where the first one ended.
void soak(Blank& blank, double pressure_in_pores_kPa, double air_pressure_kPa, double hours, double resin_g_cm3,
          double film_mm);
/// What runs out again in the oven, and the film with it.
void bleed_out(Blank& blank);

}  // namespace simulated
