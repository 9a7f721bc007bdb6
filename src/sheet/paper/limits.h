#pragma once

#include <string>

#include "sheet/paper/dossier.h"

// How figures and limits stand on paper: each rounded by its kind, here and nowhere else in the sheets.

namespace blankwright {

/// What is printed, as the template spells it: a quantity, a number alone, a unit.
template <class Printable>
std::string shown(const Template& sheet_template, const Printable& printable) {
  return text(printable, sheet_template.spelling);
}
template <class Printable>
std::string shown(const Dossier& dossier, const Printable& printable) {
  return shown(dossier.sheet_template, printable);
}

/// A figure of the order's plan, in the units of the shop and to its own side.
Printed printed_figure(const Dossier& dossier, Figure figure);
std::string figure_text(const Dossier& dossier, Figure figure);
/// A length that is a figure of the plan, to its own side and fineness.
Printing figure_printing(const Dossier& dossier, Figure figure);

/// Something may be that much: rounded down.
Printed at_most(const Dossier& dossier, Length limit, Fineness fineness);
Printed at_most(const Dossier& dossier, Temperature limit);
Printed at_most(Torque limit, UnitSystem units);
Printed at_most(Duration limit);
Printed at_most(Share limit);
/// Something has to be that much: rounded up.
Printed at_least(const Dossier& dossier, Length limit, Fineness fineness);
Printed at_least(const Dossier& dossier, Density limit);
Printed at_least(Duration limit);

/// The same as a number alone, for columns whose head names the unit.
Number at_least_number(const Dossier& dossier, Mass limit);
Printing at_least_printing(const Dossier& dossier, Fineness fineness);

/// A size that is neither: as it is, to the nearest step.
Printing size_printing(const Dossier& dossier, Fineness fineness);

}  // namespace blankwright
