#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "sheet/mark/block.h"
#include "sheet/mark/canvas.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// The cautions of boring, gluing and turning, then the shop's own. Those of other work stand on its sheets.
std::vector<std::string> turners_cautions(const Dossier& dossier);

/// What is wanted beside the form, notes and cautions in two columns of like height.
struct SmallPrint {
  std::vector<SetPhrase> left, right;  ///< a line each
  Length height;
  std::size_t left_out = 0;  ///< cautions
};

/// The same, its lines broken once, from which as much is taken as finds room: looking for that takes many tries.
class SmallText {
 public:
  struct Line {
    SetPhrase line;
    bool begins = false;  ///< a paragraph, or the title over it
    bool title = false;
  };

  /// For a sheet so wide, in a style of that size and face.
  SmallText(const Canvas& canvas, const Dossier& dossier, Length width, const TextStyle& style);

  /// Cautions that would make it higher than `most` are left to the back, which it says; notes never are.
  SmallPrint within(Length most) const;

 private:
  std::vector<Line> order_;
  std::vector<std::vector<Line>> cautions_;  ///< of each, the title over the first
  std::vector<std::vector<Line>> left_out_;  ///< what says so, of none, one and so on
};

void draw_small_print(Canvas& canvas, const SmallPrint& print, const Box& box);

}  // namespace blankwright
