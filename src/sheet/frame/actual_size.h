#pragma once

#include <string>
#include <vector>

#include "sheet/frame/frame.h"
#include "sheet/mark/block.h"

namespace blankwright {

/// What sizes are multiplied by when they are drawn, so that the shop's printer prints them true: 100 mm by what its
/// 100 mm bar measures, across the sheet and down.
struct PrinterCorrection {
  double across = 1, down = 1;

  /// The spot so far to the right and below of another one, as it is to measure on the printed sheet.
  Spot from(Spot origin, Length right, Length below) const {
    return {origin.x + across * right, origin.y + down * below};
  }
};

PrinterCorrection correction_of(const PrinterFacts& printer);

/// Begins a page that has to be true to size: bars of 100 mm, or of 4 in, across at its foot and down at its right
/// edge, and the words that ask for no scaling. `body` is what they leave.
Sheet begin_actual_size(const Dossier& dossier, const FontMetrics& fonts, Word title, PageOfKind page);

/// The bar across alone, at the left of a box at least 4 mm high, and the words beside it.
void draw_bar_across(Canvas& canvas, const Dossier& dossier, const Box& box);

/// How long the bars may be, which correction was applied, and what to write into the shop file where they are off.
std::vector<Phrase> bar_phrases(const Dossier& dossier);

/// The box of the ellipse that prints as a circle.
Box circle_to_print(const PrinterCorrection& correction, Spot centre, Length diameter);

/// A note as these sheets set them: one point of a list.
Phrase point(const std::string& words, Face face = Face::regular);

}  // namespace blankwright
