#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "measure/quantity_text.h"
#include "plan/figure/figures.h"

namespace blankwright {

/// Every figure that a plan gives. One list: explain, plan.json, the worksheet and the table of proofs are made from
/// it.
enum class Figure : int {
  handle_length,
  handle_largest_diameter,
  handle_volume,
  handle_surface,
  bore_fit,
  bore_diameter,
  bore_drill,
  bore_thread_percent,
  stud_thread,
  stud_major,
  stud_pitch,
  stud_tensile_area,
  stud_embedded,
  stud_projection,
  stud_cut_length,
  stud_bottom_clearance,
  stud_bond_capacity,
  stud_tightening_lever,
  stud_preload,
  stud_bond_torque,
  stud_bond_safety,
  stud_torque_safety,
  stud_bending_stress,
  stud_bending_safety,
  stud_head_strip,
  stud_head_strip_safety,
  stud_tightening_stress,
  stud_tightened_bond,
  stud_safety_in_use,
  stud_tightened_stud,
  stud_largest_tightening,
  axis_offset,
  axis_tilt,
  blank_shrinkage,
  blank_sawn_section,
  blank_dry_section,
  blank_squared_section,
  blank_sawn_length,
  blank_dry_length,
  blank_squared_length,
  centring_seat_position,
  centring_seat_governing,
  centring_tilt,
  centring_tilt_governing,
  centring_chance_clean,
  rounded_marking,
  rounded_diameter,
  rounded_runout,
  bore_depth,
  bore_tip_depth,
  bore_depth_from_drilled_face,
  bore_least_wall,
  bore_web,
  turning_swing,
  turning_speed_ceiling,
  start_pieces,
  start_from_stock,
  start_witnesses,
  start_good_so_far,
  start_started_so_far,
  start_confidence,
  start_chance_enough,
  start_expected_surplus,
  drying_start_moisture,
  drying_oven,
  drying_least_time,
  drying_cool,
  drying_room_moisture,
  drying_dial,
  drying_regain_time,
  uptake_basis,
  uptake_dry_density,
  uptake_dry_mass,
  uptake_dry_volume,
  uptake_void_share,
  uptake_punkiness,
  uptake_resin_limit,
  uptake_resin_low,
  uptake_resin_high,
  uptake_fill_share,
  uptake_least_wet_mass,
  uptake_least_cured_mass,
  vacuum_atmosphere,
  vacuum_target,
  vacuum_gauge,
  vacuum_pore_pressure,
  vacuum_pump_down,
  vacuum_air_removed,
  vacuum_water_boils,
  vacuum_hold,
  vacuum_least_soak,
  cure_oven,
  cure_dial,
  cure_true,
  cure_core,
  cure_core_time,
  cure_core_time_cautious,
  cure_hold,
  cure_total,
  size_gain_low,
  size_gain_high,
  size_turn_to,
  cost_per_piece,
  cost_per_good_piece,
  cost_currency,
  bath_vessel,
  bath_resin,
  bath_dye,
  bath_stance,
  bath_layers,
  bath_free_area,
  bath_pour,
  bath_fresh_resin,
  bath_reused_resin,
  bath_activator,
  bath_start_height,
  bath_end_height,
  bath_start_dip,
  bath_end_dip,
  bath_headspace,
  bath_ballast,
  bath_filler,
  bath_taken_up,
  bath_film,
  bath_left_over,
};

/// In what a figure is given where it leaves the program.
enum class FigureUnit {
  millimetres,
  millimetres_per_100mm,
  cubic_centimetres,
  square_centimetres,
  square_millimetres,
  newtons,
  part_of_one,
  in_percent,
  turns_per_minute,
  newton_metres,
  megapascals,
  ratio,
  degrees_celsius,
  hours,
  minutes,
  grams,
  kilograms_per_m3,
  millilitres,
  kilopascals,
  money,
  whole_number,
  pieces,
  words
};

/// Whose a figure is.
enum class FigureScope {
  order,  ///< the order's, once
  bath    ///< one of each bath
};

struct FigureInfo {
  Figure figure;
  std::string_view path;  ///< in plan.json
  FigureUnit unit;
  Round safe;               ///< the side to which it may err
  Fineness fineness;        ///< of a length
  std::string_view label;   ///< for people
  std::string_view source;  ///< whose formula it is
  FigureScope scope = FigureScope::order;
};

/// The whole list, in the order of Figure.
std::span<const FigureInfo> figure_infos();
const FigureInfo& info(Figure figure);
inline bool is_of_a_bath(const FigureInfo& figure) { return figure.scope == FigureScope::bath; }
/// The figure with that path in plan.json, if there is one.
std::optional<Figure> figure_at(std::string_view path);

/// The figure as people read it, in the units of the shop and rounded to the safe side; "not known" where it is not.
Printed printed(Figure figure, const FigureValue& value, UnitSystem system);

/// The number as it stands in plan.json: in the unit that the path names, rounded to the safe side.
double contract_number(Figure figure, double si);

}  // namespace blankwright
