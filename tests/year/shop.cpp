#include "shop.h"

#include <fmt/format.h>

#include <cmath>

namespace simulated {
namespace {

/// Operations of any shop of this kind; the names are the trade's. What is planned lasts as long as the plan says.
constexpr std::string_view routing = R"(
[[routing]]
name = "Saw the blanks"
who = "shop"
fixed = "20 min"
per_piece = "3 min"

[[routing]]
name = "Oven-dry"
who = "shop"
planned = "drying"
hands_on = "ends"
hands_on_time = "20 min"
may_run_long = true
most = "96 h"

[[routing]]
name = "Cool sealed"
who = "shop"
planned = "cooling"
hands_on = "start"
may_run_long = true
longest_wait = "10 min"

[[routing]]
name = "Bath: vacuum"
who = "shop"
planned = "vacuum"
hands_on = "ends"
hands_on_time = "30 min"
may_run_long = true
hold = "bubbling ended"

[[routing]]
name = "Bath: soak"
who = "shop"
planned = "soak"
hands_on = "start"
may_run_long = true
longest_wait = "5 min"

[[routing]]
name = "Drain, wipe, weigh wet"
who = "shop"
fixed = "20 min"
per_piece = "2 min"
longest_wait = "0 min"

[[routing]]
name = "Cure"
who = "shop"
planned = "cure"
hands_on = "ends"
hands_on_time = "15 min"
longest_wait = "8 h"

[[routing]]
name = "Let them cool"
who = "shop"
fixed = "2 h"
hands_on = "start"
unattended = true

[[routing]]
name = "Cut the witness open"
who = "shop"
per_piece = "15 min"
only_witnesses = true

[[routing]]
name = "Square"
who = "turner"
per_piece = "5 min"

[[routing]]
name = "Bore"
who = "turner"
per_piece = "5 min"
hold = "bore measured before gluing"

[[routing]]
name = "Glue the stud in"
who = "turner"
per_piece = "5 min"

[[routing]]
name = "Let the glue set"
who = "turner"
planned = "glue-setting"
hands_on = "start"
hands_on_time = "0 min"
may_run_long = true

[[routing]]
name = "Turn"
who = "turner"
per_piece = "20 min"

[[routing]]
name = "Gauge the thread and inspect"
who = "shop"
per_piece = "4 min"
)";

std::string q(const std::string& text) { return fmt::format("\"{}\"", text); }
const char* yes_no(bool value) { return value ? "true" : "false"; }

std::string length(double length_mm, const Shop& shop) { return q(length_text(length_mm, shop.units)); }
std::string temperature(double temperature_C, const Shop& shop) {
  return q(temperature_text(temperature_C, shop.units));
}

std::string bench_part(const Shop& shop) {
  std::string out = fmt::format(
      "[allowances]\nfinish = {}\nbow = {}\nsection_tolerance = {}\nsquaring = {}\nplaning = {}\nsaw_increment = {}\n"
      "seat_facing = {}\nend_squaring = {}\ntail_waste = {}\n\n",
      length(shop.finish_mm, shop), length(shop.bow_mm, shop), length(shop.section_tolerance_mm, shop),
      length(shop.squaring_mm, shop), length(shop.planing_mm, shop),
      shop.units == Units::metric ? "\"1 mm\"" : "\"1/16 in\"", length(shop.seat_facing_mm, shop),
      length(shop.end_squaring_mm, shop), length(shop.tail_waste_mm, shop));
  out += fmt::format("[boring]\nmethod = \"{}\"\noffset = {}\ntilt_per_100mm = {}\nend_squareness_per_100mm = {}\n\n",
                     shop.lathe ? "lathe" : "press", length(shop.bore_offset_mm, shop),
                     length(shop.bore_tilt_mm_per_100mm, shop), length(0.2, shop));
  out += fmt::format("[lathe]\nfastest = \"{:.0f} rpm\"\n\n", shop.lathe_fastest_rpm);
  const std::string strength = shop.units == Units::metric
                                   ? fmt::format("{:.2f} MPa", shop.bond_stated_MPa)
                                   : fmt::format("{:.0f} psi", shop.bond_stated_MPa * 145.0377);
  out += fmt::format("[glue]\nshear_strength = {}\nshear_measured = true\nset_time = \"{:.0f} h\"\n\n", q(strength),
                     shop.glue_hours);
  return out + fmt::format("[yield]\nexpected = \"{}\"\nconfidence = \"{:.0f} %\"\n\n", shop.yield_guess,
                           shop.confidence_share * 100);
}

std::string bath_part(const Shop& shop) {
  // Sealed, the wood that takes up water fastest has 1 % after 50 · 20 h · ln(8.5/7.5) = 125 h, see wood.h.
  std::string out =
      fmt::format("[drying]\noven = {}\ncool = \"{} h\"\nroom_humidity = \"45 %\"\nsealed_regain = \"120 h\"\n\n",
                  temperature(shop.drying_oven_C, shop), shop.cool_hours);
  out += fmt::format("[uptake]\nleast_fill = \"{:.0f} %\"\n\n", shop.least_fill_share * 100);
  out += fmt::format(
      "[[vessels]]\nname = \"pot\"\nshape = \"rectangular\"\nwidth = {}\ndepth = {}\nheight = {}\n"
      "usable_height = {}\n\n",
      length(320, shop), length(320, shop), length(500, shop), length(320, shop));
  out += fmt::format("[pump]\nultimate = {}\nspeed = \"60 l/min\"\nunattended = {}\n\n",
                     q(shop.units == Units::metric ? "0.3 kPa" : "0.09 inHg"), yes_no(shop.pump_unattended));
  const double absolute = shop.target_absolute_kPa;
  out += fmt::format("[vacuum]\ntarget = {}\nhold = \"{:.0f} h\"\nsoak = \"{:.0f} %\"\n\n",
                     q(shop.units == Units::metric ? fmt::format("{:.2f} kPa", absolute)
                                                   : fmt::format("{:.2f} inHg", absolute / kPa_per_inHg)),
                     shop.vacuum_hours, shop.soak_factor * 100);
  return out;
}

std::string oven_part(const Shop& shop) {
  std::string out = fmt::format(
      "[[resins]]\nname = \"Clear\"\ndensity = {}\nactivator = \"1 %\"\ndyes = [\"amber\", \"soot\"]\n"
      "cure_air = {}\ncure_core = {}\ncure_hold = \"{:.0f} min\"\nhold_from = \"core\"\ncure_most = \"{:.0f} h\"\n"
      "storage_most = {}\nbleed_out = \"{:.0f} %\"\nfilm = {}\n\n",
      q(density_text(shop.resin_g_cm3, shop.units)), temperature(shop.cure_air_C, shop),
      temperature(shop.cure_core_C, shop), shop.cure_hold_hours * 60, shop.cure_most_hours,
      temperature(shop.storage_most_C, shop), shop.bleed_share * 100,
      q(shop.units == Units::metric ? fmt::format("{:.2f} mm", shop.film_mm)
                                    : fmt::format("{:.4f} in", shop.film_mm / mm_per_in)));
  const double side_mm = shop.small_oven ? 260 : 560;
  out += fmt::format(
      "[[ovens]]\nname = \"oven\"\nwidth = {}\ndepth = {}\nheight = {}\nclearance = {}\ngap = {}\nfan = {}\n"
      "unattended_drying = true\ncalibration = [{{dial = {}, shown = {}}}, {{dial = {}, shown = {}}}]\n",
      length(side_mm + 60, shop), length(side_mm, shop), length(260, shop), length(30, shop), length(15, shop),
      yes_no(shop.fan), temperature(80, shop), temperature(shop.dial_low_true_C, shop), temperature(110, shop),
      temperature(shop.dial_high_true_C, shop));
  return out;
}

}  // namespace

