#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "plan/wood/cutting_input.h"

namespace blankwright {

/// A blank's place on a board: its length runs along the grain.
struct CutBlank {
  std::size_t board = 0;
  BoardArea area;
  int strip = 0;     ///< which strip of its board: panel by panel from the left, in each from the near edge; from 1
  int position = 0;  ///< in its strip, from the left end, from 1
  int layer = 1;     ///< of a thick board, resawn into so many; from the lower face
};

/// One cut. The blade takes the wood between `at` and `until`: a kerf, less where it runs out of the wood or over an
/// earlier cut. Always in the board's measures, not in those of the piece on the saw.
struct Cut {
  enum class Kind {
    across,   ///< over the board's whole width: takes an end off or parts the board into panels
    rip,      ///< along the grain over a panel's whole length
    resaw,    ///< of a strip on its edge, into layers
    crosscut  ///< of a strip, all its layers together
  };
  int number = 0;  ///< in the order in which they are made, over all boards; from 1
  Kind kind = Kind::rip;
  std::size_t board = 0;
  int strip = 0;         ///< which is resawn or crosscut; 0 for the others
  Length at{}, until{};  ///< a rip's from the near edge, a resaw's from the lower face, the others' from the left end
  Length from{}, to{};   ///< over which it runs: along the grain for rip and resaw, otherwise from the near edge
};

/// How blanks are sawn out of boards.
struct CuttingPlan {
  std::vector<Board> boards;     ///< as they were given
  Length section, length;        ///< of a sawn blank
  std::vector<CutBlank> blanks;  ///< in the order in which they come off the saw, the witness among them
  std::vector<Cut> cuts;
  std::optional<std::size_t> witness;  ///< index in `blanks`: one from the middle of its strip's length
  int wanted = 0;                      ///< with the witness
  int missing() const { return wanted - static_cast<int>(blanks.size()); }
};

/// Lays blanks out on boards, board after board in their order (when matched, that which gives most first), until
/// there are enough. A blank keeps the end trim from a board's ends, a kerf from its neighbours, and may touch an
/// edge or a defect. Of each board as many as there can be when it is sawn like this: across into panels or not at
/// all, each panel ripped over its whole length, a strip resawn when it is thicker than the section (all layers
/// alike: n · section + (n − 1) · kerf <= thickness), each strip crosscut. Never fewer than plain rows and columns
/// give; a board thinner than the section gives none. On the last board, strips with most blanks are taken first, and
/// what is not needed stays whole.
///
/// Cuts board by board in the order in which they are made: across, rips, resaws, crosscuts strip by strip; none
/// where an edge is there already. The witness is the blank nearest to the middle of the first strip with three or
/// more; without such a strip the middle one of all.
CuttingPlan cutting_plan(const CuttingInput& in);

}  // namespace blankwright
