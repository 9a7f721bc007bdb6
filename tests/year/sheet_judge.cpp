#include "sheet_judge.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "form.h"

namespace simulated {
namespace {

/// A person reads paper to its last digit: half of a tenth of a millimetre, or of a 64th where a fraction is printed.
double paper_mm(const Shop& shop) { return shop.units == Units::metric ? 0.06 : 0.2; }

using Sentences = std::vector<std::string>;

/// Pull of a stud that is tightened. F = T / (K d), K from 0.15 (lubricated) to 0.3 (rough); common practice, no
/// source. The strongest pull counts.
double strongest_pull_N(double torque_Nm, const Thread& thread) {
  return torque_Nm / (0.15 * thread.major_mm / 1000);
}

void judge_tightening(const Sheets& sheets, const Order& order, const Shop& shop, const std::string& messages,
                      Sentences& out) {
  // A client tightens to what the order named, unless paper asks for less and the shop was told so.
  double torque_Nm = sheets.tighten_most_Nm;
  if (std::isnan(torque_Nm)) {
    if (order.tightening_Nm == 0) {
      out.push_back("no largest tightening is printed");
      return;
    }
    torque_Nm = order.tightening_Nm;
  }
  if (order.tightening_Nm > torque_Nm * 1.02 && messages.find("tightening") == std::string::npos)
    out.push_back("the client's tightening is above the printed one, and no message says so");
  const double pull_N = strongest_pull_N(torque_Nm, order.thread);
  const double bond_N = shop.bond_stated_MPa * std::numbers::pi * order.thread.major_mm * order.embedded_mm;
  // Bore and glue line make the bond wider than the stud; the stud's own surface is the weaker one.
  if (pull_N > bond_N)
    out.push_back(
        fmt::format("tightened to the printed {:.2f} N m the stud pulls with up to {:.0f} N on a bond of {:.0f} N",
                    torque_Nm, pull_N, bond_N));
  // Tensile strength by class, ISO 898-1: 4.8 at least 420 MPa, 8.8 at least 800 MPa.
  const double strength_MPa = order.grade == "4.8" ? 420 : 800;
  if (pull_N / tensile_area_mm2(order.thread) > strength_MPa)
    out.push_back(fmt::format("tightened to the printed {:.2f} N m the stud itself breaks", torque_Nm));
}

void judge_speed(const Sheets& sheets, const Shop& shop, Sentences& out) {
  const double most = std::min(3000.0, shop.lathe_fastest_rpm);  // common practice stops at 2500 to 3000
  if (std::isnan(sheets.spindle_rpm) || sheets.spindle_rpm > most)
    out.push_back(fmt::format("spindle speed {} rpm, the shop's most is {}", sheets.spindle_rpm, most));
}

/// A bore at the very limits that are printed has to clean up, and to leave what the shop wants for finishing.
void judge_axis_limits(const Sheets& sheets, const Order& order, const Shop& shop, Sentences& out) {
  Axis axis;
  SquaredWood wood;
  if (shop.lathe) {
    axis.offset_mm[0] = sheets.axis_limit_mm / 2;  // runout is twice the offset
    wood.round_diameter_mm = sheets.round_to_mm;
    if (std::isnan(sheets.round_to_mm)) {
      out.push_back("a shop that bores on the lathe gets no diameter to round to");
      // It then rounds to what the square gives where the centres are marked as well as the shop can.
      wood.round_diameter_mm =
          sheets.squared_section_mm - shop.section_tolerance_mm - 2 * shop.bow_mm - 2 * shop.bore_offset_mm;
    } else {
      // The circle has to find wood in the square, marked as far off as paper lets it.
      const double room_mm = sheets.squared_section_mm - shop.section_tolerance_mm - 2 * sheets.centres_off_mm;
      if (sheets.round_to_mm > room_mm + 2 * paper_mm(shop))
        out.push_back(fmt::format("rounding to {:.2f} mm finds no wood in a square of {:.2f} mm", sheets.round_to_mm,
                                  sheets.squared_section_mm));
    }
  } else {
    axis.offset_mm[0] = sheets.axis_limit_mm;
    wood.width_mm = wood.depth_mm = sheets.squared_section_mm - shop.section_tolerance_mm;
    wood.bow_mm = shop.bow_mm;
  }
  axis.lean_mm_per_100mm[0] = sheets.lean_limit_mm_per_100mm;
  const double left_mm = clear_mm(outline(order), axis, wood) + (order.smooth ? smooth_error_mm : 0);
  if (std::isnan(left_mm) || left_mm < shop.finish_mm - 2 * paper_mm(shop))
    out.push_back(fmt::format(
        "a stud at the printed limits ({:.2f} mm and {:.2f} mm per 100 mm) leaves {:.2f} mm of wood, {:.2f} mm asked",
        sheets.axis_limit_mm, sheets.lean_limit_mm_per_100mm, left_mm, shop.finish_mm));
}

void judge_calipers(const Sheets& sheets, const Order& order, const Shop& shop, Sentences& out) {
  const double slack_mm = paper_mm(shop);
  const std::vector<Station> form = outline(order);
  if (sheets.calipers.size() < order.stations.size())
    out.push_back(
        fmt::format("{} of {} stations among the caliper settings", sheets.calipers.size(), order.stations.size()));
  for (const CaliperRow& row : sheets.calipers) {
    // Where the ferrule ends the wood under it and the form beside it have rows; that of the wood has no limits.
    const bool wood = std::isnan(row.least_mm) && order.ferrule && row.at_mm < order.ferrule->length_mm + slack_mm;
    const bool under = wood || (order.ferrule && row.at_mm < order.ferrule->length_mm - slack_mm);
    const double wanted_mm = under ? order.ferrule->inside_mm : diameter_at_mm(form, row.at_mm);
    if (std::isnan(row.diameter_mm) || std::abs(row.diameter_mm - wanted_mm) > slack_mm + 0.03)
      out.push_back(fmt::format("caliper row {}: {:.2f} mm at {:.2f} mm, the wood there is {:.2f} mm", row.number,
                                row.diameter_mm, row.at_mm, wanted_mm));
    if (!under && (std::abs(row.least_mm - (wanted_mm - order.tolerance_mm)) > slack_mm ||
                   std::abs(row.most_mm - (wanted_mm + order.tolerance_mm)) > slack_mm))
      out.push_back(fmt::format("caliper row {}: from {:.2f} to {:.2f} mm about {:.2f} ± {:.2f} mm", row.number,
                                row.least_mm, row.most_mm, wanted_mm, order.tolerance_mm));
  }
}

/// A blank that weighs the least of its row has to be as full as the shop asks. m(1 − f ρr/ρw) + f ρr V; V is that of
/// the dry blank as paper names it.
void judge_ladder(const Sheets& sheets, const Shop& shop, Sentences& out) {
  const double volume_cm3 = sheets.section.dry_mm * sheets.section.dry_mm * sheets.length.dry_mm / 1000;
  const double asked = shop.least_fill_share;
  if (sheets.ladder.size() < 3) out.push_back("no ladder from dry to wet mass");
  for (const LadderRow& row : sheets.ladder) {
    const double least_g =
        row.dry_g * (1 - asked * shop.resin_g_cm3 / cell_wall_g_cm3) + asked * shop.resin_g_cm3 * volume_cm3;
    // Sizes are printed to a tenth of a millimetre: 0.6 % of the volume.
    const double slack_g = 0.006 * least_g + 0.15;
    if (std::abs(row.wet_least_g - least_g) > slack_g)
      out.push_back(fmt::format("ladder: {:.1f} g dry, wet at least {:.1f} g; full enough is {:.1f} g", row.dry_g,
                                row.wet_least_g, least_g));
    if (row.cured_least_g > row.wet_least_g + 0.3 || row.cured_least_g < row.dry_g)
      out.push_back(fmt::format("ladder: {:.1f} g dry, cured at least {:.1f} g", row.dry_g, row.cured_least_g));
  }
}

void judge_cards(const Sheets& sheets, const Shop& shop, Sentences& out) {
  const double gauge_kPa = air_pressure_kPa(shop.altitude_m) - shop.target_absolute_kPa;
  if (!(std::abs(sheets.gauge_kPa - gauge_kPa) < 0.25))
    out.push_back(fmt::format("gauge {:.2f} kPa, should be {:.2f}", sheets.gauge_kPa, gauge_kPa));
  const double air_C = true_air_C(shop, sheets.dial_cure_C);
  if (!(std::abs(air_C - shop.cure_air_C) < 1.2))
    out.push_back(fmt::format("dial {:.0f} °C gives {:.1f} °C, the cure asks for {:.0f} °C", sheets.dial_cure_C,
                              air_C, shop.cure_air_C));
  if (!(std::abs(true_air_C(shop, sheets.dial_dry_C) - shop.drying_oven_C) < 1.2))
    out.push_back(
        fmt::format("dial {:.0f} °C does not give the drying's {:.0f} °C", sheets.dial_dry_C, shop.drying_oven_C));
  if (!(sheets.soak_least_hours > shop.soak_factor * shop.vacuum_hours - 0.02))
    out.push_back(
        fmt::format("soak of {:.2f} h after a vacuum of {:.2f} h", sheets.soak_least_hours, shop.vacuum_hours));
}

/// The calendar's soak has to be as long as the calendar's vacuum asks for.
void judge_runs(const Sheets& sheets, const Shop& shop, Sentences& out) {
  double vacuum_hours = 0, soak_hours = 0;
  for (const PrintedRun& run : sheets.runs) {
    if (run.operation.starts_with("Bath: vacuum")) vacuum_hours = hours_between(run.start, run.end);
    if (run.operation.starts_with("Bath: soak")) soak_hours = hours_between(run.start, run.end);
  }
  // Printed lengths are rounded up to quarter hours; and it counts from the target on, to which the pump, at 60 l/min
  // for the vessel's 51 l, needs 51/60 ln(101/3) = 3 min.
  constexpr double rounded_up_h = 0.25, pumped_down_h = 0.05;
  if (vacuum_hours > 0 && soak_hours < shop.soak_factor * (vacuum_hours - rounded_up_h - pumped_down_h))
    out.push_back(fmt::format("the calendar soaks {:.1f} h after a vacuum of {:.1f} h", soak_hours, vacuum_hours));
}

}  // namespace

double needed_sawn_length_mm(const Order& order, const Shop& shop) {
  return order.stations.back().at_mm + order.spigot_mm + shop.seat_facing_mm + shop.end_squaring_mm +
         shop.tail_waste_mm;
}

std::vector<std::string> wrong_on_sheets(const Sheets& sheets, const Order& order, const Shop& shop,
                                         const std::string& messages) {
  Sentences out;
  judge_tightening(sheets, order, shop, messages, out);
  judge_speed(sheets, shop, out);
  judge_axis_limits(sheets, order, shop, out);
  judge_calipers(sheets, order, shop, out);
  judge_ladder(sheets, shop, out);
  judge_cards(sheets, shop, out);
  judge_runs(sheets, shop, out);
  const double deep_mm = order.embedded_mm + shop.seat_facing_mm + order.spigot_mm;
  if (!(sheets.depth_stop_mm >= deep_mm - paper_mm(shop)))
    out.push_back(
        fmt::format("depth stop {:.2f} mm for a stud {:.2f} mm deep behind {:.2f} mm that are still faced off",
                    sheets.depth_stop_mm, order.embedded_mm, shop.seat_facing_mm));
  if (!(std::abs(sheets.projection_mm - order.enters_mm - order.spigot_mm) < 0.3) &&
      !(std::abs(sheets.projection_mm - order.enters_mm) < 0.3))
    out.push_back(fmt::format("stud stands out {:.2f} mm, asked {:.2f} mm", sheets.projection_mm, order.enters_mm));
  if (!(std::abs(sheets.embedded_mm - order.embedded_mm) < 0.3))
    out.push_back(fmt::format("stud glued in to {:.2f} mm, asked {:.2f} mm", sheets.embedded_mm, order.embedded_mm));
  return out;
}

std::vector<int> provoked_by_sheets(const Sheets& sheets, const Order& order, const Shop& shop) {
  std::vector<int> out;
  // Where texts change from ounces to pounds, and from grams to kilograms.
  const double next_unit_g = shop.units == Units::inch ? 32 * g_per_oz : 1000;
  if (std::ranges::any_of(sheets.ladder, [&](const LadderRow& row) { return row.wet_least_g > next_unit_g; }))
    out.push_back(5);
  const double bond_N = shop.bond_stated_MPa * std::numbers::pi * order.thread.major_mm * order.embedded_mm;
  const double pull_N = strongest_pull_N(order.tightening_Nm, order.thread);
  if (pull_N > bond_N || pull_N / tensile_area_mm2(order.thread) > 420) out.push_back(6);
  if (shop.lathe) out.push_back(7);
  // 6000 inches a minute over the swing of the square, as turners count: above 3000 rpm by itself.
  if (sheets.squared_section_mm * std::numbers::sqrt2 < 6000 * mm_per_in / 3000) out.push_back(8);
  for (const PrintedRun& run : sheets.runs)
    if (run.operation.starts_with("Bath: vacuum") && hours_between(run.start, run.end) > shop.vacuum_hours + 2)
      out.push_back(9);
  if (order.ferrule) out.push_back(10);
  return out;
}

}  // namespace simulated
