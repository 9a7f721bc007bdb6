#pragma once

#include "diagnose/says_common.h"
#include "diagnose/sentence.h"

// What read says of the form of files and values.

// the file
BW_SENTENCE(file_too_large, "file is larger than the {} MiB that are read; is it the right file?")
BW_SENTENCE(not_utf8, "file is not UTF-8 text")
BW_SENTENCE(save_as_utf8, "save it again with the encoding UTF-8")
BW_SENTENCE(nested_too_deep, "brackets or dotted keys nested deeper than any file of this kind needs")
BW_SENTENCE(no_format, "the file does not say which format it is written in")
BW_SENTENCE(put_format, "put format = {} on the first line")
BW_SENTENCE(format_no_number, "`format` is not a whole number from 1 up")
BW_SENTENCE(newer_format, "the file is written in format {}; this program reads up to {}")
BW_SENTENCE(use_newer_program, "use a newer version of the program")

// kinds of value, as they are found and as they are wanted
BW_SENTENCE(a_text, "a text")
BW_SENTENCE(a_whole_number, "a whole number")
BW_SENTENCE(a_decimal_number, "a decimal number")
BW_SENTENCE(true_or_false, "true or false")
BW_SENTENCE(a_date, "a date")
BW_SENTENCE(a_time, "a time")
BW_SENTENCE(a_list, "a list")
BW_SENTENCE(a_table, "a table")
BW_SENTENCE(wrong_quantity_type, "`{}` is {}; {} with its unit, in quotes, belongs here")
BW_SENTENCE(wrong_text_type, "`{}` is {}; a text in quotes belongs here")
BW_SENTENCE(wrong_count_type, "`{}` is {}; a whole number without quotes belongs here")
BW_SENTENCE(wrong_truth_type, "`{}` is {}; true or false, without quotes, belongs here")
BW_SENTENCE(wrong_date_type, "`{}` is {}; a date as year-month-day without quotes belongs here")
BW_SENTENCE(wrong_table_type, "`{}` is {}; a table belongs here")
BW_SENTENCE(wrong_list_type, "`{}` is {}; a list belongs here")
BW_SENTENCE(key_is, "{} = {}")
BW_SENTENCE(key_in_brackets, "[{}]")
BW_SENTENCE(key_in_two_brackets, "[[{}]], with two brackets at either end")
BW_SENTENCE(key_is_list_of, "{} = [{}]")
BW_SENTENCE(key_is_some_list, "{} = [ ... ]")

// values
BW_SENTENCE(bare_number, "bare number where {} belongs; write it with its unit, in quotes")
BW_SENTENCE(value_because, "`{}`: {}")
BW_SENTENCE(out_of_range, "`{}` is {}; it has to be from {} to {}")
BW_SENTENCE(take_printed_letters,
            "write it with the letters of Latin or Greek script; the signs that can be printed are listed in "
            "fonts/characters.txt")
BW_SENTENCE(too_many_characters, "`{}` has {} characters; at most {} find room")
BW_SENTENCE(is_empty, "`{}` is empty")
BW_SENTENCE(write_in_quotes, "write it between the quotes")
BW_SENTENCE(not_day_or_time, "`{}` is neither a day nor a time of a day")
BW_SENTENCE(such_as_day_or_time, "{0} = {1}  or  {0} = \"{1} 13:00\"")
BW_SENTENCE(not_this_century, "`{}` is not in this century")
BW_SENTENCE(unknown_word, "`{}` is {}; it has to be one of {}")
BW_SENTENCE(unknown_item, "an item of `{}` is {}; it has to be one of {}")
BW_SENTENCE(too_many_items, "`{}` has {} items; it takes from {} to {}")

// files of another kind
BW_SENTENCE(two_files_in_one, "a job file and a shop file in one; here the second one begins")
BW_SENTENCE(another_file_begins, "put what stands from here on into a file of its own")
BW_SENTENCE(a_shop_file, "this is the shop file; an order's job file belongs here")
BW_SENTENCE(shop_is_read_anyway, "leave it out: it is read with every job beside it")
BW_SENTENCE(a_job_file, "this is a job file; the shop file belongs here")
BW_SENTENCE(shop_beside, "the shop file is shop.toml beside the job, or what --shop names")

// keys
BW_SENTENCE(key_missing, "`{}` is missing")
BW_SENTENCE(keys_missing, "{} are missing")
BW_SENTENCE(and_also, "{}  and  {}")
BW_SENTENCE(add_a_table, "add a table [{}]")
BW_SENTENCE(more_unknown_keys, "more unknown keys from here on; is it the right file?")
BW_SENTENCE(in_ticks, "`{}`")
BW_SENTENCE(stands_at_top, "`{}` stands at the top of the file, above the first [table]")
BW_SENTENCE(head_it, "[[{}]]")
BW_SENTENCE(stands_under, "`{}` stands under [{}]")
BW_SENTENCE(as_last_station, "{}, as the last of the stations")
BW_SENTENCE(each_by_itself, "did you mean `{}`? each has a line of its own")
BW_SENTENCE(tolerance_apart, "{} = {}; the tolerance of all diameters is `tolerance`, under [handle]")
BW_SENTENCE(keys_here, "keys here: {}")

// texts that mean something
BW_SENTENCE(how_to_write_drills, "write \"8.5 mm\", \"5/16 in\", \"#7\" or \"F\"")
BW_SENTENCE(no_such_zone, "`{}`: no time zone has the name {}")
BW_SENTENCE(
    write_area_and_city,
    "write area and city: {} = \"America/Chicago\" or \"Europe/Berlin\"; /usr/share/zoneinfo has a file of each name")
BW_SENTENCE(not_hours, "`{}`: {} is not a stretch of a day's hours, the earlier first")
BW_SENTENCE(such_as_hours, "write \"{}\"")
BW_SENTENCE(not_counts, "`{}`: {} does not say how many came out good of how many started")
BW_SENTENCE(such_as_counts, "{} = \"8 of 10\"")
BW_SENTENCE(not_money, "`{}`: {} is not an amount of money")
BW_SENTENCE(such_an_amount, "with its currency, in quotes: {} = \"{} EUR\"")
BW_SENTENCE(such_as_money, "an amount and its currency by three letters: {} = \"18.50 EUR\"")
BW_SENTENCE(not_a_blanks_id, "`{}`: {} is no blank's ID")
BW_SENTENCE(copy_first_id,
            "copy the first ID of the register, or leave this out: a new register draws a series of its own")
BW_SENTENCE(places_of_sentence, "`{}`: the places in braces are not those of the English, which has {}")
BW_SENTENCE(the_english, "the English is \"{}\"")
