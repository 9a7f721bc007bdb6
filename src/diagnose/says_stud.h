#pragma once

#include "diagnose/says_part.h"
#include "diagnose/sentence.h"

// What plan/part says of the stud's strength, its tightening and the stock of studs.

// a side load
BW_SENTENCE(lever_missing, "`lever` is missing beside `side_load`")
BW_SENTENCE(say_where_it_acts, "say where it acts, from the seat: lever = \"80 mm\"")
BW_SENTENCE(side_load_missing, "`side_load` is missing beside `lever`")
BW_SENTENCE(side_load_or_no_lever, "side_load = \"50 N\", or leave `lever` out")
BW_SENTENCE(grade_unknown,
            "no yield strength is known of a stud of \"{}\"; whether the side load bends it is not judged")
BW_SENTENCE(stud_material_unknown,
            "nothing is said of the stud's material; whether the side load bends it is not judged")
BW_SENTENCE(say_grade_or_strength,
            "if it is that: grade = \"A2-70\", or what its certificate says: yield_strength = \"450 MPa\"")
BW_SENTENCE(side_load_bends,
            "side load of {} stresses the stud with {} at the seat; with the shop's safety factor of {} it bears {}")
BW_SENTENCE(with_this_lever, "with this lever")
BW_SENTENCE(what_it_bears, "what it bears")
BW_SENTENCE(stronger_stud_or_less_load, "a thicker or stronger stud, or side_load = \"{}\"")

// a torque, the client's thread
BW_SENTENCE(tapped_torque_unknown,
            "what torque a stud screwed into tapped wood bears is not worked out; only a twisted one is evidence")
BW_SENTENCE(bond_bears_torque, "bond bears a torque of {} with the shop's safety factor of {}; the order asks for {}")
BW_SENTENCE(metal_unknown,
            "nothing is said of the client's metal; whether the thread in it strips under the pull is not judged")
BW_SENTENCE(say_metals_strength,
            "about 0.6 of its tensile strength; of C36000 brass, for one: part_shear_strength = \"190 MPa\"")
BW_SENTENCE(stud_strength_unknown,
            "no tensile strength is known of the stud; its own thread is taken to be no weaker than the client's")
BW_SENTENCE(client_thread_under_tightening,
            "thread in the client's part bears {} with the shop's safety factor of {}; tightening pulls with {}")
BW_SENTENCE(client_thread_under_pull,
            "thread in the client's part bears {} with the shop's safety factor of {}; the order asks for {}")
BW_SENTENCE(what_is_engaged, "what is engaged")
BW_SENTENCE(what_the_metal_bears, "what the metal bears")

// tightening
BW_SENTENCE(tightening_with_pull,
            "tightening of {} pulls with up to {}; half of it and {} times the pull of {} are more than the {} that "
            "the bond bears")
BW_SENTENCE(tightening_twists_bond,
            "tightening of {} twists the bond until the seat closes; with the shop's assembly factor of {} it bears "
            "{}")
BW_SENTENCE(tightening_pulls_bond,
            "tightening of {} pulls with up to {}; the bond, twisted by it, bears {} with the shop's assembly factor "
            "of {}")
BW_SENTENCE(tightening_pulls_stud,
            "tightening of {} pulls with up to {}; the stud, twisted by it, bears {} at 90 % of its yield strength")
BW_SENTENCE(what_it_is_made_of, "what it is made of")
BW_SENTENCE(leave_tightening_out, "leave `tightening` out")
BW_SENTENCE(or_a_longer_stud, "{}, or a longer stud: embedded = \"{}\"")

// what the bond rests on
BW_SENTENCE(
    bond_is_assumed,
    "bond strength is assumed; published rules for glued rods are for long rods in softwood, and only a pulled "
    "witness is evidence")
BW_SENTENCE(order_resting_on_it, "an order that rests on it")
BW_SENTENCE(
    pull_and_enter,
    "set a stud in a witness, pull it out and enter `stud-pulled` with the force; or, if the shop's figure was "
    "measured so: shear_measured = true under [glue]")

// the stock
BW_SENTENCE(no_stud_of_thread, "no stud of {} is in stock; {} of {} are needed")
BW_SENTENCE(no_stud_long_enough, "no stud of {} in stock is long enough; {} of {} are needed")
BW_SENTENCE(too_few_studs, "studs of {} in stock give {} of {}; {} are needed")
BW_SENTENCE(in_stock, "in stock")
BW_SENTENCE(order_studs, "order them, or count again: `studs` in the shop file")
