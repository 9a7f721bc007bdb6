#include "sheet/paper/limits.h"

namespace blankwright {

std::string figure_text(const Dossier& d, Figure figure) {
  return text(figure, d.plan.figures.get(figure), d.shop.units.value);
}

Printing figure_printing(const Dossier& d, Figure figure) {
  const FigureInfo& i = info(figure);
  return {d.shop.units.value, i.safe, i.fineness};
}

std::string at_most(const Dossier& d, Length limit, Fineness fineness) {
  return text(limit, {d.shop.units.value, Round::down, fineness});
}
std::string at_most(const Dossier& d, Temperature limit) { return text(limit, d.shop.units.value, Round::down); }
std::string at_most(Torque limit, UnitSystem units) { return text(limit, units, Round::down); }
std::string at_most(Duration limit) { return text(limit, Round::down); }
std::string at_most(Share limit) { return text(limit, Round::down); }

std::string at_least(const Dossier& d, Length limit, Fineness fineness) {
  return text(limit, at_least_printing(d, fineness));
}
std::string at_least(const Dossier& d, Density limit) { return text(limit, d.shop.units.value, Round::up); }
std::string at_least(Duration limit) { return text(limit, Round::up); }

std::string at_least_number(const Dossier& d, Mass limit) { return number(limit, d.shop.units.value, Round::up); }
Printing at_least_printing(const Dossier& d, Fineness fineness) { return {d.shop.units.value, Round::up, fineness}; }

Printing size_printing(const Dossier& d, Fineness fineness) { return {d.shop.units.value, Round::nearest, fineness}; }

}  // namespace blankwright
