#pragma once

#include "sheet/frame/flow.h"
#include "sheet/mark/block.h"

namespace blankwright {

/// Words over the whole width from what is free on, line by line, on as many pages as it takes; wrapped at the
/// phrase's size. Nothing for an empty phrase.
void put_text(Flow& flow, const Phrase& phrase);

}  // namespace blankwright
