#include "plan/figure/figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

using enum FigureUnit;
using F = Figure;
constexpr Round near = Round::nearest;
constexpr Round down = Round::down;
constexpr Round up = Round::up;
constexpr Fineness sawn = Fineness::sawn;
constexpr Fineness fine = Fineness::measured;
constexpr FigureScope of_bath = FigureScope::bath;
constexpr std::string_view given = "as given";
constexpr std::string_view geometry = "geometry";
constexpr std::string_view practice = "common practice, no source";

constexpr auto infos = std::to_array<FigureInfo>({
    {F::handle_length, "handle.length_mm", millimetres, near, fine, "length of the handle", "last station"},
    {F::handle_largest_diameter, "handle.largest_diameter_mm", millimetres, up, fine,
     "largest diameter of the handle", geometry},
    {F::handle_volume, "handle.volume_cm3", cubic_centimetres, near, fine, "volume of the handle, bore not taken off",
     geometry},
    {F::handle_surface, "handle.surface_cm2", square_centimetres, near, fine, "surface of the handle, ends included",
     geometry},
    {F::bore_fit, "bore.fit", words, near, fine, "fit of the stud", given},
    {F::bore_diameter, "bore.diameter_mm", millimetres, near, fine, "diameter of the bore", "the drill's"},
    {F::bore_drill, "bore.drill", words, near, fine, "drill", "next one up among those owned"},
    {F::bore_thread_percent, "bore.thread_percent", in_percent, near, fine,
     "height of the tapped thread, of 5H/8 a side (1.0825 P)", "Machinery's Handbook, tapping"},
    {F::stud_thread, "stud.thread", words, near, fine, "thread of the stud", given},
    {F::stud_major, "stud.major_mm", millimetres, near, fine, "major diameter of the stud", "ISO 261, ASME B1.1"},
    {F::stud_pitch, "stud.pitch_mm", millimetres, near, fine, "pitch of the stud's thread", "ISO 261, ASME B1.1"},
    {F::stud_tensile_area, "stud.tensile_area_mm2", square_millimetres, down, fine, "tensile stress area of the stud",
     "ISO 898-1; ASME B1.1 appendix B"},
    {F::stud_embedded, "stud.embedded_mm", millimetres, up, sawn, "length of the stud in the wood",
     "uniform shear, π min(d τ, bore τ_wood) L; common practice, no source"},
    {F::stud_projection, "stud.projection_mm", millimetres, down, sawn, "stud projects from the seat by", given},
    {F::stud_cut_length, "stud.cut_length_mm", millimetres, near, sawn, "length to cut the stud to", geometry},
    {F::stud_bottom_clearance, "stud.bottom_clearance_mm", millimetres, down, sawn, "room left in the client's hole",
     geometry},
    {F::stud_bond_capacity, "stud.bond_capacity_N", newtons, down, fine,
     "pull that the bond bears, before the safety factor", "uniform shear, π min(d τ, bore τ_wood) L"},
    {F::stud_tightening_lever, "stud.tightening_lever_mm", millimetres, down, fine, "tightening torque per pull",
     "VDI 2230, from memory"},
    {F::stud_preload, "stud.preload_N", newtons, up, fine, "tightening pulls at most",
     "low friction; a third of it at high friction"},
    {F::stud_bond_torque, "stud.bond_torque_Nm", newton_metres, down, fine,
     "torque that the bond bears, before the safety factor", "uniform shear, π min(d² τ, bore² τ_wood) L / 2"},
    {F::stud_bond_safety, "stud.bond_safety", ratio, down, fine, "safety of the bond under the pull", geometry},
    {F::stud_torque_safety, "stud.torque_safety", ratio, down, fine, "safety of the bond under the torque", geometry},
    {F::stud_bending_stress, "stud.bending_MPa", megapascals, up, fine, "bending stress of the stud at the seat",
     "32 M / (π d3³)"},
    {F::stud_bending_safety, "stud.bending_safety", ratio, down, fine, "safety of the stud against yielding",
     "ISO 898-1, ISO 3506-1"},
    {F::stud_head_strip, "stud.head_strip_N", newtons, down, fine, "pull that strips the client's thread",
     "FED-STD-H28/2B, thread shear area"},
    {F::stud_head_strip_safety, "stud.head_strip_safety", ratio, down, fine, "safety of the client's thread",
     "FED-STD-H28/2B"},
    {F::stud_tightening_stress, "stud.tightening_MPa", megapascals, up, fine, "stress of the stud when tightened",
     "pull of tightening on the stress area"},
    {F::stud_tightened_bond, "stud.tightened_bond_N", newtons, down, fine,
     "pull that the twisted bond bears, before the factor", "uniform shear"},
    {F::stud_safety_in_use, "stud.safety_in_use", ratio, down, fine,
     "safety of the bond under the pull, once tightened", practice},
    {F::stud_tightened_stud, "stud.tightened_stud_N", newtons, down, fine, "pull that the twisted stud bears",
     "VDI 2230, from memory"},
    {F::stud_largest_tightening, "stud.largest_tightening_Nm", newton_metres, down, fine, "largest tightening",
     "what bond, stud and client's thread bear"},
    {F::axis_offset, "axis.offset_mm", millimetres, up, fine, "axis of the set stud off the centre, at the seat",
     geometry},
    {F::axis_tilt, "axis.tilt_mm_per_100mm", millimetres_per_100mm, up, fine, "set stud leans", geometry},
    {F::blank_shrinkage, "blank.shrinkage", part_of_one, up, fine, "shrinkage of the section from sawn to oven-dry",
     "Wood Handbook eq. 4-7, tangential"},
    {F::blank_sawn_section, "blank.sawn_section_mm", millimetres, up, sawn, "saw the section to", geometry},
    {F::blank_dry_section, "blank.dry_section_mm", millimetres, near, sawn, "section when oven-dry",
     "Wood Handbook eq. 4-7"},
    {F::blank_squared_section, "blank.squared_section_mm", millimetres, up, sawn,
     "section when squared after the cure", geometry},
    {F::blank_sawn_length, "blank.sawn_length_mm", millimetres, up, sawn, "saw the length to", geometry},
    {F::blank_dry_length, "blank.dry_length_mm", millimetres, near, sawn, "length when oven-dry",
     "Wood Handbook eq. 4-7"},
    {F::blank_squared_length, "blank.squared_length_mm", millimetres, up, sawn,
     "length when squared, before the seat is faced", geometry},
    {F::centring_seat_position, "centring.seat_position_diameter_mm", millimetres, down, fine,
     "stud's axis at the seat within a circle of diameter", "ISO 1101 position; geometry"},
    {F::centring_seat_governing, "centring.seat_governing_mm", millimetres, near, sawn,
     "the form is tightest, for that, at", geometry},
    {F::centring_tilt, "centring.tilt_mm_per_100mm", millimetres_per_100mm, down, fine, "a test rod may lean by",
     geometry},
    {F::centring_tilt_governing, "centring.tilt_governing_mm", millimetres, near, sawn,
     "the form is tightest, for the lean, at", geometry},
    {F::centring_chance_clean, "centring.chance_clean", part_of_one, down, fine,
     "chance that a bore of this shop cleans up", "offset and tilt drawn together, by direction"},
    {F::rounded_marking, "rounded.marking_mm", millimetres, down, fine, "centres marked off the middle at most",
     "ISO 1101 position; geometry"},
    {F::rounded_diameter, "rounded.diameter_mm", millimetres, up, fine, "round it first to, at least",
     "geometry of a circle in a square"},
    {F::rounded_runout, "rounded.runout_mm", millimetres, down, fine,
     "stud's runout at the seat, the rounded blank running true", "ISO 1101 runout; geometry"},
    {F::bore_depth, "bore.depth_mm", millimetres, up, sawn,
     "depth of the bore to the drill's lips, from the finished seat", geometry},
    {F::bore_tip_depth, "bore.tip_depth_mm", millimetres, up, sawn,
     "depth to the drill's point, from the finished seat", "geometry of the cone"},
    {F::bore_depth_from_drilled_face, "bore.depth_from_drilled_face_mm", millimetres, up, sawn,
     "set the depth stop to, from the face that is drilled", geometry},
    {F::bore_least_wall, "bore.least_wall_mm", millimetres, down, fine, "least wall between bore and finished form",
     geometry},
    {F::bore_web, "bore.web_mm", millimetres, down, sawn, "wood left behind the drill's point", geometry},
    {F::turning_swing, "turning.swing_mm", millimetres, up, sawn, "swing of the square blank on the stud",
     "geometry, a√2 + 2(e + l t)"},
    {F::turning_speed_ceiling, "turning.speed_ceiling_rpm", turns_per_minute, down, fine,
     "spindle no faster than, while square", "6000 in·rpm / swing, the lathe's fastest; common practice, no source"},
    {F::start_pieces, "start_count.pieces", whole_number, up, fine, "blanks to start, without witnesses",
     "beta-binomial, Jeffreys' prior"},
    {F::start_from_stock, "start_count.from_stock", whole_number, near, fine, "of these from stock", "register"},
    {F::start_witnesses, "start_count.witnesses", whole_number, near, fine, "witnesses besides", "register"},
    {F::start_good_so_far, "start_count.good_so_far", whole_number, near, fine, "good so far",
     "register, else shop file"},
    {F::start_started_so_far, "start_count.started_so_far", whole_number, near, fine, "started so far",
     "register, else shop file"},
    {F::start_confidence, "start_count.confidence", part_of_one, near, fine, "confidence asked for", given},
    {F::start_chance_enough, "start_count.chance_enough", part_of_one, down, fine, "chance that enough come out good",
     "beta-binomial, Jeffreys' prior"},
    {F::start_expected_surplus, "start_count.expected_surplus", pieces, near, fine, "spare pieces, on average",
     "beta-binomial mean"},
    {F::drying_start_moisture, "drying.start_moisture", part_of_one, near, fine, "moisture at the start", given},
    {F::drying_oven, "drying.oven_C", degrees_celsius, near, fine, "oven's air for drying", "EN 13183-1, ASTM D4442"},
    {F::drying_least_time, "drying.least_h", hours, up, fine, "in the oven at least", practice},
    {F::drying_cool, "drying.cool_h", hours, up, fine, "cool sealed for", practice},
    {F::drying_room_moisture, "drying.room_moisture", part_of_one, near, fine, "moisture regained in the open room",
     "Wood Handbook eq. 4-5"},
    {F::drying_dial, "drying.dial_C", degrees_celsius, near, fine, "to dry, set the dial to",
     "the oven's calibration"},
    {F::drying_regain_time, "drying.regain_h", hours, down, fine, "left open takes up 1 % of moisture in",
     "diffusion, from the drying time; an estimate"},
    {F::uptake_basis, "uptake.basis", words, near, fine, "worked out for", given},
    {F::uptake_dry_density, "uptake.dry_density_kg_m3", kilograms_per_m3, near, fine, "oven-dry density of the wood",
     "Wood Handbook tables 4-3, 5-3; EN 350"},
    {F::uptake_dry_mass, "uptake.dry_mass_g", grams, near, fine, "oven-dry mass of a blank", geometry},
    {F::uptake_dry_volume, "uptake.dry_volume_cm3", cubic_centimetres, near, fine, "oven-dry volume of a blank",
     geometry},
    {F::uptake_void_share, "uptake.void_share", part_of_one, near, fine, "share of pores in the blank",
     "Siau, cell wall 1.53 g/cm³"},
    {F::uptake_punkiness, "uptake.punkiness", part_of_one, near, fine, "lighter than sound wood of its kind by",
     "Wood Handbook; EN 350"},
    {F::uptake_resin_limit, "uptake.resin_limit_g", grams, down, fine, "most resin that a blank can hold",
     "void volume, less the air that stays"},
    {F::uptake_resin_low, "uptake.resin_low_g", grams, down, fine, "resin that a blank should take, at least",
     practice},
    {F::uptake_resin_high, "uptake.resin_high_g", grams, up, fine, "resin that a blank should take, at most",
     practice},
    {F::uptake_fill_share, "uptake.fill_share", part_of_one, up, fine, "share of the pores to be filled", practice},
    {F::uptake_least_wet_mass, "uptake.least_wet_mass_g", grams, up, fine, "weighs, drained, at least", geometry},
    {F::uptake_least_cured_mass, "uptake.least_cured_mass_g", grams, up, fine, "weighs, cured, at least", geometry},
    {F::vacuum_atmosphere, "vacuum.atmosphere_kPa", kilopascals, near, fine, "pressure of the air at this altitude",
     "US Standard Atmosphere 1976"},
    {F::vacuum_target, "vacuum.target_absolute_kPa", kilopascals, down, fine, "absolute pressure aimed at", given},
    {F::vacuum_gauge, "vacuum.gauge_kPa", kilopascals, up, fine, "vacuum gauge reads", "atmosphere less absolute"},
    {F::vacuum_pore_pressure, "vacuum.pore_kPa", kilopascals, up, fine, "pressure in the pores of the lowest blank",
     "absolute pressure and the resin's head, ρ g h"},
    {F::vacuum_pump_down, "vacuum.pump_down_min", minutes, up, fine, "pump takes at least",
     "(V/S) ln((p0 − pu)/(p − pu))"},
    {F::vacuum_air_removed, "vacuum.air_removed", part_of_one, down, fine, "share of the air drawn from the pores",
     "Boyle; vapour counts as air"},
    {F::vacuum_water_boils, "vacuum.water_boils_C", degrees_celsius, down, fine, "water boils at",
     "IAPWS-IF97 region 4"},
    {F::vacuum_hold, "vacuum.planned_hold_h", hours, near, fine, "vacuum planned to be held", given},
    {F::vacuum_least_soak, "vacuum.least_soak_h", hours, up, fine, "soak at least", practice},
    {F::cure_oven, "cure.oven", words, near, fine, "oven for the cure", given},
    {F::cure_dial, "cure.dial_C", degrees_celsius, up, fine, "set the dial to", "the oven's calibration"},
    {F::cure_true, "cure.true_C", degrees_celsius, up, fine, "true temperature of the air", "resin's data sheet"},
    {F::cure_core, "cure.core_C", degrees_celsius, up, fine, "temperature of the core", "resin's data sheet"},
    {F::cure_core_time, "cure.core_time_min", minutes, up, fine, "core warm after: likely",
     "plane walls, full series; Incropera ch. 5"},
    {F::cure_core_time_cautious, "cure.core_time_cautious_min", minutes, up, fine, "core warm after: allow",
     "plane walls, full series; Incropera ch. 5"},
    {F::cure_hold, "cure.hold_min", minutes, up, fine, "hold for", "resin's data sheet"},
    {F::cure_total, "cure.total_min", minutes, up, fine, "in the oven for at least", "core time and hold"},
    {F::size_gain_low, "size_in_use.gain_low_mm", millimetres, up, fine,
     "seat grows, at the driest place of use, at most by", "Wood Handbook ch. 13; an upper bound"},
    {F::size_gain_high, "size_in_use.gain_high_mm", millimetres, up, fine,
     "seat grows, at the dampest place of use, at most by", "Wood Handbook ch. 13; an upper bound"},
    {F::size_turn_to, "size_in_use.turn_to_mm", millimetres, down, fine,
     "turn the seat to, if it must never stand proud", "Wood Handbook ch. 13"},
    {F::cost_per_piece, "cost.per_piece", money, up, fine, "cost of a blank that is started", given},
    {F::cost_per_good_piece, "cost.per_good_piece", money, up, fine, "cost of a piece that is delivered", given},
    {F::cost_currency, "cost.currency", words, near, fine, "currency", given},
    {F::bath_vessel, "baths[].vessel", words, near, fine, "vessel", given, of_bath},
    {F::bath_resin, "baths[].resin", words, near, fine, "resin", given, of_bath},
    {F::bath_dye, "baths[].dye", words, near, fine, "dye", given, of_bath},
    {F::bath_stance, "baths[].stance", words, near, fine, "blanks", "least resin within the height", of_bath},
    {F::bath_layers, "baths[].layers", whole_number, near, fine, "layers", geometry, of_bath},
    {F::bath_free_area, "baths[].free_area_cm2", square_centimetres, near, fine, "surface of the resin", geometry,
     of_bath},
    {F::bath_pour, "baths[].pour_ml", millilitres, up, fine, "pour", "tops covered after the greatest uptake",
     of_bath},
    {F::bath_fresh_resin, "baths[].fresh_resin_ml", millilitres, up, fine, "pour, fresh", geometry, of_bath},
    {F::bath_reused_resin, "baths[].reused_resin_ml", millilitres, up, fine, "pour, left over, already activated",
     given, of_bath},
    {F::bath_activator, "baths[].activator_g", grams, near, fine, "activator, on the fresh resin only",
     "resin's data sheet", of_bath},
    {F::bath_start_height, "baths[].start_height_mm", millimetres, up, sawn, "level at the start, from the bottom",
     geometry, of_bath},
    {F::bath_end_height, "baths[].end_height_mm", millimetres, up, sawn, "level at the end, from the bottom",
     geometry, of_bath},
    {F::bath_start_dip, "baths[].start_dip_mm", millimetres, down, sawn, "level at the start, down from the rim",
     geometry, of_bath},
    {F::bath_end_dip, "baths[].end_dip_mm", millimetres, down, sawn, "level at the end, down from the rim", geometry,
     of_bath},
    {F::bath_headspace, "baths[].headspace_mm", millimetres, down, sawn, "room for foam above the level", geometry,
     of_bath},
    {F::bath_ballast, "baths[].ballast_g", grams, up, fine, "ballast on the blanks", "Archimedes, at dry density",
     of_bath},
    {F::bath_filler, "baths[].filler_ml", millilitres, down, fine, "filler, solid volume", given, of_bath},
    {F::bath_taken_up, "baths[].taken_up_ml", millilitres, up, fine, "blanks take up at most", "uptake", of_bath},
    {F::bath_film, "baths[].film_ml", millilitres, up, fine, "left on the drained blanks", given, of_bath},
    {F::bath_left_over, "baths[].left_over_ml", millilitres, down, fine, "left over at least",
     "mass balance: poured less taken up less film", of_bath},
});

