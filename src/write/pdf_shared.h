#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "sheet/mark/page.h"
#include "write/pdf_content.h"

namespace blankwright {

/// Marks that stand alike on several pages, written once.
struct SharedMarks {
  Page marks;                      ///< of the pages' paper
  std::vector<std::size_t> pages;  ///< on which they all stand, ascending; at least two
};

/// Pages taken apart: what several have in common, and the rest of each. Shared marks may be drawn before the rest:
/// none covers anything, nor stands on what does.
struct TakenApart {
  std::vector<SharedMarks> shared;
  std::vector<Page> rest;  ///< marks and paper only, a page each
};
TakenApart taken_apart(std::span<const Page> pages);

}  // namespace blankwright
