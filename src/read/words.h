#pragma once

#include <array>
#include <string>
#include <string_view>

namespace blankwright {

/// Every word that is printed on paper, by its key in a template's [words]. The English is in
/// templates/standard.toml. One list, so that enumeration and keys cannot part.
// clang-format off
#define BW_WORDS(word) \
  word(turner_sheet) word(routing_sheet) word(worksheet) word(tags_sheet) word(draft) \
  word(draft_notice) word(sheet_of) word(printed) word(continued) word(order) word(client) word(item) \
  word(quantity) word(due) word(not_stated) word(drawing) word(revision) word(species) word(condition_sound) \
  word(condition_spalted) word(condition_punky) word(condition_burl) word(owner) word(created_by) \
  word(approved_by) word(issue_date) word(of_blanks) word(sawn) word(dry_mass) word(wet_mass) word(cured_mass) \
  word(tag_keep_out) word(tare) word(monday) word(tuesday) word(wednesday) word(thursday) word(friday) word(saturday) word(sunday) \
  word(january) word(february) word(march) word(april) word(may) word(june) word(july) word(august) \
  word(september) word(october) word(november) word(december) word(scale) word(seat) word(tail) \
  word(section_view) word(all_lengths_from_seat) word(datum_squared) word(datum_rounded) word(datum_axis) word(finished_picture) word(stud) word(seat_detail) word(glue_line) word(units_metric) word(units_inch) word(tolerance_note) word(tolerance_lengths) \
  word(bore) word(reservoir) word(metal_zone) word(metal_zone_rule) word(number_short) word(from_seat) \
  word(diameter) word(at_most) word(at_least) word(date_time) word(stations_title) \
  word(checks_title) word(checks_note) word(check_seat_position) word(check_rod) word(check_seat_runout) word(check_rod_rounded) word(seat_grows) \
  word(seat_grows_wait) word(seat_grows_turn) word(check_squareness) word(check_projection) \
  word(check_embedded) word(depth_stop) word(drill) word(round_to) word(round_to_rule) word(speed_ceiling) word(speed_note) word(swing) word(hold) \
  word(signature) word(signed_on) word(cautions_title) word(notes) word(operation) word(routing_keep_to) word(routing_lasts) word(planned_day) word(sign_off) word(who) word(count_good) \
  word(count_scrap) word(earliest_finish) word(due_end) word(late) \
  word(rework_note) word(correction_note) word(blank_id) word(first_weighing) word(second_weighing) word(length) \
  word(worksheet_note) word(source) word(with) word(blank_sizes_title) \
  word(state_sawn) word(state_dry) word(state_squared) word(state_finished) word(section) word(start_pieces) \
  word(dry_width) word(dry_height) word(dry_length) word(tare_head) word(wet_mass_head) word(cured_mass_head) \
  word(units) word(tolerance) word(deep) word(depth_stop_rule) \
  word(over_diameter) word(check_embedded_tapped) word(form_smooth) word(form_straight) word(stations_left_out) \
  word(cautions_left_out) word(cautions_inspection) word(cut_stud) word(face_off) word(bore_ends) word(inspection_sheet) \
  word(inspection_note) word(inspect_position) word(inspect_runout) word(inspect_rod) word(inspect_squareness) \
  word(inspect_projection) word(inspect_embedded) word(inspect_tightened) word(inspect_diameters) word(inspect_verdict) word(tighten_to) word(tighten_most) word(start_within) word(start_at_once) word(runs_at_most) \
  word(cutting_sheet) word(cutting_note) word(cutting_yield) word(cutting_missing) word(cutting_not_sawn) \
  word(cutting_datum) word(cutting_grain) word(cutting_hatched) word(cutting_not_numbered) word(cutting_board) \
  word(cutting_strip) word(cutting_position) word(cut_kind) word(cut_across) word(cut_rip) word(cut_resaw) \
  word(cut_crosscut) word(cut_numbers) word(cut_stop) word(cut_places) word(cutting_caution) word(cut_from_left_end) word(cut_from_near_edge) \
  word(cut_from_lower_face) word(cut_done) word(witness) word(witness_mark) word(blank_list) word(issue) \
  word(stamping_count) word(stamping_tags) word(stamping_wire) word(stamping_end) word(stamping_wire_size) \
  word(stamping_hole_size) word(stamping_letter_size) word(stamping_tail_waste) word(stamping_carry) \
  word(stamping_place) word(blanks_marked) word(blanks_weigh) word(blanks_mark_only) \
  word(cutting_across) \
  word(bath_card) word(bath_number) word(bath_vessel) word(bath_resin) \
  word(bath_dye) word(bath_blanks) word(bath_planned) word(bath_pour) word(bath_fresh) word(bath_reused) \
  word(bath_activator) word(bath_ballast) word(bath_ballast_least) word(bath_ballast_denser) word(bath_gauge) word(bath_gauge_below) word(bath_vacuum_hold) \
  word(bath_soak) word(bath_dip_start) word(bath_dip_end) word(bath_section) word(bath_layer) word(bath_arrows) \
  word(bath_foam) word(bath_level_start) word(bath_level_end) word(bath_tops) word(bath_never_top_up) \
  word(bath_light_first) word(bath_left_over) word(bath_keep_below) word(bath_use_by) word(bath_caution) \
  word(bath_check_start) word(bath_check_gauge) word(bath_reading) word(bath_check_target) \
  word(bath_check_bubbles) word(bath_bubbles_rule) word(bath_hold) word(bath_check_released) \
  word(bath_check_level) word(bath_dip_measured) word(bath_check_soak) word(bath_soak_longer) word(bath_soak_longer_to_bubbles) word(bath_soak_then) word(bath_soak_rule) \
  word(bath_check_out) \
  word(oven_card) word(oven_drying_air) word(oven_drying_least) word(oven_two_weighings) \
  word(oven_within) word(oven_cool) word(oven_cool_small) word(oven_room_moisture) word(oven_regain) \
  word(oven_of_bath) word(oven_name) word(oven_planned) word(oven_dial) word(oven_true) word(oven_true_small) \
  word(oven_core) word(oven_core_small) word(oven_dummy) word(oven_core_witness) word(oven_hold_time) word(oven_from_core) word(oven_from_air) \
  word(oven_core_likely) word(oven_core_cautious) word(oven_total) word(oven_total_small) word(oven_most) \
  word(oven_most_small) word(oven_clearance) word(oven_gap) word(oven_front) word(oven_from_above) \
  word(oven_shelf) word(oven_caution) word(oven_once) word(oven_by_time) word(oven_check_in) word(oven_check_air) \
  word(oven_check_core) \
  word(oven_check_until_core) word(oven_check_until_air) word(oven_field_air) \
  word(oven_check_out) word(oven_hold) word(bottle_labels) word(bottle_title) word(bottle_left_over) \
  word(bottle_activated) word(bottle_really_on) word(bottle_really_left) word(bottle_caution) \
  word(cautions_first) word(caution_sawing) word(caution_drying) word(caution_bath) word(caution_cure) word(caution_boring) word(caution_turning) word(caution_use) word(caution_own) word(ladder_title) word(ladder_dry) word(ladder_wet) word(ladder_cured) word(ladder_limit) word(ladder_nominal) word(ladder_note) \
  word(spigot) word(recess) word(ferrule) word(ferrule_glued) word(ferrule_pressed) word(ferrule_wood) word(ferrule_wood_fitted) word(ferrule_rows) word(finish) word(voids) word(voids_none) word(voids_small) word(voids_any) word(matched_set) \
  word(ladder_heavy) \
  word(targets_sheet) word(profile_sheet) word(actual_size) word(bars_measure) word(bars_otherwise) word(bars_new) word(bars_old) \
  word(bars_not_corrected) word(bars_corrected) word(bars_across) word(bars_down) word(target_seat) \
  word(target_tail) word(target_rings) word(target_pilot) word(target_position) \
  word(target_finished) word(target_clean_up) word(target_square) word(target_left_out) word(target_offset) word(target_ticks) word(target_long_tick) \
  word(target_tabs) word(target_centre) word(profile_use) word(profile_check) word(profile_cut_away) \
  word(profile_joints) word(profile_left_edge) \
  word(codes_sheet) word(codes_note) word(codes_wood) word(codes_resin) word(codes_bath) \
  word(codes_oven) word(codes_blank) word(codes_piece) word(codes_undo) \
  word(gate_scrapped) word(client_card) word(card_seat) word(card_finish) word(card_projection) \
  word(card_thread) word(card_tighten) word(card_pass) word(card_fail) word(card_wood) word(card_board) \
  word(card_lot) word(card_dry) word(card_cured) word(card_gain) word(card_gauge) \
  word(card_vacuum) word(card_soak) word(card_cure) word(card_core) word(card_bore) \
  word(card_offset) word(card_inspected) word(card_sent) word(card_by) word(card_remarks) \
  word(card_states) word(card_signature) \
  word(thread) word(date) word(parcel_label) word(proof_sheet) word(proof_note) word(proof_shift) \
  word(card_shared) word(week_sheet) word(week_note) word(week_missing) word(week_for) word(week_latest) word(week_place) \
  word(week_further) word(week_for_batch) word(week_bath) word(week_load) word(week_attended) word(week_begins) word(week_ends) \
  word(week_by_itself) word(week_bars) word(today_sheet) word(today_entry) word(today_not_entered) word(today_was_due) \
  word(today_queues_for) word(today_behind) word(today_running) word(today_least_end) word(today_stays) word(today_before_leaving) \
  word(today_goes_on) word(today_else_later) word(today_next) \
  word(today_waits_since) word(today_compile_first) word(today_not_told) word(today_out_of_order) word(today_stay_or_end) word(week_group)
// clang-format on

/// Words that earlier versions printed: a template may still have them.
inline constexpr auto former_word_keys = std::to_array<std::string_view>({"latest_start",
                                                                          "stamping_sheet",
                                                                          "result",
                                                                          "initials",
                                                                          "weighing_sheet",
                                                                          "stamping_tag_made",
                                                                          "stamping_wired",
                                                                          "stamping_end_marked",
                                                                          "stamping_pencilled",
                                                                          "weighing_note",
                                                                          "bath_label_it",
                                                                          "card_checks",
                                                                          "card_not_recorded",
                                                                          "card_who",
                                                                          "oven_load",
                                                                          "cut_blade",
                                                                          "cut_runs",
                                                                          "target_grain",
                                                                          "alone_note",
                                                                          "done_times",
                                                                          "planned_start",
                                                                          "planned_finish",
                                                                          "count_rework",
                                                                          "bath_ballast_note",
                                                                          "oven_check_air_last",
                                                                          "count_in",
                                                                          "remarks"});

enum class Word {
#define BW_ENUMERATOR(name) name,
  BW_WORDS(BW_ENUMERATOR)
#undef BW_ENUMERATOR
};

inline constexpr auto word_keys = std::to_array<std::string_view>({
#define BW_KEY(name) #name,
    BW_WORDS(BW_KEY)
#undef BW_KEY
});

/// Whose pages a sheet is among: what plans and signs, what saws, bathes and cures, what turns.
enum class Hand { desk, bath, turner };

/// The sheets that a traveller is made of: a row each, of its kind (also its key in a template's `sheets`), the word
/// that is its title, what puts it on pages (sheet/sheet/sheets.h), whose pages it is among, and the sign by which it
/// is known (sheet/frame/sign.cpp).
// clang-format off
#define BW_SHEETS(sheet) \
  sheet(routing,       routing_sheet,    routing_sheets,      desk,   clock) \
  sheet(cutting,       cutting_sheet,    cutting_sheets,      bath,   board) \
  sheet(blanks,        blank_list,       blank_lists,         bath,   stamped_tag) \
  sheet(bath,          bath_card,        bath_cards,          bath,   vessel) \
  sheet(oven,          oven_card,        oven_cards,          bath,   oven) \
  sheet(bottle_labels, bottle_labels,    bottle_labels,       desk,   bottle) \
  sheet(targets,       targets_sheet,    target_sheets,       turner, rings) \
  sheet(turner,        turner_sheet,     turner_sheets,       turner, handle) \
  sheet(inspection,    inspection_sheet, inspection_sheets,   turner, caliper) \
  sheet(profile,       profile_sheet,    half_profile_sheets, turner, half_form) \
  sheet(cautions,      cautions_title,   caution_sheets,      desk,   triangle) \
  sheet(worksheet,     worksheet,        worksheets,          desk,   sum)
// clang-format on

enum class SheetKind {
#define BW_ENUMERATOR(kind, title, maker, hand, sign) kind,
  BW_SHEETS(BW_ENUMERATOR)
#undef BW_ENUMERATOR
};

/// Whose pages the sheets are among, in the order of the kinds.
inline constexpr auto sheet_hands = std::to_array<Hand>({
#define BW_HAND(kind, title, maker, hand, sign) Hand::hand,
    BW_SHEETS(BW_HAND)
#undef BW_HAND
});

inline constexpr auto sheet_keys = std::to_array<std::string_view>({
#define BW_KEY(kind, title, maker, hand, sign) #kind,
    BW_SHEETS(BW_KEY)
#undef BW_KEY
});

/// The words of one language.
struct WordTable {
  std::array<std::string, word_keys.size()> words;
  const std::string& operator[](Word word) const { return words.at(static_cast<std::size_t>(word)); }
};

}  // namespace blankwright