struct Written {
  double in_unit;  ///< SI value of one of the unit
  double step;     ///< of the contract's rounding, in that unit
};

Written written(FigureUnit unit) {
  switch (unit) {
    case millimetres:
      return {1e-3, 0.01};
    case millimetres_per_100mm:
      return {0.01, 0.01};
    case cubic_centimetres:
      return {1e-6, 0.01};
    case square_centimetres:
      return {1e-4, 0.01};
    case square_millimetres:
      return {1e-6, 0.01};
    case newtons:
      return {1, 1};
    case part_of_one:
      return {1, 0.0001};
    case in_percent:
      return {0.01, 0.1};
    case turns_per_minute:
      return {1.0 / 60, 1};
    case newton_metres:
    case ratio:
      return {1, 0.01};
    case megapascals:
      return {1e6, 0.1};
    case degrees_celsius:
      return {1, 0.1};
    case hours:
      return {3600, 0.01};
    case minutes:
      return {60, 1};
    case grams:
      return {1e-3, 0.1};
    case kilograms_per_m3:
      return {1, 1};
    case millilitres:
      return {1e-6, 1};
    case kilopascals:
      return {1e3, 0.01};
    case money:
      return {1, 0.01};
    case whole_number:
      return {1, 1};
    case pieces:
      return {1, 0.01};
    case words:
      break;
  }
  return {1, 1};
}

}  // namespace

