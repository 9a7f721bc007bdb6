#include "plan/tables/species.h"

#include <array>

#include "plan/tables/wood.h"

namespace blankwright {
namespace {

constexpr Confidence seen = Confidence::seen;
constexpr Confidence memory = Confidence::from_memory;

constexpr std::optional<Share> in_percent(std::optional<double> number) {
  return number ? std::optional{*number * percent} : std::nullopt;
}

/// Wood Handbook, FPL-GTR-190 (2010): specific gravity of table 5-3, quoted from memory on the green volume;
/// shrinkage of table 4-3, p. 4-6, as far as `shrinkage` says so seen in a public copy.
constexpr Species wood_handbook(std::string_view name, std::string_view aliases, double green, double at_12,
                                double radial, double tangential, double volumetric, Confidence shrinkage) {
  return {.name = name,
          .aliases = aliases,
          .green_gravity = green,
          .gravity_at_12 = at_12,
          .density_at_12 = {},
          .radial = radial * percent,
          .tangential = tangential * percent,
          .volumetric = volumetric * percent,
          .source = "Wood Handbook, FPL-GTR-190, tables 4-3 and 5-3",
          .gravity_confidence = memory,
          .shrinkage_confidence = shrinkage};
}

/// Wood Handbook, FPL-GTR-190 (2010), table 4-4, p. 4-8; specific gravity of table 5-5, from memory where not said.
constexpr Species imported(std::string_view name, std::string_view aliases, std::optional<double> green,
                           double radial, double tangential, double volumetric, Confidence gravity,
                           Confidence shrinkage) {
  return {.name = name,
          .aliases = aliases,
          .green_gravity = green,
          .gravity_at_12 = {},
          .density_at_12 = {},
          .radial = radial * percent,
          .tangential = tangential * percent,
          .volumetric = volumetric * percent,
          .source = "Wood Handbook, FPL-GTR-190, table 4-4",
          .gravity_confidence = gravity,
          .shrinkage_confidence = shrinkage};
}

struct KilogramPerM3 {
  double low, mean, high;
};

/// EN 350:2016, density at 12 % moisture, and usual shrinkage; all from memory. Where only a mean is known it stands
/// three times.
constexpr Species european(std::string_view name, std::string_view aliases, KilogramPerM3 density,
                           std::optional<double> radial, std::optional<double> tangential) {
  return {.name = name,
          .aliases = aliases,
          .green_gravity = {},
          .gravity_at_12 = {},
          .density_at_12 = DensityRange{density.low * kilogram_per_m3, density.mean * kilogram_per_m3,
                                        density.high * kilogram_per_m3},
          .radial = in_percent(radial),
          .tangential = in_percent(tangential),
          .volumetric = {},
          .source = "EN 350:2016 (density) and usual figures (shrinkage), from memory",
          .gravity_confidence = memory,
          .shrinkage_confidence = memory};
}

constexpr std::array table{
    // clang-format off
    wood_handbook("Red alder", "", 0.37, 0.41, 4.4, 7.3, 12.6, seen),
    wood_handbook("White ash", "American ash", 0.55, 0.6, 4.9, 7.8, 13.3, seen),
    wood_handbook("Green ash", "", 0.53, 0.56, 4.6, 7.1, 12.5, seen),
    wood_handbook("Black ash", "", 0.45, 0.49, 5.0, 7.8, 15.2, seen),
    wood_handbook("American basswood", "basswood; American linden", 0.32, 0.37, 6.6, 9.3, 15.8, seen),
    wood_handbook("American beech", "", 0.56, 0.64, 5.5, 11.9, 17.2, seen),
    wood_handbook("Yellow birch", "", 0.55, 0.62, 7.3, 9.5, 16.8, seen),
    wood_handbook("Sweet birch", "", 0.6, 0.65, 6.5, 9.0, 15.6, seen),
    wood_handbook("Paper birch", "white birch", 0.48, 0.55, 6.3, 8.6, 16.2, seen),
    wood_handbook("Butternut", "", 0.36, 0.38, 3.4, 6.4, 10.6, seen),
    wood_handbook("Black cherry", "American cherry", 0.47, 0.5, 3.7, 7.1, 11.5, seen),
    wood_handbook("American chestnut", "", 0.4, 0.43, 3.4, 6.7, 11.6, seen),
    wood_handbook("American elm", "white elm", 0.46, 0.5, 4.2, 9.5, 14.6, seen),
    wood_handbook("Hackberry", "", 0.49, 0.53, 4.8, 8.9, 13.8, seen),
    wood_handbook("Pecan hickory", "pecan", 0.6, 0.66, 4.9, 8.9, 13.6, seen),
    wood_handbook("Mockernut hickory", "", 0.64, 0.72, 7.7, 11.0, 17.8, seen),
    wood_handbook("Shagbark hickory", "", 0.64, 0.72, 7.0, 10.5, 16.7, memory),
    wood_handbook("Black locust", "", 0.66, 0.69, 4.6, 7.2, 10.2, memory),
    wood_handbook("Bigleaf maple", "soft maple; Oregon maple", 0.44, 0.48, 3.7, 7.1, 11.6, memory),
    wood_handbook("Red maple", "soft maple", 0.49, 0.54, 4.0, 8.2, 12.6, memory),
    wood_handbook("Silver maple", "soft maple", 0.44, 0.47, 3.0, 7.2, 12.0, memory),
    wood_handbook("Sugar maple", "hard maple; rock maple", 0.56, 0.63, 4.8, 9.9, 14.7, memory),
    wood_handbook("Northern red oak", "", 0.56, 0.63, 4.0, 8.6, 13.7, memory),
    wood_handbook("White oak", "American white oak", 0.6, 0.68, 5.6, 10.5, 16.3, seen),
    wood_handbook("Sassafras", "", 0.42, 0.46, 4.0, 6.2, 10.3, seen),
    wood_handbook("Sweetgum", "sweet gum; red gum", 0.46, 0.52, 5.3, 10.2, 15.8, seen),
    wood_handbook("American sycamore", "", 0.46, 0.49, 5.0, 8.4, 14.1, seen),
    wood_handbook("Black tupelo", "black gum", 0.46, 0.5, 5.1, 8.7, 14.4, seen),
    wood_handbook("Black walnut", "American walnut", 0.51, 0.55, 5.5, 7.8, 12.8, seen),
    wood_handbook("Black willow", "", 0.36, 0.39, 3.3, 8.7, 13.9, seen),
    wood_handbook("Yellow-poplar", "poplar; tulip poplar; tulipwood; whitewood", 0.4, 0.42, 4.6, 8.2, 12.7, seen),
    wood_handbook("Eastern redcedar", "Eastern red cedar; aromatic cedar", 0.44, 0.47, 3.1, 4.7, 7.8, seen),
    imported("True mahogany", "Honduran mahogany; American mahogany", 0.45, 3.0, 4.1, 7.8, memory, seen),
    imported("African mahogany", "khaya", {}, 2.5, 4.5, 8.8, memory, seen),
    imported("Afrormosia", "", {}, 3.0, 6.4, 10.7, memory, seen),
    imported("Limba", "korina", {}, 4.5, 6.2, 10.8, memory, seen),
    imported("Macawood", "macacauba", {}, 2.7, 3.5, 6.5, memory, seen),
    imported("White lauan", "", {}, 4.0, 7.7, 11.7, memory, seen),
    imported("Teak", "", 0.55, 2.5, 5.8, 7.0, seen, memory),
    european("European ash", "common ash", {680, 700, 750}, 5.0, 8.0),
    european("European beech", "common beech", {690, 710, 750}, 5.8, 11.8),
    european("European oak", "English oak; sessile oak; pedunculate oak", {670, 710, 760}, 4.3, 8.9),
    european("European walnut", "English walnut", {630, 670, 680}, 5.4, 7.5),
    european("European sycamore", "sycamore maple", {610, 640, 680}, 3.5, 8.5),
    european("European hornbeam", "hornbeam", {750, 800, 850}, 6.8, 11.5),
    european("European birch", "silver birch; downy birch", {640, 660, 670}, 5.3, 7.8),
    european("European lime", "lime; European linden", {520, 540, 560}, 5.5, 9.1),
    european("European elm", "English elm; wych elm", {630, 650, 680}, 4.6, 8.3),
    european("Sweet chestnut", "European chestnut; Spanish chestnut", {540, 590, 650}, 4.3, 6.4),
    european("Robinia", "European black locust; false acacia", {720, 740, 800}, 4.4, 6.9),
    european("European alder", "black alder; common alder", {500, 530, 550}, 4.4, 7.3),
    european("Yew", "European yew; common yew", {640, 690, 800}, 3.7, 5.3),
    european("Olive", "European olive; olivewood", {900, 900, 900}, {}, {}),
    european("Boxwood", "European boxwood; box", {950, 950, 950}, {}, {}),
    european("Pear", "European pear; pearwood", {700, 700, 700}, 4.6, 9.1),
    european("Plum", "European plum; plumwood", {750, 750, 750}, {}, {}),
    // clang-format on
};

}  // namespace

std::span<const Species> species_table() { return table; }

std::string_view name_of(Confidence confidence) {
  switch (confidence) {
    case Confidence::seen:
      return "seen in a public copy";
    case Confidence::from_memory:
      return "from memory";
  }
  return {};
}

std::optional<Density> oven_dry_density(const Species& species) {
  std::optional<Share> volumetric = species.volumetric;
  if (!volumetric && species.radial && species.tangential) volumetric = *species.radial + *species.tangential;
  if (!volumetric) return std::nullopt;
  const Density water = 1000 * kilogram_per_m3;
  if (species.green_gravity) return specific_gravity_at(*species.green_gravity, *volumetric, Share{}) * water;
  if (!species.density_at_12) return std::nullopt;
  const Share moisture = 12 * percent;
  const double dry_mass_share = whole / (whole + moisture);
  const double volume_kept = (whole - shrinkage_to_dry(*volumetric, moisture)) / whole;
  return dry_mass_share / volume_kept * species.density_at_12->mean;
}

}  // namespace blankwright
