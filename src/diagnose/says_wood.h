#pragma once

#include "diagnose/says_common.h"
#include "diagnose/sentence.h"

// What plan/wood says: boards and their defects, species, drying, how many blanks to start.

// boards
BW_SENTENCE(defect_ends_before_it_begins, "defect ends where it begins or before: `{}` has to be more than `{}`")
BW_SENTENCE(where_it_begins, "where it begins")
BW_SENTENCE(defect_beyond_board, "defect reaches beyond its board: `{}` is more than the board's {}")
BW_SENTENCE(the_board, "the board")
BW_SENTENCE(half_a_defect, "defect has `{}` without `{}`")
BW_SENTENCE(give_both_sides, "give both, or neither for the board's whole width")
BW_SENTENCE(two_boards_of_a_name, "two boards are called \"{}\"; a blank could not be traced to its board")
BW_SENTENCE(boards_give,
            "boards give {} of {} blanks; for the {} missing it takes a clear board {} wide and thick, {} long")
BW_SENTENCE(boards_give_with_witness,
            "boards give {} of {} blanks, one of them the witness; for the {} missing it takes a clear board {} wide "
            "and thick, {} long")
BW_SENTENCE(board_too_thin, "too thin for a blank of {} × {}")
BW_SENTENCE(board_too_narrow, "too narrow for a blank of {} × {}")
BW_SENTENCE(board_too_short, "too short for a blank of {} × {}")
BW_SENTENCE(add_boards, "add what there is besides under [[wood.boards]], or buy that")

// species and density
BW_SENTENCE(name_of_several_woods, "\"{}\" is the name of several woods that shrink differently")
BW_SENTENCE(more_than_a_name, "\"{}\" says more than the name of a wood")
BW_SENTENCE(species_and_condition, "species = \"{}\"  and  condition = \"{}\"")
BW_SENTENCE(write_one, "write {}")
BW_SENTENCE(no_shrinkage_known, "no shrinkage is known of \"{}\"")
BW_SENTENCE(
    give_its_shrinkage,
    "`blankwright known species` lists the woods that are known; of another one give the tangential shrinkage: "
    "tangential = \"8 %\" under [wood]")
BW_SENTENCE(shrinkage_not_tabled, "the shrinkage of {} is not tabled")
BW_SENTENCE(give_it, "give it: tangential = \"8 %\" under [wood]")
BW_SENTENCE(no_density_known, "oven-dry density of \"{}\" is not known, and without it no uptake of resin")
BW_SENTENCE(weigh_a_dry_piece, "weigh and measure an oven-dry piece: dry_density = \"0.52 g/cm3\" under [wood]")

// drying
BW_SENTENCE(dries_faster_than_thinner, "{} for {} is less than {} for the thinner {}")
BW_SENTENCE(thickness_not_rising, "thickness {} does not come after {}")
BW_SENTENCE(the_row_before, "the row before")
BW_SENTENCE(write_thin_to_thick, "write the rows from thin to thick, none drying faster than a thinner one")
BW_SENTENCE(wet_wood_checks, "wood of {} moisture cracks in the oven; above {} it is air-dried first")
BW_SENTENCE(wood_taken_as_wet_checks,
            "wood of {} moisture, assumed since none is given, cracks in the oven; above {} it is air-dried first")
BW_SENTENCE(the_shops_limit, "the shop's limit")
BW_SENTENCE(air_dry_and_measure,
            "seal the ends, dry it under cover and measure again; then moisture = \"{}\" or less under [wood]")

// how many to start
BW_SENTENCE(not_enough_even, "even {} blanks would not give {} good ones with a chance of {}")
BW_SENTENCE(by_this_yield, "by this yield")
BW_SENTENCE(lower_confidence, "lower `confidence`, or count more blanks before you promise so many")
BW_SENTENCE(no_yield_known, "no yield is known: {} ordered and {} to spare are started, with no chance stated")
BW_SENTENCE(count_what_came_out_good,
            "count what came out good so far: expected = \"8 of 10\" under [yield] in the shop file")
BW_SENTENCE(
    rests_on_own_count,
    "blanks to start: from {} good of {}, those counted in the shop file among them, until the register has {}")
