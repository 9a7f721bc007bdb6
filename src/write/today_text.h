#pragma once

#include <string>

#include "sheet/paper/today_list.h"

namespace blankwright {

/// Today's list for a terminal: a title, then each section with its rows, columns aligned.
std::string today_as_text(const TodayFacts& facts);

/// The same as JSON (RFC 8259): {"at", "entry", "sections": [{"section", "title", "rows": [{…}]}]}; a row has no key
/// for what it says nothing of.
std::string today_as_json(const TodayFacts& facts);

}  // namespace blankwright
