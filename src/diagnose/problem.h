#pragma once

#include <span>
#include <string_view>

namespace blankwright {

/// Everything that can be said against an input. The names are stable: scripts may look for them.
enum class Problem {
  // files
  file_unreadable,
  file_too_large,
  not_utf8,
  not_toml,
  nested_too_deep,
  // keys and values
  format_missing,
  format_newer,
  unknown_key,
  missing_key,
  wrong_type,
  bare_number,
  not_a_quantity,
  unknown_unit,
  other_kind,
  out_of_range,
  unknown_word,
  unprintable_text,
  bad_order_id,
  bad_date,
  bad_thread,
  thread_spelling,
  bad_drill,
  bad_zone,
  bad_hours,
  bad_counts,
  bad_money,
  keys_disagree,
  unknown_label_sheet,
  template_missing,
  // orders that cannot be planned
  same_order_id,
  stations_not_rising,
  seat_station_missing,
  too_few_stations,
  species_unknown,
  species_ambiguous,
  shrinkage_unknown,
  drill_missing,
  drill_too_small,
  hole_outside_thread_limits,
  wall_too_thin,
  web_too_thin,
  handle_too_short_for_stud,
  head_hole_too_shallow,
  stud_pulls_out,
  stud_too_short,
  pull_not_judged,
  blank_too_small,
  blank_too_short,
  bore_must_be_truer,
  no_yield_known,
  yield_is_a_guess,
  too_many_to_start,
  bond_untested,
  edge_distance_small,
  // what the process cannot do
  currency_differs,
  resin_unknown,
  dye_unknown,
  wood_density_unknown,
  not_a_defect,
  boards_too_few,
  wood_too_wet,
  drying_times_fall,
  vessel_size_missing,
  vessel_too_small,
  resin_lighter_than_wood,
  activated_too_old,
  gauge_beyond_atmosphere,
  pump_too_weak,
  resin_or_water_boils,
  calibration_falls,
  calibration_too_short,
  oven_colder_than_cure,
  oven_too_small,
  cure_too_long,
  core_not_reached,
  thread_strips,
  stud_bends,
  bond_twists,
  strength_unknown,
  stud_not_in_stock,
  size_in_use_grows,
  price_below_cost,
  ferrule_disagrees,
  vessel_missing,
  oven_missing,
  calendar_too_full,
  schedule_impossible,
  finishes_late,
  order_in_register_differs,
  text_does_not_fit,
  ink_near_edge,
  picture_unreadable,
};

/// The name in brackets behind a message: "web-too-thin".
std::string_view problem_name(Problem problem);

/// All problems, for the test that each can be provoked.
std::span<const Problem> all_problems();

}  // namespace blankwright