double air_pressure_kPa(double altitude_m) { return 101.325 * std::pow(1 - 2.25577e-5 * altitude_m, 5.25588); }

double true_air_C(const Shop& shop, double dial_C) {
  return shop.dial_low_true_C + (dial_C - 80) / 30 * (shop.dial_high_true_C - shop.dial_low_true_C);
}

Shop shop_by_chance(Chance& chance, int number) {
  Shop shop;
  shop.units = number % 2 == 0 ? Units::metric : Units::inch;
  shop.lathe = number / 2 % 2 == 1;
  shop.letter = chance.yes(0.5);
  shop.altitude_m = chance.between(0, 1500);
  shop.seat_facing_mm = chance.between(2, 4);
  shop.tail_waste_mm = chance.between(10, 16);
  shop.target_absolute_kPa = chance.between(3, 6);
  shop.vacuum_hours = chance.whole(4, 6);
  shop.resin_g_cm3 = chance.between(1.02, 1.08);
  shop.least_fill_share = chance.whole(9, 11) * 0.05;
  shop.cure_hold_hours = chance.whole(3, 4) * 0.25;
  shop.fan = chance.yes(0.75);
  shop.small_oven = number % 3 == 0;
  shop.pump_unattended = number % 3 != 0;
  if (number % 3 == 1) shop.vacuum_hours = 10;  // longer than a day of work: it runs through the night
  shop.dial_low_true_C = chance.whole(74, 80);
  shop.dial_high_true_C = chance.whole(106, 112);
  shop.lathe_fastest_rpm = chance.whole(0, 1) == 0 ? 2500 : 3000;
  if (shop.lathe) {
    shop.bore_offset_mm = 0.5;
    shop.bore_tilt_mm_per_100mm = 0.3;
  }
  return shop;
}

std::string shop_file(const Shop& shop) {
  std::string out = fmt::format(
      "format = 1\nname = \"A simulated shop\"\nzone = \"Europe/Berlin\"\nunits = \"{}\"\ntemplate = \"{}\"\n"
      "altitude = \"{:.0f} {}\"\n\n[register]\nseries = \"NG7-32GX\"\n\n[hours]\n",
      shop.units == Units::metric ? "metric" : "inch", shop.letter ? "letter" : "a4",
      shop.units == Units::metric ? shop.altitude_m : shop.altitude_m / 0.3048,
      shop.units == Units::metric ? "m" : "ft");
  for (const char* day : {"monday", "tuesday", "wednesday", "thursday", "friday"})
    out += fmt::format("{} = [\"08:00-17:00\"]\n", day);
  return out + "\n" + bench_part(shop) + bath_part(shop) + oven_part(shop) + std::string{routing};
}

}  // namespace simulated
