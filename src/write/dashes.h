#pragma once

#include <vector>

#include "sheet/mark/page.h"

namespace blankwright {

/// Dashes and gaps for a line of the width. Hidden and centre lines, and those of neighbouring parts: ISO 128-2
/// (lines 02, 04 and 05, from memory: 12d 3d; 24d 3d 0.5d 3d; 24d 3d 0.5d 3d 0.5d 3d); tear line: common practice, no
/// source.
inline std::vector<Length> dash_lengths(Dash dash, Length width) {
  switch (dash) {
    case Dash::solid:
      break;
    case Dash::hidden:
      return {12 * width, 3 * width};
    case Dash::centre:
      return {24 * width, 3 * width, 0.5 * width, 3 * width};
    case Dash::phantom:
      return {24 * width, 3 * width, 0.5 * width, 3 * width, 0.5 * width, 3 * width};
    case Dash::tear:
      return {3 * mm, 1.5 * mm};
  }
  return {};
}

}  // namespace blankwright
