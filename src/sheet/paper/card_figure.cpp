#include "sheet/paper/card_figure.h"

#include "plan/figure/figure.h"

namespace blankwright {

Printed card_figure(const Dossier& d, const Figures& figures, Figure figure) {
  return figures.known(figure) ? printed(figure, figures.get(figure), d.shop.units.value) : printed_words("–");
}

}  // namespace blankwright
