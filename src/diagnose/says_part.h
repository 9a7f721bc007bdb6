#pragma once

#include "diagnose/says_common.h"
#include "diagnose/sentence.h"

// What plan/part says: drill, bore, blank, seat and stud against the limits of order and shop.

// the drill
BW_SENTENCE(drill_below_glue_line,
            "drill {} leaves less than the glue line of {} round a stud of {}; it has to be {} at least")
BW_SENTENCE(drill_outside_thread, "drill {} is {}; a hole for {} is tapped from {} to {}")
BW_SENTENCE(no_drill_to_glue, "the shop owns no drill of {} or a little more for {}")
BW_SENTENCE(no_drill_to_tap, "the shop owns no drill from {} to {} for {}")
BW_SENTENCE(add_a_drill, "add one to `drills` under [boring] in the shop file")
BW_SENTENCE(the_stud, "the stud")
BW_SENTENCE(the_thread, "the thread")

// the stud in the wood
BW_SENTENCE(stud_sits_short, "stud sits {} deep in the wood; the shop asks for {} diameters, {}")
BW_SENTENCE(embed_or_leave_out, "embedded = \"{}\", or leave it out to have it worked out")
BW_SENTENCE(stud_bottoms,
            "stud enters {}, as deep as the client's hole of {} or deeper; it would bottom before the seat closes")
BW_SENTENCE(the_hole, "the hole")
BW_SENTENCE(tapped_pull_unknown,
            "what a stud screwed into tapped wood bears is not worked out; only a pulled one is evidence")
BW_SENTENCE(tapped, "tapped")
BW_SENTENCE(pull_a_witness,
            "pull one out of a witness, with the factor that the load asks for; or fit = \"glued\" under [bore]")
BW_SENTENCE(bond_pulls_out, "bond of {} bears {} with the shop's safety factor of {}; the order asks for {}")
BW_SENTENCE(the_length_in_wood, "the length in the wood")
BW_SENTENCE(leave_embedded_out, "leave `embedded` out to have it worked out")

// the bore
BW_SENTENCE(bore_deeper_than_handle, "bore for the stud is {} deep to its point; the handle is {} long")
BW_SENTENCE(sets_the_bore, "this sets the bore's depth")
BW_SENTENCE(web_left, "bore leaves {} of wood behind its point; the shop asks for {}")
BW_SENTENCE(make_handle_long, "make the handle at least \"{}\" long")
BW_SENTENCE(wider_or_thinner_stud, "a thinner stud, or a handle of Ø {} at least there")
BW_SENTENCE(wall_left, "bore leaves a wall of {} at {} from the seat; the shop asks for {}")
BW_SENTENCE(surface_near_stud,
            "surface is {} diameters from the stud's axis where it is nearest; for the full strength of a glued stud "
            "the shop asks for {}")
BW_SENTENCE(thinner_stud_or_wider_handle,
            "a thinner stud, or a handle of Ø {} as far as the stud goes; what thinner wood bears, only a pulled "
            "witness tells")

// the blank
BW_SENTENCE(blank_is_short, "blank is {} long when squared; handle, facing and waste take {}")
BW_SENTENCE(no_bore_would_do,
            "no bore would do: at {} from the seat the form with its allowances is {} larger than the squared blank "
            "of {}")
BW_SENTENCE(the_form, "the form")
BW_SENTENCE(take_a_blank, "take a blank of \"{}\" or more")
BW_SENTENCE(mark_truer_or_take_a_blank, "mark the centres within {} of the middle, or take a blank of \"{}\" or more")
BW_SENTENCE(bore_truer, "this blank asks for a bore within Ø {} at the seat; the shop holds Ø {}")
BW_SENTENCE(what_the_shop_holds, "what the shop holds")

// the seat
BW_SENTENCE(face_no_larger_than_stud, "client's face of Ø {} is no larger than the stud of Ø {}")
BW_SENTENCE(leave_part_diameter_out, "leave `part_diameter` out where it is not known")
BW_SENTENCE(no_effect_on_flat_seat, "`{}` has no effect on a flat seat")
BW_SENTENCE(spigot_or_recess, "form = \"spigot\"  or  form = \"recess\"")
BW_SENTENCE(driest_is_damper, "`driest` is {}, damper than `dampest`, {}")
BW_SENTENCE(the_dampest, "`dampest`")
BW_SENTENCE(diameter_missing, "`diameter` of the {} is missing")
BW_SENTENCE(such_as_seat_diameter, "diameter = \"20 mm\"")
BW_SENTENCE(height_missing, "`height` of the {} is missing")
BW_SENTENCE(such_as_seat_height, "height = \"3 mm\"")
BW_SENTENCE(larger_than_seat, "{} of Ø {} is larger than the seat of Ø {}")
BW_SENTENCE(the_seat, "the seat")
BW_SENTENCE(seat_may_grow, "seat may grow by {} from oven-dry to {} of moisture in use; its tolerance is {}")
BW_SENTENCE(let_moisture_in, "let the blanks take up the moisture of use before they are turned")
BW_SENTENCE(let_moisture_in_or_turn,
            "let the blanks take up the moisture of use before they are turned, or turn the seat to {} where it must "
            "never stand proud")

// the ferrule
BW_SENTENCE(ferrule_without_wall, "ferrule of Ø {} inside has no wall")
BW_SENTENCE(its_outside, "its outside")
BW_SENTENCE(ferrule_loose, "ferrule of Ø {} inside is loose: at {} from the seat the form is Ø {}")
BW_SENTENCE(wall_under_ferrule, "bore of Ø {} leaves a wall of {} under the ferrule; the shop asks for {}")
BW_SENTENCE(ferrule_too_long, "ferrule is {} long; the handle is {}")
BW_SENTENCE(ferrule_too_tight, "ferrule of Ø {} does not go on: under it, at {} from the seat, the form is Ø {}")
