#pragma once

#include "sheet/mark/page.h"

namespace blankwright {

/// The mark further down the page. A code stays on the printer's dots where `down` is a whole number of them.
Mark moved(Mark mark, Length down);

}  // namespace blankwright
