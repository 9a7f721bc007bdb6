#pragma once

#include "diagnose/says_common.h"
#include "diagnose/sentence.h"

// What sheets and commands say: tags, files, the register beside an order.

// tags
BW_SENTENCE(no_room_on_label, "\"{}\" finds no room on a label of \"{}\"")
BW_SENTENCE(no_room_on_tie_tag, "\"{}\" finds no room on a tie tag")
BW_SENTENCE(shorter_or_larger_label, "shorten it, or take a larger label: `tag_sheet` in the template")
BW_SENTENCE(shorter_or_larger_tag, "shorten it, or take a larger tag: `tie_tag` in the template")
BW_SENTENCE(labels_near_edge,
            "labels of \"{}\" are printed within 5 mm of the paper's edge, where many printers print nothing")
BW_SENTENCE(print_one_and_look, "print one sheet and look, or take a label sheet with wider margins")
BW_SENTENCE(no_such_place, "--used-places: there is no place {} on a sheet of \"{}\", which has {}")
BW_SENTENCE(no_place_left, "--used-places: no place is left on a sheet of \"{}\", which has {}")

// files
BW_SENTENCE(no_template_file, "there is no template file {}")
BW_SENTENCE(such_as_template,
            "template = \"a4\" or template = \"letter\", or a path from the folder of the file that names it")
BW_SENTENCE(picture_because, "`file`: {}: {}")
BW_SENTENCE(other_pictures, "the pictures of template {} are not those that were printed")
BW_SENTENCE(what_a_picture_is,
            "a picture is a PNG file of at most 2 MB and 2,000 by 2,000 pixels, named from the template's folder")
BW_SENTENCE(name_it_with_its_folder,
            "is it in another folder? go there first, or name it with its folder: orders/H-0147.toml")
BW_SENTENCE(one_name_in_quotes, "a name with a space in it is written in quotes: \"{}\"")
BW_SENTENCE(where_the_shop_file_is,
            "the shop file is shop.toml beside the first job, or in the present folder where no job is named; --shop "
            "names another one")

// the register, and orders of one run
BW_SENTENCE(other_series, "`series`: the register's IDs begin with {}, and not with {}")
BW_SENTENCE(this_shops_series, "if it is this shop's register: series = \"{}\"")
BW_SENTENCE(file_and_database, "the register stands in `file` or in `database`, not in both")
BW_SENTENCE(register_file_too, "the file is named here")
BW_SENTENCE(name_one_place, "leave one of them out")
BW_SENTENCE(parameters_because, "`database`: {}")
BW_SENTENCE(such_as_database,
            "database = \"host=office dbname=shop\", or by a service file: database = \"service=shop\"")
BW_SENTENCE(password_in_shop_file,
            "`database`: a password does not belong into the shop file, which is kept with each order")
BW_SENTENCE(password_elsewhere,
            "leave it out: it stands in the password file (~/.pgpass), in a service file (database = "
            "\"service=shop\"), or in the variable PGPASSWORD")
BW_SENTENCE(built_without_postgresql, "`database`: this program was built without PostgreSQL")
BW_SENTENCE(other_case_in_register, "the register has an order \"{}\", which differs from \"{}\" in case alone")
BW_SENTENCE(
    open_order_not_planned,
    "order \"{}\" is open in the register and cannot be planned as its job stands there: no place is held for "
    "it")
BW_SENTENCE(compile_its_job, "compile its job file, which tells why")
BW_SENTENCE(other_order_in_register, "order \"{}\" is \"{}\" for {} in the register; here it is \"{}\" for {}")
BW_SENTENCE(id_of_its_own, "give this order an id of its own: id = \"{}\"")
BW_SENTENCE(give_own_id, "give this order an id of its own")
BW_SENTENCE(compiled_twice, "order \"{}\" is compiled twice in this run")
BW_SENTENCE(differs_in_case, "order \"{}\" differs from \"{}\" in case alone")
