#pragma once

#include "diagnose/says_common.h"
#include "diagnose/sentence.h"

// What plan/routing, plan/order, plan/shop and plan/gate say: routing, cost, the calendar, blanks and the order as it
// is now.

// routing and cost
BW_SENTENCE(routing_lacks,
            "the routing has no operation with planned = {}; the calendar leaves that out for treated wood")
BW_SENTENCE(treated, "treated")
BW_SENTENCE(add_to_routing,
            "a [[routing]] table each in the shop file, where it comes in the work, with name, who and planned = {}")
BW_SENTENCE(two_currencies, "price is in {}, another in {}; no rate of exchange is known")
BW_SENTENCE(the_other, "the other")
BW_SENTENCE(price_does_not_cover, "price of {} does not cover what a delivered piece costs, {}")
BW_SENTENCE(price_that_covers, "price = \"{}\" covers it, without any profit")

// the calendar
BW_SENTENCE(last_load_waits, "the oven takes bath {} in several loads; the last one waits {} for \"{}\"")
BW_SENTENCE(fewer_or_longer_wait, "fewer pieces at a time, or longest_wait = \"{}\" if they may lie so long")
BW_SENTENCE(a_blank_waits, "a blank waits")
BW_SENTENCE(blanks_wait, "{} blanks wait")
BW_SENTENCE(wait_is_broken, "{}: {} since {} for \"{}\", planned for {}; at most {} is allowed")
BW_SENTENCE(will_wait, "{}: {} from {} for \"{}\", planned for {}; at most {} is allowed")
BW_SENTENCE(runs_beyond_most, "{}: \"{}\" runs since {} and is planned to end {}; it may last {}")
BW_SENTENCE(
    nobody_stays,
    "{}: \"{}\" runs since {} and may end from {} on; it may not run while nobody is there, which is so from {} on")
BW_SENTENCE(stay_or_end_it, "somebody stays with it, or ends it by then")
BW_SENTENCE(out_of_order_meanwhile, "{}: \"{}\" runs in \"{}\" since {}, which is out of order from {} to {}")
BW_SENTENCE(move_it_and_enter,
            "move what is in it and enter that, or correct the outage; time in a cold oven proves nothing")
BW_SENTENCE(end_it_sooner, "whoever can come in sooner ends it then")
BW_SENTENCE(entries_are_later, "{} has entries up to {}, later than this plan's moment, {}; they count all the same")
BW_SENTENCE(plan_from_then, "leave --at out, or give a later moment")
BW_SENTENCE(look_at_them_first, "do it now, or weigh and look at them before it")
BW_SENTENCE(operation_not_planned, "operation \"{}\", of {}, cannot be planned for {} pieces: {}")
// why it cannot be planned
BW_SENTENCE(no_working_time, "nobody works within three years")
BW_SENTENCE(longest_below_length, "it takes longer than the most that it may last")
BW_SENTENCE(hands_on_above_length, "its hands-on time is longer than it lasts")
BW_SENTENCE(hands_on_above_stretch, "its hands-on time is longer than any unbroken stretch of work")
BW_SENTENCE(attended_above_stretch, "it may not run unattended and lasts longer than any unbroken stretch of work")
BW_SENTENCE(no_start_fits, "whenever it starts, nobody is there to end it in time, or its place is taken")
BW_SENTENCE(wait_cannot_be_met, "it always starts longer after the operation before it than it may wait")
BW_SENTENCE(nobody_for_it, "whoever does it is not there for long enough")
BW_SENTENCE(beyond_horizon, "it would end more than three years ahead")

