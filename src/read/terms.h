#pragma once

#include <array>
#include <string>
#include <string_view>

namespace blankwright {

// Names in the formulas of the working, and where their values come from: by their keys in a template's [terms] and
// [origins]. The English is here.
// clang-format off
#define BW_TERMS(term) \
  term(air, "air") \
  term(air_removed, "air removed") \
  term(altitude_in_m, "altitude in m") \
  term(as_few_as_hold_them, "as few as hold them") \
  term(assembly_factor, "assembly factor") \
  term(atmosphere, "atmosphere") \
  term(axis_offset, "e") \
  term(axis_tilt, "t") \
  term(ballast, "ballast") \
  term(ballast_density, "ρ ballast") \
  term(bending_stress, "bending stress") \
  term(blanks, "blanks") \
  term(blanks_in_all, "blanks in all") \
  term(bleed_out, "bleed-out") \
  term(boiling_point, "boiling point") \
  term(bond_capacity, "bond capacity") \
  term(bond_strength, "bond strength") \
  term(bond_torque, "bond torque") \
  term(bore, "bore") \
  term(bore_off_the_stud_axis, "bore off the stud's axis") \
  term(bore_there, "bore there") \
  term(bow, "bow") \
  term(by_the_oven_calibration, "by the oven's calibration") \
  term(cell_wall_density, "ρ_cw") \
  term(chance_of_enough, "P(good ≥ quantity)") \
  term(conductivity_across, "k across") \
  term(conductivity_along, "k along") \
  term(confidence, "confidence") \
  term(cool, "cool") \
  term(core, "core") \
  term(core_time, "core time") \
  term(cost_of_started, "a blank that is started") \
  term(cover, "cover") \
  term(density, "density") \
  term(density_of_resin, "ρ resin") \
  term(density_of_sound_wood, "density of sound wood") \
  term(depth, "depth") \
  term(depth_of_the_client_hole, "depth of the client's hole") \
  term(depth_to_the_point, "depth to the point") \
  term(deviation, "deviation") \
  term(diameter, "diameter") \
  term(dose, "dose") \
  term(drill, "drill") \
  term(drill_of_at_least, "drill of at least") \
  term(dry_density, "dry density") \
  term(dry_length, "dry length") \
  term(dry_mass, "dry mass") \
  term(dry_section, "dry section") \
  term(embedded, "embedded") \
  term(end_level, "end level") \
  term(end_squareness, "end squareness") \
  term(end_squaring, "end squaring") \
  term(enters, "enters") \
  term(equilibrium_moisture, "EMC") \
  term(fastest_spindle, "fastest spindle") \
  term(saturation, "fibre saturation") \
  term(fill, "f") \
  term(filler, "filler") \
  term(filler_under_the_tops, "filler under the tops") \
  term(film, "film") \
  term(film_coefficient, "h") \
  term(finish, "finish") \
  term(form_diameter, "D") \
  term(free_area, "free area") \
  term(fresh_resin, "fresh resin") \
  term(gain_at_the_dampest, "gain at the dampest") \
  term(gas, "gas") \
  term(glue_line, "glue line") \
  term(good, "good") \
  term(good_so_far, "good so far") \
  term(gravity, "g") \
  term(half_point_angle, "half the point's angle of") \
  term(handle, "handle") \
  term(head, "head") \
  term(heat_capacity, "c") \
  term(hold, "hold") \
  term(hole_minor_most, "Kn") \
  term(hole_pitch_most, "En") \
  term(hours_of_work, "hours of work") \
  term(humidity, "humidity") \
  term(integral_of_surface, "integral over the form of π D and both ends") \
  term(integral_of_volume, "integral over the form of π/4 D²") \
  term(issued, "issued") \
  term(labour_an_hour, "labour an hour") \
  term(largest_diameter_of_the_form, "largest diameter of the form") \
  term(largest_of, "max") \
  term(last_station, "last station") \
  term(least, "least") \
  term(least_fill, "least fill") \
  term(least_of, "min") \
  term(least_pieces_enough, "least n with P(good ≥ quantity) ≥ confidence") \
  term(least_wet, "least wet") \
  term(length, "length") \
  term(length_given, "length given") \
  term(lever, "lever") \
  term(limit, "limit") \
  term(litres_for_that, "litres for that") \
  term(litres_of_resin, "litres of resin") \
  term(litres_of_sawn_wood, "litres of sawn wood") \
  term(lost, "lost") \
  term(major_diameter, "d") \
  term(marking, "k") \
  term(mass, "m") \
  term(mean_gain, "mean gain") \
  term(measured_density, "measured density") \
  term(minor_diameter, "d3") \
  term(moisture, "moisture") \
  term(moisture_at_the_dampest, "moisture at the dampest") \
  term(moisture_at_the_driest, "moisture at the driest") \
  term(moisture_when_turned, "moisture when turned") \
  term(natural_logarithm, "ln") \
  term(nothing, "nothing") \
  term(offset_95_of_100, "offset, 95 of 100") \
  term(offset_allowed, "e*") \
  term(offset_held, "offset held") \
  term(offset_left_by_the_jig, "offset left by the jig") \
  term(on_hand, "on hand") \
  term(one_for_each_bath_or_load, "one for each bath, or load, that the order needs by itself") \
  term(one_percent, "1 %") \
  term(open_pieces, "n") \
  term(oven, "oven") \
  term(pi, "π") \
  term(pitch, "pitch") \
  term(pitch_diameter, "d2") \
  term(place, "z") \
  term(places_a_layer, "places a layer") \
  term(planing, "planing") \
  term(pore_pressure, "pore pressure") \
  term(pour, "pour") \
  term(price_of_order, "an order") \
  term(price_of_resin, "price of resin") \
  term(price_of_stud, "stud") \
  term(pull, "pull") \
  term(pull_of_tightening, "pull of tightening") \
  term(pull_that_strips, "pull that strips") \
  term(pull_that_the_twisted_bond_bears, "pull that the twisted bond bears") \
  term(pull_that_the_twisted_stud_bears, "pull that the twisted stud bears") \
  term(pump_speed, "pump's speed") \
  term(quantity, "quantity") \
  term(reading, "reading") \
  term(reserve, "reserve") \
  term(reservoir, "reservoir") \
  term(resin_at_most, "resin at most") \
  term(resin_density, "ρ_r") \
  term(resin_density_in_bath, "resin's density") \
  term(reused, "reused") \
  term(ring_inner, "r") \
  term(ring_outer, "R") \
  term(rod, "rod") \
  term(rod_area, "rod's area") \
  term(room, "room") \
  term(room_moisture, "room moisture") \
  term(root, "√") \
  term(root_of_three, "√3") \
  term(root_of_two, "√2") \
  term(rounded_up_to_a_whole_step, "rounded up to a whole step") \
  term(rounded_up_to_the_saw_increment, "rounded up to the saw's increment") \
  term(safety_factor, "safety factor") \
  term(sawn_length, "sawn length") \
  term(sawn_section, "sawn section") \
  term(seat, "seat") \
  term(seat_facing, "seat facing") \
  term(seat_friction, "μs") \
  term(section, "section") \
  term(section_given, "section given") \
  term(section_tolerance, "section tolerance") \
  term(share_of_draws_clear, "share that clears of 4096 draws") \
  term(shear_strength_of_the_part, "shear strength of the part") \
  term(shrinkage, "S") \
  term(shrinkage_lengthwise, "S lengthwise") \
  term(shrinkage_tangential, "S0 tangential") \
  term(shrinkage_to_dry, "S0") \
  term(side_load, "side load") \
  term(slower_in_a_cooler_oven, "slower in a cooler oven") \
  term(slower_in_the_room, "slower in the room") \
  term(soak_factor, "soak factor") \
  term(spares, "spares") \
  term(squared_length, "squared length") \
  term(squared_section, "squared section") \
  term(squaring, "squaring") \
  term(standard_atmosphere, "standard atmosphere") \
  term(start, "start") \
  term(start_level, "start level") \
  term(started, "started") \
  term(started_so_far, "started so far") \
  term(stock, "stock") \
  term(stress_area, "At") \
  term(stud_major, "stud major") \
  term(stud_major_least, "Ds") \
  term(stud_pitch_least, "Es") \
  term(surface_speed, "6000 in per minute") \
  term(swing, "swing") \
  term(tail_waste, "tail waste") \
  term(taken_up, "taken up") \
  term(tangent, "tan") \
  term(target, "target") \
  term(tensile_strength, "tensile strength") \
  term(tensile_stress_area, "tensile stress area") \
  term(the_thickest, "the thickest") \
  term(thickness_of_the_ballast, "thickness of the ballast") \
  term(thirty_percent, "30 %") \
  term(thread_friction, "μt") \
  term(thread_lever, "a") \
  term(thread_pitch, "P") \
  term(tightening, "tightening") \
  term(tilt_95_of_100, "tilt, 95 of 100") \
  term(tilt_held, "tilt held") \
  term(tilt_left_by_the_jig, "tilt left by the jig") \
  term(tilt_of_the_drill, "tilt of the drill") \
  term(time_by_thickness, "time by thickness") \
  term(time_of_the_thickest, "time of the thickest") \
  term(time_to_warm_the_core, "time to warm the core") \
  term(tolerance, "tolerance") \
  term(top_of_the_blanks, "top of the blanks") \
  term(torque, "torque") \
  term(ultimate, "ultimate") \
  term(usual_fill_high, "usual fill, high") \
  term(usual_fill_low, "usual fill, low") \
  term(usual_loss, "usual loss") \
  term(vessel_height, "vessel's height") \
  term(void_share, "void") \
  term(volume, "V") \
  term(width, "width") \
  term(wood_a_litre, "wood a litre") \
  term(wood_shear_strength, "wood's shear strength") \
  term(yield_strength, "yield strength")

#define BW_TERM_ORIGINS(origin) \
  origin(above, "above") \
  origin(asked_for, "asked for") \
  origin(axis_error, "axis error") \
  origin(bath, "bath") \
  origin(blank, "blank") \
  origin(bore, "bore") \
  origin(bore_and_stud, "bore and stud") \
  origin(bored_true_on_the_lathe, "bored true on the lathe") \
  origin(burl_as_across, "burl, as across; common practice, no source") \
  origin(centring, "centring") \
  origin(usual_practice, "common practice, no source") \
  origin(conductivity_of_mix, "W/(m K), wood and resin mixed") \
  origin(by_diffusion, "diffusion, 35 kJ/mol, from memory") \
  origin(drill, "drill") \
  origin(dry_density_and_resin, "dry density and resin") \
  origin(film_by_common_practice, "W/(m² K); common practice, no source") \
  origin(form_at_the_place_that_governs, "form at the place that governs") \
  origin(from_register, "register") \
  origin(heat_capacity_of_mix, "J/(kg K), wood and resin mixed") \
  origin(hole_minor_limit, "largest minor diameter of the hole, 2B or 6H") \
  origin(hole_pitch_limit, "largest pitch diameter of the hole, 2B or 6H") \
  origin(inside_of_it, "inside of it") \
  origin(it_sinks, "it sinks") \
  origin(job, "job") \
  origin(layout, "layout") \
  origin(left_over, "left over, of this resin and dye") \
  origin(lies_evenly_on_the_blanks, "lies evenly on the blanks") \
  origin(low_common_practice, "low; common practice, no source") \
  origin(low_vdi_2230, "low; VDI 2230, from memory") \
  origin(minor_diameter_of_the_stud, "minor diameter of the stud") \
  origin(nuts_face, "a nut's face, the client's is not named; common practice, no source") \
  origin(of_the_diameters, "of the diameters") \
  origin(oven_dry, "oven-dry") \
  origin(per_100mm, "per 100 mm") \
  origin(pieces_and_witnesses, "pieces and witnesses") \
  origin(pieces_still_good, "pieces that can still come out good") \
  origin(pitch_diameter, "pitch diameter") \
  origin(place_that_governs, "place that governs") \
  origin(plan, "plan") \
  origin(planned, "planned") \
  origin(register_blanks, "register, blanks:") \
  origin(room, "room") \
  origin(routing, "routing") \
  origin(seat, "seat") \
  origin(seat_on_client, "seat on the client's face") \
  origin(shop, "shop") \
  origin(shop_guess, "shop file, a guess") \
  origin(shop_guess_with_register, "shop file, a guess, with register") \
  origin(siau, "Siau") \
  origin(species_table, "species table") \
  origin(species_table_dry, "species table, oven-dry") \
  origin(standard_gravity, "standard gravity") \
  origin(standard_value, "standard value:") \
  origin(stud, "stud") \
  origin(stud_major_limit, "least major diameter of the stud, 2A or 6g") \
  origin(stud_pitch_limit, "least pitch diameter of the stud, 2A or 6g") \
  origin(tangential_shrinkage, "tangential shrinkage") \
  origin(tensile_stress_area, "tensile stress area") \
  origin(the_rod_ends_there, "the rod ends there") \
  origin(thread, "thread") \
  origin(thread_lever_formula, "P/2π + μt d2/√3") \
  origin(twice_cos_30, "2 cos 30°") \
  origin(under_the_tops, "as much as lies under the tops") \
  origin(unknown_grade, "unknown;") \
  origin(uptake, "uptake") \
  origin(uptake_and_film, "uptake and film") \
  origin(vacuum, "vacuum") \
  origin(vdi_2230, "VDI 2230, from memory") \
  origin(von_mises, "shear over tensile strength, von Mises") \
  origin(wood_handbook_ch_4, "Wood Handbook ch. 4") \
  origin(wood_handbook_saturation, "Wood Handbook, fibre saturation")
// clang-format on

/// What a formula names: its terms, functions, and what is said in words.
enum class Term {
#define BW_ENUMERATOR(name, english) name,
  BW_TERMS(BW_ENUMERATOR)
#undef BW_ENUMERATOR
  unnamed,  ///< a number that stands for itself
};

/// Where a term's value comes from.
enum class TermFrom {
#define BW_ENUMERATOR(name, english) name,
  BW_TERM_ORIGINS(BW_ENUMERATOR)
#undef BW_ENUMERATOR
  nowhere,  ///< a number of nature, or of the formula
};

struct KeyedText {
  std::string_view key, english;
};
#define BW_KEYED(name, english) {#name, english},
inline constexpr auto term_list = std::to_array<KeyedText>({BW_TERMS(BW_KEYED)});
inline constexpr auto origin_list = std::to_array<KeyedText>({BW_TERM_ORIGINS(BW_KEYED)});
#undef BW_KEYED

/// The texts of a list in one language; in English where nobody says otherwise.
template <const auto& List, class Name>
struct TextsOf {
  std::array<std::string, List.size()> texts = english();
  const std::string& operator[](Name name) const { return texts.at(static_cast<std::size_t>(name)); }

 private:
  static std::array<std::string, List.size()> english() {
    std::array<std::string, List.size()> texts;
    for (std::size_t i = 0; i < texts.size(); ++i) texts.at(i) = List.at(i).english;
    return texts;
  }
};
using TermTable = TextsOf<term_list, Term>;
using OriginTable = TextsOf<origin_list, TermFrom>;

}  // namespace blankwright
