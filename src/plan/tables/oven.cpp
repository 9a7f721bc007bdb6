#include "plan/tables/oven.h"

namespace blankwright {

FilmCoefficient film_coefficient(bool fan) {
  return fan ? FilmCoefficient{.likely = 20, .cautious = 15} : FilmCoefficient{.likely = 10, .cautious = 5};
}

}  // namespace blankwright
