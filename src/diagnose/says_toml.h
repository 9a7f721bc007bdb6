#pragma once

#include "diagnose/sentence.h"

// What read says of a text that is not TOML, to somebody who writes it for the first time.

BW_SENTENCE(not_toml, "not TOML: {}")
BW_SENTENCE(last_of_the_month, "the month ends on {}")
BW_SENTENCE(write_line_as, "{}")
BW_SENTENCE(leave_line_out, "leave this line out")
BW_SENTENCE(save_as_plain_text, "save it again as plain text, in UTF-8")

BW_SENTENCE(a_word_processors_file, "a word processor's file; a plain text belongs here")
BW_SENTENCE(a_fence, "a line of a manual's page and none of the file's")
BW_SENTENCE(curly_quotes, "curly quotes; the straight ones belong here")
BW_SENTENCE(colon_for_equals, "a colon; behind a key stands an equals sign")
BW_SENTENCE(semicolon_at_end, "a semicolon; nothing ends a line but its end")
BW_SENTENCE(no_equals, "a key without its equals sign")
BW_SENTENCE(space_in_key, "a key with a space in it; keys have an underscore there")
BW_SENTENCE(date_as_year_month_day,
            "a date is written year-month-day, each month and day with two digits, without quotes")
BW_SENTENCE(not_true_or_false, "yes and no are written true and false, in small letters")
BW_SENTENCE(quantity_without_quotes,
            "a quantity stands in quotes, with its unit, and decimals begin with a full stop")
BW_SENTENCE(inch_sign_in_quotes, "an inch sign ends the text; inches are written in")
BW_SENTENCE(quote_not_closed, "a text without its closing quote")
BW_SENTENCE(text_without_quotes, "a text stands in quotes")
BW_SENTENCE(comment_goes_on, "words without a key; a remark begins with # on each line")
BW_SENTENCE(columns_for_station, "two figures; a station says which is which")
BW_SENTENCE(comma_missing, "no comma between two items of a list")
BW_SENTENCE(list_not_closed, "a list that is not closed")
BW_SENTENCE(close_list, "] on a line of its own, above this one")
BW_SENTENCE(list_begins_here, "the list begins here")
BW_SENTENCE(table_over_lines, "a table in braces stands on one line")
BW_SENTENCE(heading_twice, "heading [{}] stands here a second time")
BW_SENTENCE(join_headings, "put the lines below it under the first [{}], and leave this heading out")
BW_SENTENCE(heading_of_list, "`{}` is a list: each of its headings has two brackets")
BW_SENTENCE(key_twice, "`{}` stands here a second time")
BW_SENTENCE(leave_one_line_out, "leave one of the two lines out")
BW_SENTENCE(the_first_one, "the first one")
