#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/sheet/traveller.h"

namespace blankwright {

/// Is that what was asked for of a traveller? A person's pages ("turner", "bath", "desk"); a sheet's, by its key in a
/// template or by its title on paper ("oven", "Bath card"); a bath's or a load's card, by its number or its name
/// ("bath 2", "Oven card 1", "B-NG7-32GX", "bath B2"). Large and small letters are the same. A word that is a
/// person's and a sheet's is the person's.
bool is_asked(const PartOnPage& part, std::string_view what, const WordTable& words);

/// Which of the pages have such a part on them; none where `what` is nothing that there is.
std::vector<bool> pages_asked(std::span<const TravellerPage> pages, std::string_view what, const WordTable& words);

/// What could be asked for of these pages, as it would be: "turner", "routing", "\"bath 1\"", …
std::vector<std::string> what_can_be_asked(std::span<const TravellerPage> pages, const WordTable& words);

/// What stands on a page, by the titles on paper: "Cutting plan, List of blanks"; "Bath card 1, 2".
std::string holds_text(const TravellerPage& page, const WordTable& words);

}  // namespace blankwright