std::span<const FigureInfo> figure_infos() { return infos; }

const FigureInfo& info(Figure figure) {
  const FigureInfo& found = infos.at(static_cast<std::size_t>(figure));
  BW_EXPECT(found.figure == figure);
  return found;
}

std::optional<Figure> figure_at(std::string_view path) {
  const auto found = std::find_if(infos.begin(), infos.end(), [&](const FigureInfo& i) { return i.path == path; });
  return found == infos.end() ? std::nullopt : std::optional{found->figure};
}

double contract_number(Figure figure, double si) {
  const FigureInfo& i = info(figure);
  const Written w = written(i.unit);
  if (i.unit == degrees_celsius) si -= (ice_point - Temperature{}) / kelvin;
  // Through text, so that 0.1 + 0.2 is written 0.3.
  const std::string digits = fmt::format("{:.4f}", rounded(si / w.in_unit, w.step, i.safe));
  double number = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), number);
  return number;
}

Printed printed(Figure figure, const FigureValue& value, UnitSystem system) {
  if (std::holds_alternative<std::monostate>(value)) return {};
  if (const auto* words = std::get_if<std::string>(&value)) return printed_words(*words);
  const double si = std::get<double>(value);
  const FigureInfo& i = info(figure);
  const bool metric = system == UnitSystem::metric;
  const auto bare = [&](double number, int decimals) {
    return printed(decimal(number, decimals), PrintedUnit::none);
  };
  switch (i.unit) {
    case millimetres:
      return printed(si * metre, {system, i.safe, i.fineness});
    case millimetres_per_100mm: {
      Printed slope = metric ? printed(decimal(rounded(si * 100, 0.01, i.safe), 2), PrintedUnit::millimetres)
                             : printed(decimal(rounded(si * 4, 0.001, i.safe), 3), PrintedUnit::inches);
      slope.per = metric ? Amount{{"100"}, PrintedUnit::millimetres} : Amount{{"4"}, PrintedUnit::inches};
      return slope;
    }
    case cubic_centimetres:
      return printed(si * Volume::unit(), system);
    case square_centimetres:
      return metric ? printed(decimal(si * 1e4, 1), PrintedUnit::square_cm)
                    : printed(decimal(si * Area::unit() / inch2, 2), PrintedUnit::square_in);
    case square_millimetres:
      return printed(si * Area::unit(), system);
    case newtons:
      return printed(si * newton, system, i.safe);
    case part_of_one:
    case in_percent:
      return printed(decimal(rounded(si * 100, 0.1, i.safe), 1), PrintedUnit::per_cent);
    case turns_per_minute:
      return printed(rounded(si * 60, 10, i.safe) * per_minute, i.safe);
    case newton_metres:
      return printed(si * newton_metre, system, i.safe);
    case megapascals:
      return printed(si * pascal, system, i.safe);
    case ratio:
      return bare(rounded(si, 0.1, i.safe), 1);
    case degrees_celsius:
      return printed(Temperature::above_zero(si * kelvin), system, i.safe);
    case hours:  // what is worked out to five minutes, what is given as it is
      return printed(rounded(si / 60, i.safe == Round::nearest ? 1 : 5, i.safe) * minute);
    case minutes:
      return printed(si * second, i.safe);
    case grams:
      return printed(si * kilogram, system, i.safe);
    case kilograms_per_m3:
      return printed(si * kilogram_per_m3, system, i.safe);
    case millilitres:
      return printed_liquid(si * Volume::unit(), system, i.safe);
    case kilopascals:
      return printed(AbsolutePressure::above_zero(si * pascal), system, i.safe);
    case money:
      return bare(rounded(si, 0.01, i.safe), 2);
    case whole_number:
      return bare(si, 0);
    case pieces:
      return bare(si, 1);
    case words:
      break;
  }
  return {};
}

}  // namespace blankwright
