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

/// A limit as a drawing shows it: "0.1"; in inches with three decimals.
std::string drawn_at_most(const Dossier& dossier, Length limit);
/// The same as a decimal with its unit, however finely the form is given: "0.5 mm", "0.015 in".
Amount decimal_at_most(const Dossier& dossier, Length limit, Fineness fineness);

/// A place at the saw that is meant as a fraction of an inch is one, whatever arithmetic has added to it: to 1/32 in,
/// what a fence can be set to.
Length settable(const Dossier& dossier, Length place);
/// What lies on the blanks, as it is put on scales: up to the next 10 g, or half ounce (0.05 lb from 2 lb on).
Printed ballast_to_weigh(const Dossier& dossier, Mass ballast);

/// A size that is neither: as it is, to the nearest step.
Printing size_printing(const Dossier& dossier, Fineness fineness);

}  // namespace blankwright
