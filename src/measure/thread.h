#pragma once

#include <optional>
#include <string>
#include <vector>

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

}  // namespace blankwright
