#pragma once

#include <random>

#include "paper.h"

namespace blankwright {

// What happens to a code at a bench, on its picture.

/// Where the dark of a label's left part lies: its code, since words stand to the right of it.
struct CodeBox {
  int left = 0, top = 0, right = 0, bottom = 0;
};
CodeBox code_box(const Picture& label);

/// A code with its quiet zone of four modules in the middle of white, so that it can be turned without being cut.
Picture code_alone(const Picture& label);

/// Lying on something white, of which so many mm are seen on each side.
Picture on_white(const Picture& from, double border_mm);

Picture turned(const Picture& from, double degrees);

/// Seen from that far, the sheet turned about its upright middle line by that much.
Picture tilted(const Picture& from, double degrees, double distance_mm);

/// Gaussian, of that standard deviation in dots.
Picture blurred(const Picture& from, double sigma);

/// A square stain of a tenth of the symbol's area, off the three finder patterns with their white (ISO/IEC 18004:
/// eight modules of 25 in three corners), in black, white, grey or noise.
void stain(Picture& label, const CodeBox& code, std::mt19937_64& random);

/// That share of all dots, black or white.
void speckle(Picture& picture, double share, std::mt19937_64& random);

}  // namespace blankwright
