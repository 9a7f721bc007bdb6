#pragma once

#include <string_view>

#include <tl/expected.hpp>

#include "measure/thread.h"

namespace blankwright {

/// Reads a thread as the trade writes it.
///
/// Unified: `5/16-18`, `#10-24`, `10-24`, `1-1/8-7`, `⅜-16`, `.375-16`, `1/4-20 UNC-2A-LH`; up to 1-1/2 in. The
/// series follows from the threads per inch; one that is named must agree with them. Metric: `M8` (coarse pitch
/// implied), `M8x1`, `M8×1.25-6g`, `M10x1,25`, `M8x1-LH`; M1 to M64. `M8-1.25` is taken with a warning. Letters in
/// either case, save those of a tolerance (6g is a screw's, 6G a nut's). Refused: screw lengths (`M8x30`,
/// `M8x1.25x30`, `1/4-20 x 1`), what is written alike for several threads (`10`, `1/4`), metric sizes without a
/// coarse pitch when none is given, other standards' threads. Source: ASME B1.1 section 6, ISO 965-1 section 4
/// (designation), ISO 261 (pitches); from memory.
tl::expected<Thread, ThreadFault> read_thread(std::string_view text);

}  // namespace blankwright
