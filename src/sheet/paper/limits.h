#pragma once

#include <string>

#include "sheet/paper/dossier.h"

// How figures and limits stand on paper: each rounded by its kind, here and nowhere else in the sheets.

namespace blankwright {

/// A figure of the order's plan, in the units of the shop and to its own side.
std::string figure_text(const Dossier& dossier, Figure figure);
/// A length that is a figure of the plan, to its own side and fineness.
Printing figure_printing(const Dossier& dossier, Figure figure);

/// Something may be that much: rounded down.
std::string at_most(const Dossier& dossier, Length limit, Fineness fineness);
std::string at_most(const Dossier& dossier, Temperature limit);
std::string at_most(Torque limit, UnitSystem units);
std::string at_most(Duration limit);
std::string at_most(Share limit);
/// Something has to be that much: rounded up.
std::string at_least(const Dossier& dossier, Length limit, Fineness fineness);
std::string at_least(const Dossier& dossier, Density limit);
std::string at_least(Duration limit);

/// The same as a number alone, for columns whose head names the unit.
std::string at_least_number(const Dossier& dossier, Mass limit);
Printing at_least_printing(const Dossier& dossier, Fineness fineness);

/// A size that is neither: as it is, to the nearest step.
Printing size_printing(const Dossier& dossier, Fineness fineness);

}  // namespace blankwright
