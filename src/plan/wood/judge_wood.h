#pragma once

#include <optional>
#include <string>

#include "plan/wood/drying.h"

// Judgements of the wood before the bath: its kind, its moisture, its density.

namespace blankwright {

struct WoodFigures {
  std::string name;
  Share tangential;
};

/// The species that the order means; ambiguous, unknown or without a known shrinkage is an error.
std::optional<WoodFigures> judge_species(const WoodFacts& wood, Diagnostics& out);

/// Do the shop's drying times rise with the thickness? Before drying(), which counts on it.
bool drying_times_rise(const Shop& shop, Diagnostics& out);

/// Is the wood too wet for the oven? It is air-dried first, or it checks.
void judge_drying(const Drying& drying, const Order& order, const Shop& shop, Diagnostics& out);

/// Oven-dry density of sound wood of the order's kind: the species table's; without one what the order measured.
/// None, which is an error, where neither is known. The species itself has been judged already.
std::optional<Density> judge_density(const WoodFacts& wood, Diagnostics& out);

}  // namespace blankwright
