#pragma once

#include "diagnose/says_common.h"
#include "diagnose/sentence.h"

// What plan/process says: resins, vessels, vacuum, ovens and cures.

// resins and dyes
BW_SENTENCE(no_such_resin, "the shop file knows no resin \"{}\"")
BW_SENTENCE(
    add_the_resin,
    "at the top of the shop file, with the figures of its data sheet: resins = [{{name = \"{}\", density = \"1.05 "
    "g/cm3\", cure_air = \"93 °C\", cure_hold = \"1 h\"}}]")
BW_SENTENCE(no_such_dye, "the shop file knows no dye \"{}\" for resin \"{}\"")
BW_SENTENCE(dyes_stand_here, "the resin's dyes stand here")
BW_SENTENCE(add_the_dye, "dyes = [\"{}\"] under that resin, or leave `dye` out")
BW_SENTENCE(wood_sinks, "dry wood of {} sinks in resin \"{}\" of {} and needs no ballast: check both densities")
BW_SENTENCE(the_resins_density, "the resin's density")
BW_SENTENCE(the_woods_density, "the wood's")
BW_SENTENCE(ballast_floats, "ballast of {} does not sink in resin \"{}\" of {}")
BW_SENTENCE(the_resin, "the resin")
BW_SENTENCE(such_as_steel, "ballast_density = \"7.9 g/cm3\" is stainless steel")
BW_SENTENCE(resin_is_old, "{} of activated resin \"{}\" is {} days old on {} and is not counted on")
BW_SENTENCE(kept_at_most, "kept at most, once activated")
BW_SENTENCE(take_it_out,
            "take it out of `activated`, and cure it out in thin layers before it is thrown away, as its data sheet "
            "says")

// vessels
BW_SENTENCE(no_vessel, "no vessel in the shop file: no bath is planned")
BW_SENTENCE(vessel_gone, "no vessel in the shop file, and {} blanks of the order were in a bath and are not cured")
BW_SENTENCE(such_as_a_pot, "vessels = [{{name = \"Pot\", diameter = \"200 mm\", height = \"400 mm\"}}]")
BW_SENTENCE(round_without_diameter, "round vessel \"{}\" without diameter")
BW_SENTENCE(rectangular_without_one, "rectangular vessel \"{}\" without {}")
BW_SENTENCE(rectangular_without_both, "rectangular vessel \"{}\" without width and depth")
BW_SENTENCE(its_shape, "its shape")
BW_SENTENCE(one_measured_inside, "{} = \"200 mm\", measured inside")
BW_SENTENCE(both_measured_inside, "width = \"200 mm\" and depth = \"200 mm\", measured inside")
BW_SENTENCE(more_usable_than_whole, "usable height of {} is more than the whole height of vessel \"{}\", {}")
BW_SENTENCE(the_whole_height, "the whole height")
BW_SENTENCE(half_for_foam, "usable_height = \"{}\" leaves half of it for foam")
BW_SENTENCE(rod_fills_vessel, "a rod of {} fills vessel \"{}\", which is {} wide inside")
BW_SENTENCE(piercing_is_a_diameter, "`piercing` is the diameter of the rod where it goes through the surface")

// a blank that finds no room
BW_SENTENCE(too_low_the_vessel,
            "a blank of {} × {} finds no room in vessel \"{}\", which would have to be filled up to {} to keep it "
            "covered, and may be to {}")
BW_SENTENCE(
    too_low_the_nearest,
    "a blank of {} × {} finds no room in any vessel; the nearest, \"{}\", would have to be filled up to {} to "
    "keep it covered, and may be to {}")
BW_SENTENCE(too_narrow_the_vessel,
            "a blank of {} × {} finds no room in vessel \"{}\", which is too narrow: it is {} wide")
BW_SENTENCE(too_narrow_the_nearest,
            "a blank of {} × {} finds no room in any vessel; the nearest, \"{}\", is too narrow: it is {} wide")
BW_SENTENCE(the_vessel, "the vessel")
BW_SENTENCE(kept_free_to_wall, "kept free to the wall")
BW_SENTENCE(wider_round_vessel, "a vessel with diameter = \"{}\" and usable_height = \"{}\" at least takes one")
BW_SENTENCE(wider_rectangular_vessel,
            "a vessel with width = \"{}\", depth = \"{}\" and usable_height = \"{}\" at least takes one")
BW_SENTENCE(so_high_it_may_stand, "so high resin may stand")
BW_SENTENCE(half_taken_as_usable, "half of it is taken as usable")
BW_SENTENCE(the_cover_asked_for, "the cover asked for")
BW_SENTENCE(more_usable_height,
            "usable_height = \"{}\", if what is left above is room enough for foam; else a taller or a wider vessel")
BW_SENTENCE(a_taller_vessel, "a taller vessel, with usable_height = \"{}\"")

