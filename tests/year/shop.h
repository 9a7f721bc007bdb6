#pragma once

#include <string>
#include <vector>

#include "chance.h"
#include "units.h"
#include "wood.h"

namespace simulated {

/// The facts of one invented shop, as its people would write them into a shop file.
struct Shop {
  Units units = Units::metric;
  bool letter = false;  ///< paper
  bool lathe = false;   ///< rounds and bores on the lathe; otherwise on the press
  double altitude_m = 300;

  double finish_mm = 1.5, bow_mm = 0.5, section_tolerance_mm = 0.5, squaring_mm = 3, planing_mm = 1;
  double seat_facing_mm = 3, end_squaring_mm = 4, tail_waste_mm = 12;
  double bore_offset_mm = 0.5, bore_tilt_mm_per_100mm = 0.6;

  double drying_oven_C = 103, cool_hours = 2, room_moisture_share = 0.085;
  double least_fill_share = 0.5;
  double target_absolute_kPa = 4, vacuum_hours = 6, soak_factor = 2;
  bool pump_unattended = false;
  double resin_g_cm3 = 1.04, film_mm = 0.1, bleed_share = 0.03;
  double storage_most_C = 21;
  double cure_air_C = 93, cure_core_C = 85, cure_hold_hours = 1, cure_most_hours = 8;
  bool fan = true;
  bool small_oven = false;                                  ///< takes half a bath: two loads
  double dial_low_true_C = 76.5, dial_high_true_C = 108.5;  ///< what a thermometer shows at dials of 80 and 110 °C
  double bond_stated_MPa = 2;
  double glue_hours = 24;
  double lathe_fastest_rpm = 2500;
  std::string yield_guess = "40 of 50";
  double confidence_share = 0.8;
};

/// Pressure of the air at an altitude. Source: US Standard Atmosphere 1976, troposphere.
double air_pressure_kPa(double altitude_m);
/// The air that an oven really has when its dial is set so.
double true_air_C(const Shop& shop, double dial_C);

/// A shop by chance; the first four of a seed's are one of each unit system and method.
Shop shop_by_chance(Chance& chance, int number);
std::string shop_file(const Shop& shop);

}  // namespace simulated
