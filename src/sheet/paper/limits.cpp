#include "sheet/paper/limits.h"

#include "plan/figure/figure.h"

namespace blankwright {

Printed printed_figure(const Dossier& d, Figure figure) {
  return printed(figure, d.plan.figures.get(figure), d.shop.units.value);
}
std::string figure_text(const Dossier& d, Figure figure) { return shown(d, printed_figure(d, figure)); }

Printing figure_printing(const Dossier& d, Figure figure) {
  const FigureInfo& i = info(figure);
  return {d.shop.units.value, i.safe, i.fineness};
}

Printed at_most(const Dossier& d, Length limit, Fineness fineness) {
  return printed(limit, {d.shop.units.value, Round::down, fineness});
}
Printed at_most(const Dossier& d, Temperature limit) { return printed(limit, d.shop.units.value, Round::down); }
Printed at_most(Torque limit, UnitSystem units) { return printed(limit, units, Round::down); }
Printed at_most(Duration limit) { return printed(limit, Round::down); }
Printed at_most(Share limit) { return printed(limit, Round::down); }

Printed at_least(const Dossier& d, Length limit, Fineness fineness) {
  return printed(limit, at_least_printing(d, fineness));
}
Printed at_least(const Dossier& d, Density limit) { return printed(limit, d.shop.units.value, Round::up); }
Printed at_least(Duration limit) { return printed(limit, Round::up); }

Number at_least_number(const Dossier& d, Mass limit) { return number(limit, d.shop.units.value, Round::up); }
Printing at_least_printing(const Dossier& d, Fineness fineness) { return {d.shop.units.value, Round::up, fineness}; }

std::string drawn_at_most(const Dossier& d, Length limit) {
  return shown(d, drawn_number(limit, {d.shop.units.value, Round::down, Fineness::measured}));
}
Amount decimal_at_most(const Dossier& d, Length limit, Fineness fineness) {
  const UnitSystem units = d.shop.units.value;
  return {number(limit, {units, Round::down, fineness}), column_unit<Length>(units)};
}

Length settable(const Dossier& d, Length place) {
  if (d.shop.units.value == UnitSystem::metric) return place;
  const Length nearest = rounded(place / inch, 1.0 / 32, Round::nearest) * inch;
  return abs(nearest - place) < 0.0005 * inch ? nearest : place;
}

Printed ballast_to_weigh(const Dossier& d, Mass ballast) {
  const auto up = [&](Mass unit, double step) { return rounded(ballast / unit, step, Round::up); };
  if (d.shop.units.value == UnitSystem::metric) return printed(decimal(up(gram, 10), 0), PrintedUnit::g);
  return ballast < 2 * pound ? printed(decimal(up(ounce, 0.5), 1), PrintedUnit::oz)
                             : printed(decimal(up(pound, 0.05), 2), PrintedUnit::lb);
}

Printing size_printing(const Dossier& d, Fineness fineness) { return {d.shop.units.value, Round::nearest, fineness}; }

}  // namespace blankwright