// vacuum
BW_SENTENCE(metres, "{} m")
BW_SENTENCE(feet, "{} ft")
BW_SENTENCE(
    gauge_reads_more_than_air,
    "no vacuum gauge reads {} at {}: the air's whole pressure is {} there; the altitude is wrong, or the gauge")
BW_SENTENCE(the_altitude, "the altitude")
BW_SENTENCE(look_at_both, "look at both; at this altitude, with this pump: {}")
BW_SENTENCE(target_is_no_vacuum, "a target of {} is no vacuum at {}, where the air has {}")
BW_SENTENCE(pump_does_not_reach, "pump goes down to {} at best and never reaches the target of {}")
BW_SENTENCE(the_pump, "the pump")
BW_SENTENCE(aim_at_what_it_reaches, "aim at what it reaches: {}")
BW_SENTENCE(
    water_boils,
    "under {} free water boils at {}, and the room has {}: wood that is not dry bubbles for hours, and foam is "
    "no proof that air still comes")
BW_SENTENCE(ice_boils,
            "under {} free water boils even where it freezes, and the room has {}: wood that is not dry bubbles for "
            "hours, and foam is no proof that air still comes")
BW_SENTENCE(the_room, "the room")

// ovens
BW_SENTENCE(no_oven, "no oven in the shop file: no cure is planned")
BW_SENTENCE(such_as_an_oven,
            "ovens = [{{name = \"Oven\", width = \"400 mm\", depth = \"350 mm\", height = \"300 mm\"}}]")
BW_SENTENCE(oven_not_hot_enough,
            "oven \"{}\" is too cold for the cure: with its dial at {} it reaches {}, the resin needs {}")
BW_SENTENCE(the_cure, "the cure")
BW_SENTENCE(add_a_hotter_pair,
            "add a pair at a higher setting, if the dial has one: set the dial, let the air settle, read an "
            "independent thermometer")
BW_SENTENCE(calibration_ends,
            "calibration of oven \"{}\" ends at {}; the resin cures at {}, and beyond what was measured the dial is "
            "not known")
BW_SENTENCE(
    calibration_begins,
    "calibration of oven \"{}\" begins at {}; the resin cures at {}, and beyond what was measured the dial is "
    "not known")
BW_SENTENCE(add_a_pair_above,
            "add a pair above {}: set the dial, let the air settle, read an independent thermometer")
BW_SENTENCE(add_a_pair_below,
            "add a pair below {}: set the dial, let the air settle, read an independent thermometer")
BW_SENTENCE(no_calibration, "oven \"{}\" has no calibration: which setting gives {} is not known")
BW_SENTENCE(
    calibrate_on_both_sides,
    "set the dial, let the air settle, read an independent thermometer; do so on both sides of the cure and "
    "write what you read: calibration = [{{dial = \"80 °C\", shown = \"76 °C\"}}, {{dial = \"110 °C\", shown = "
    "\"105 °C\"}}]")
BW_SENTENCE(shown_not_rising,
            "shown temperature of {} stands behind one of {}: the pairs of oven \"{}\" have to rise in both")
BW_SENTENCE(dial_not_rising, "dial of {} stands behind one of {}: the pairs of oven \"{}\" have to rise in both")
BW_SENTENCE(sort_by_dial, "sort the pairs by dial; where the air was colder at the higher setting, measure again")
BW_SENTENCE(does_not_lie_in_oven,
            "oven \"{}\" has {} × {} × {} left within its clearance; a blank of {} × {} does not lie in it")
BW_SENTENCE(
    sawn_does_not_lie_in_oven,
    "oven \"{}\" has {} × {} × {} left within its clearance; a blank of {} × {}, sawn and not yet dry, does not "
    "lie in it")
BW_SENTENCE(kept_free_in_oven, "kept free to walls and elements")
BW_SENTENCE(needs_an_oven, "it needs an oven of {0} × {1} × {0} inside")
BW_SENTENCE(needs_an_oven_or_drying_elsewhere,
            "it needs an oven of {0} × {1} × {0} inside; or dry it elsewhere and give it as it then is: blank = "
            "{{section = \"{2}\", length = \"{3}\", state = \"dry\"}}")

// cures
BW_SENTENCE(core_stays_cold, "core never gets to {} in air of {}")
BW_SENTENCE(the_air, "the air")
BW_SENTENCE(this_orders_resin, "the resin of this order")
BW_SENTENCE(cure_takes_too_long, "cure takes at least {}, the data sheet allows {}")
BW_SENTENCE(thinner_blanks, "thinner blanks, or an oven with a fan")
BW_SENTENCE(cure_may_take_too_long, "cure may take {}, the data sheet allows {}; {} is likely")
BW_SENTENCE(measure_the_core, "measure the core of a blank with a probe: that goes before the estimate")
