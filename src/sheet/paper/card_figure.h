#pragma once

#include "plan/figure/figures.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// A figure as people read it; a dash where it is not known.
Printed card_figure(const Dossier& dossier, const Figures& figures, Figure figure);

}  // namespace blankwright
