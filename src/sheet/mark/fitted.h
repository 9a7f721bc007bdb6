#pragma once

#include <string_view>

#include "sheet/mark/block.h"

namespace blankwright {

enum class Vertical { top, middle };

/// Sets words into a box in as many lines as it holds, at the largest size between the style's and its least that
/// finds room, in the narrow face where that keeps it larger; where none does, as without the template's enlargement.
/// Words that find none even then are cut, with an ellipsis at the end: for what stands in full elsewhere on the
/// sheet.
void fitted(Canvas& canvas, const Box& box, std::string_view words, const TextStyle& style,
            Vertical placing = Vertical::middle);

}  // namespace blankwright
