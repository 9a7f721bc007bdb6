#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "measure/quantity.h"

namespace blankwright {

/// How far a figure of the table can be trusted.
enum class Confidence {
  seen,         ///< in a public copy of the source named
  from_memory,  ///< published there, quoted from memory
};
std::string_view name_of(Confidence confidence);

/// Density at 12 % moisture, mass and volume both at 12 %, as EN 350 gives it. `low` and `high` bound the usual.
struct DensityRange {
  Density low, mean, high;
};

/// A kind of wood. Figures are means of sound wood: spalted, punky and burl stock departs strongly from them, so they
/// are a prior and no data; what counts is the blank's own mass and volume.
struct Species {
  std::string_view name;                  ///< "Black walnut", "European beech"
  std::string_view aliases;               ///< further names, separated by semicolons
  std::optional<double> green_gravity{};  ///< specific gravity, oven-dry mass on green volume
  std::optional<double> gravity_at_12{};  ///< the same on the volume at 12 % moisture
  std::optional<DensityRange> density_at_12{};
  std::optional<Share> radial{}, tangential{}, volumetric{};  ///< shrinkage, green to oven-dry
  std::string_view source{};
  Confidence gravity_confidence = Confidence::from_memory;  ///< of specific gravity or density
  Confidence shrinkage_confidence = Confidence::from_memory;
};

std::span<const Species> species_table();

/// Oven-dry mass on oven-dry volume: from the green specific gravity and the volumetric shrinkage (Wood Handbook
/// eq. 4-9), else from the density at 12 %. Where no volumetric shrinkage is tabled, the sum of the radial and the
/// tangential. None where the table lacks what is needed.
std::optional<Density> oven_dry_density(const Species& species);

/// Several kinds of wood go by this name, or it is not a whole name.
struct WhichSpecies {
  std::vector<std::string> candidates;
};

/// No kind of wood goes by this name; those written most alike, best first, perhaps none.
struct UnknownSpecies {
  std::vector<std::string> nearest;
};

using SpeciesAnswer = std::variant<const Species*, WhichSpecies, UnknownSpecies>;

/// Looks a wood up by name, without regard to case, hyphens, commas and the order of words: "Walnut, black" is black
/// walnut. A part of names, such as "walnut" or "oak", is answered with all that it is part of, never with a guess;
/// so is a name among other words ("spalted beech").
SpeciesAnswer find_species(std::string_view name);

}  // namespace blankwright
