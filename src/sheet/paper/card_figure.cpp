#include "sheet/paper/card_figure.h"

#include "sheet/paper/limits.h"

namespace blankwright {

std::string card_figure(const Dossier& d, const Figures& figures, Figure figure) {
  return figures.known(figure) ? text(figure, figures.get(figure), d.shop.units.value) : "–";
}

}  // namespace blankwright