// what would make it possible
BW_SENTENCE(hours_or_fewer_absences, "hours on some day under [hours], or fewer days away")
BW_SENTENCE(most_that_does, "most = \"{}\"  or more")
BW_SENTENCE(hands_on_that_does, "hands_on_time = \"{}\"  or less")
BW_SENTENCE(hands_on_or_hours, "hands_on_time = \"{}\"  or less, or longer hours without a break")
BW_SENTENCE(part_that_does, "least_part = \"{}\"  or less, or longer hours without a break")
BW_SENTENCE(shorter_outage, "an outage of \"{}\" that ends sooner, or another one in its place")
BW_SENTENCE(most_a_day_that_does, "most_a_day = {}")
BW_SENTENCE(no_most_a_day, "leave `most_a_day` out for \"{}\": one piece takes longer than a day has")
BW_SENTENCE(fewer_absences, "fewer or shorter absences (`away`) of {}")
BW_SENTENCE(longer_hours_of, "longer hours without a break for {}")
BW_SENTENCE(wait_that_does, "longest_wait = \"{}\", if it may lie so long")
BW_SENTENCE(fewer_pieces, "fewer pieces, or longer hours")

BW_SENTENCE(the_order, "the order")
BW_SENTENCE(may_run_long, "may_run_long = true, if it may go on until somebody is there to end it")
BW_SENTENCE(dry_unattended, "unattended_drying = true in the oven's [[ovens]], if it may run while nobody is there")
BW_SENTENCE(cure_unattended, "unattended_curing = true in the oven's [[ovens]], if it may run while nobody is there")
BW_SENTENCE(pump_unattended, "unattended = true under [pump], if it may run while nobody is there")
BW_SENTENCE(run_unattended, "unattended = true here, if it may run while nobody is there")
BW_SENTENCE(
    calendar_is_full,
    "the orders of this run do not all fit into the calendar; the times of this one are planned as if the shop "
    "had nothing else to do")
BW_SENTENCE(compile_fewer, "compile fewer orders in one run, the most urgent first")
BW_SENTENCE(late_start_by, "earliest finish is {}, after the due date; it would have had to start by {}")
BW_SENTENCE(late_anyway, "earliest finish is {}, after the due date; no start within three years would have done")
BW_SENTENCE(end_outage_sooner,
            "\"{}\" is out of order until {}: end that sooner, have another one, or tell the client")
BW_SENTENCE(day_is_past, "the day is past; the next such day: due = {}")
BW_SENTENCE(queues_behind,
            "before \"{}\" it queues for \"{}\" from {} to {}, behind {}: make room there, or tell the client")
BW_SENTENCE(batch_of_orders, "{} of {}")
BW_SENTENCE(bath_of_orders, "bath {} of {}")
BW_SENTENCE(load_of_orders, "load {} of {}")
BW_SENTENCE(operation_of_orders, "\"{}\" of {}")
BW_SENTENCE(tell_the_client,
            "tell the client, or make room: fewer orders at a time, longer hours, less on one person")

// blanks that do not fit
BW_SENTENCE(one_fits_no_more, "of the blanks that were begun one does not fit the order as it is now: {}")
BW_SENTENCE(several_fit_no_more, "of the blanks that were begun {} do not fit the order as it is now: {}")
BW_SENTENCE(promise_scrap_or_replace,
            "promise each to another order, or scrap it; others are started in their place by --replace")
BW_SENTENCE(one_promised_does_not_fit,
            "of the blanks promised to the order one does not fit it and is not counted: {}")
BW_SENTENCE(several_promised_do_not_fit,
            "of the blanks promised to the order {} do not fit it and are not counted: {}")
BW_SENTENCE(promise_or_scrap, "promise each to another order, or scrap it")
BW_SENTENCE(
    not_known_whether_they_fit,
    "whether they fit is not known, since what was printed when they were begun cannot be planned any more: {}")
BW_SENTENCE(hold_against_sheet, "hold them against the turner's sheet")
BW_SENTENCE(blank_and_why, "{} ({})")
BW_SENTENCE(blank_why_and_way, "{} ({}; could become {}: {})")
BW_SENTENCE(and_more, "and {} more")
BW_SENTENCE(one_id_not_needed, "{} of the order's IDs was never sawn and is not needed")
BW_SENTENCE(several_ids_not_needed, "{} of the order's IDs were never sawn and are not needed")
BW_SENTENCE(side_by_side, "{} {}")
BW_SENTENCE(withdraw, "blankwright enter withdrawn {}")
