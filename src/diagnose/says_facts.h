#pragma once

#include "diagnose/says_common.h"
#include "diagnose/sentence.h"

// What read says of job, shop and template whose values each are well.

// the job
BW_SENTENCE(id_because, "`id`: {}")
BW_SENTENCE(how_to_write_ids, "use up to 40 letters, digits, full stops, underscores and hyphens: id = \"{}\"")
BW_SENTENCE(first_station_not_at_seat, "the first station is not at the seat; lengths are measured from there")
BW_SENTENCE(such_as_first_station, "at = \"0 mm\"")
BW_SENTENCE(smooth_needs_stations, "a smooth form needs {} stations; this one has {}")
BW_SENTENCE(straight_or_more_stations, "form = \"straight\", or add stations")
BW_SENTENCE(station_not_farther, "this station is not farther from the seat than the one before")
BW_SENTENCE(as_from_seat, "all lengths are from the seat; if these are from one station to the next: at = {}")
BW_SENTENCE(no_witness_wanted, "`witness_for` is named, but no witness is wanted")
BW_SENTENCE(want_witness, "witness = true, or leave `witness_for` out")

// the shop's routing and hours
BW_SENTENCE(most_without_effect, "`most` has no effect on an operation that may not run long")
BW_SENTENCE(such_as_may_run_long, "may_run_long = true")
BW_SENTENCE(hands_on_without_effect, "`hands_on_time` has no effect on an operation that somebody is at throughout")
BW_SENTENCE(such_as_hands_on, "hands_on = \"start\"  or  hands_on = \"ends\"")
BW_SENTENCE(operation_without_time, "operation \"{}\" has no time")
BW_SENTENCE(such_as_time, "fixed = \"1 h\"  or  per_piece = \"5 min\"")
BW_SENTENCE(operation_with_two_times, "operation \"{}\" takes its time from the plan, and has one of its own")
BW_SENTENCE(from_the_plan, "from the plan")
BW_SENTENCE(leave_one_out, "leave one of the two out")
BW_SENTENCE(most_below_time, "`most` is less than the time that the operation takes")
BW_SENTENCE(the_time_it_takes, "the time that it takes")
BW_SENTENCE(witnesses_alone_before, "\"{}\" is done to witnesses alone before \"{}\"")
BW_SENTENCE(they_go_with_others, "they go through this with the others")
BW_SENTENCE(stretches_overlap, "this stretch begins before the one before it ends")
BW_SENTENCE(earlier_first, "write the earlier one first")
BW_SENTENCE(leave_stretch_out, "leave this one out: the one before it covers it")
BW_SENTENCE(no_hours_at_all, "no working hours on any day")
BW_SENTENCE(such_as_a_day, "monday = [\"08:00-12:00\", \"13:00-17:00\"]  under [hours]")
BW_SENTENCE(such_as_own_hours,
            "monday = [\"08:00-12:00\", \"13:00-17:00\"]  in the `hours` of \"{}\"; without any they work the shop's")
BW_SENTENCE(sent_out_with_time, "operation \"{}\" is sent out for a time, and has another of its own")
BW_SENTENCE(key_without_effect, "`{}` has no effect on operation \"{}\"")
BW_SENTENCE(leave_key_out, "leave `{}` out")
BW_SENTENCE(either_of_two, "{}  or  {}")
BW_SENTENCE(two_keys_are, "{} = {}, {} = {}")
BW_SENTENCE(ends_before_it_begins, "the end is not after the beginning")
BW_SENTENCE(the_beginning, "the beginning")
BW_SENTENCE(name_stands_twice, "\"{}\" is there twice")
BW_SENTENCE(give_another_name, "name = \"{} 2\", or leave one of the two out")
BW_SENTENCE(here_too, "here too")
BW_SENTENCE(not_among, "\"{}\" is not among the shop's {}")
BW_SENTENCE(add_named_or, "a table [[{}]] with name = \"{}\", or {} here")
BW_SENTENCE(add_named, "a table [[{}]] with name = \"{}\"")
BW_SENTENCE(missing_beside, "`{}` is missing beside `{}`")

// the template
BW_SENTENCE(labels_run_off, "labels of \"{}\" run off the paper: they end {} from the left and {} from the top")
BW_SENTENCE(labels_overlap, "labels of \"{}\" overlap: their pitch is less than their size")
BW_SENTENCE(stands_twice, "`{}`: {} is in it twice")
BW_SENTENCE(list_lacks, "`{}` lacks {}")
BW_SENTENCE(tie_tag_too_wide,
            "a tie tag with its flap of {} and its stub is {} wide; the paper has {} between its margins")
BW_SENTENCE(tags_stay_on, "tags stay on {}, on the label sheet \"{}\"")
BW_SENTENCE(no_such_label_sheet, "`tag_sheet`: there is no label sheet \"{}\"")
BW_SENTENCE(label_sheets, "label sheets: {}")
BW_SENTENCE(block_out_of_place, "`kind`: \"{}\" has no place in `{}`")
BW_SENTENCE(there_may_stand, "there may stand: {}")
BW_SENTENCE(block_lacks_key, "a block of kind \"{}\" lacks `{}`")
BW_SENTENCE(nothing_to_stand_beside, "the first block of `{}` has none before it to stand beside")
BW_SENTENCE(list_lacks_block, "`{}` lacks a block of kind \"{}\"")
BW_SENTENCE(such_as_block, "[[{}]]\nkind = \"{}\"")
