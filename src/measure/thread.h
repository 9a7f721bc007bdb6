#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "measure/quantity.h"

namespace blankwright {

enum class ThreadSystem { unified, metric };

/// A screw thread with a 60° profile (ISO 68-1, ASME B1.1).
struct Thread {
  ThreadSystem system = ThreadSystem::metric;
  Length major;           ///< basic major diameter
  Length pitch;           ///< basic pitch: 1 in / per_inch for unified
  int per_inch = 0;       ///< threads per inch; 0 for metric
  std::string series;     ///< "UNC", "UNF", "UNEF", "UN", "UNS", "UNRC" …; metric: "coarse", "fine" or "special"
  std::string tolerance;  ///< as written: "2A", "6g"; empty where nothing was said
  bool left_hand = false;
  std::string designation;             ///< "5/16-18 UNC", "#10-24 UNC-2A", "M8×1.25", "M8×1-6g-LH"
  std::optional<std::string> warning;  ///< accepted, but the reader should look twice; why
};

struct ThreadFault {
  enum class Kind {
    not_a_thread,
    which_thread,    ///< several threads are written like this
    screw_length,    ///< a screw's length, or what looks like one
    unlikely_pitch,  ///< too coarse or too fine for the size
    series_differs,  ///< the series named is not that of these threads per inch
    other_standard,  ///< pipe, Whitworth, trapezoidal …: not a 60° stud thread
    out_of_range,
  } kind;
  std::string message;                  ///< what was found, what is wanted; lower case, no full stop
  std::vector<std::string> candidates;  ///< each can be pasted in place of what was read; may be empty

  /// "write "1/4-20" or "1/4-28"", or empty where there is nothing to paste.
  std::string hint() const;
};

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
