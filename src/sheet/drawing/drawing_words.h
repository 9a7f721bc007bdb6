#pragma once

#include <string>
#include <vector>

#include "sheet/paper/turner_facts.h"

namespace blankwright {

/// What is written round the handle, in the words of the template and the units of the shop.
struct DrawingWords {
  std::string thread;             ///< "Stud M8×1.25 × 50"
  std::string position;           ///< "Ø1.24"; of a rounded blank the run-out, "1.24"
  std::string lean;               ///< "Ø0.55/100"
  std::string squareness;         ///< "0.10"
  std::string projection;         ///< "14"
  std::string metal_zone;         ///< "Metal zone 24"
  std::vector<std::string> bore;  ///< "Bore Ø9 – 30 deep", "Reservoir 6"
  std::string seat;               ///< "Seat", "Seat, spigot Ø20 × 3", "Seat, recess Ø20 – 3 deep"
  /// "Ferrule Ø27 × 12, glued on", "6, 7: wood under it Ø25", or nothing.
  std::vector<std::string> ferrule;
};
DrawingWords drawing_words(const Dossier& dossier);

}  // namespace blankwright
