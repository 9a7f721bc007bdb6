#include "plan/figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

using enum FigureUnit;
using F = Figure;
constexpr Round near = Round::nearest;
constexpr Round down = Round::down;
constexpr Round up = Round::up;
constexpr Fineness sawn = Fineness::sawn;
constexpr Fineness fine = Fineness::measured;
constexpr std::string_view given = "as given";
constexpr std::string_view geometry = "geometry";
constexpr std::string_view practice = "common practice, no source";

constexpr auto infos = std::to_array<FigureInfo>({
    {F::handle_length, "handle.length_mm", millimetres, near, fine, "length of the handle", "last station"},
    {F::handle_largest_diameter, "handle.largest_diameter_mm", millimetres, up, fine,
     "largest diameter of the handle", geometry},
    {F::handle_volume, "handle.volume_cm3", cubic_centimetres, near, fine, "volume of the handle, bore not taken off",
     geometry},
    {F::handle_surface, "handle.surface_cm2", square_centimetres, near, fine, "surface of the handle, ends included",
     geometry},
    {F::bore_fit, "bore.fit", words, near, fine, "fit of the stud", given},
    {F::bore_diameter, "bore.diameter_mm", millimetres, near, fine, "diameter of the bore", "the drill's"},
    {F::bore_drill, "bore.drill", words, near, fine, "drill", "next one up among those owned"},
    {F::bore_thread_percent, "bore.thread_percent", in_percent, near, fine,
     "height of the tapped thread, of 5H/8 a side (1.0825 P)", "Machinery's Handbook, tapping"},
    {F::stud_thread, "stud.thread", words, near, fine, "thread of the stud", given},
    {F::stud_major, "stud.major_mm", millimetres, near, fine, "major diameter of the stud", "ISO 261, ASME B1.1"},
    {F::stud_pitch, "stud.pitch_mm", millimetres, near, fine, "pitch of the stud's thread", "ISO 261, ASME B1.1"},
    {F::stud_tensile_area, "stud.tensile_area_mm2", square_millimetres, down, fine, "tensile stress area of the stud",
     "ISO 898-1; ASME B1.1 appendix B"},
    {F::stud_embedded, "stud.embedded_mm", millimetres, near, sawn, "length of the stud in the wood",
     "uniform bond shear, F = π d L τ; common practice, no source"},
    {F::stud_projection, "stud.projection_mm", millimetres, near, sawn, "stud stands out of the seat by", given},
    {F::stud_cut_length, "stud.cut_length_mm", millimetres, near, sawn, "length to cut the stud to", geometry},
    {F::stud_bottom_clearance, "stud.bottom_clearance_mm", millimetres, down, sawn, "room left in the client's hole",
     geometry},
    {F::stud_bond_capacity, "stud.bond_capacity_N", newtons, down, fine,
     "pull that the bond bears, before the safety factor", "uniform bond shear, F = π d L τ"},
    {F::axis_offset, "axis.offset_mm", millimetres, up, fine, "axis of the set stud off the centre, at the seat",
     geometry},
    {F::axis_tilt, "axis.tilt_mm_per_100mm", millimetres_per_100mm, up, fine, "axis of the set stud leans", geometry},
    {F::blank_shrinkage, "blank.shrinkage", part_of_one, up, fine, "shrinkage of the section from sawn to oven-dry",
     "Wood Handbook eq. 4-7, tangential"},
    {F::blank_sawn_section, "blank.sawn_section_mm", millimetres, up, sawn, "saw the section to", geometry},
    {F::blank_dry_section, "blank.dry_section_mm", millimetres, near, sawn, "section when oven-dry",
     "Wood Handbook eq. 4-7"},
    {F::blank_squared_section, "blank.squared_section_mm", millimetres, up, sawn,
     "section when squared after the cure", geometry},
    {F::blank_sawn_length, "blank.sawn_length_mm", millimetres, up, sawn, "saw the length to", geometry},
    {F::blank_dry_length, "blank.dry_length_mm", millimetres, near, sawn, "length when oven-dry",
     "Wood Handbook eq. 4-7"},
    {F::blank_squared_length, "blank.squared_length_mm", millimetres, up, sawn,
     "length when squared, before the seat is faced", geometry},
    {F::centring_seat_position, "centring.seat_position_diameter_mm", millimetres, down, fine,
     "stud's axis at the seat within a circle of diameter", "ISO 1101 position; geometry"},
    {F::centring_seat_governing, "centring.seat_governing_mm", millimetres, near, sawn,
     "the form is tightest, for that, at", geometry},
    {F::centring_tilt, "centring.tilt_mm_per_100mm", millimetres_per_100mm, down, fine, "a test rod may deviate by",
     geometry},
    {F::centring_tilt_governing, "centring.tilt_governing_mm", millimetres, near, sawn,
     "the form is tightest, for the tilt, at", geometry},
    {F::centring_chance_clean, "centring.chance_clean", part_of_one, down, fine,
     "chance that a bore of this shop cleans up", "offset and tilt drawn together, by direction"},
    {F::bore_depth, "bore.depth_mm", millimetres, near, sawn,
     "depth of the bore to the drill's lips, from the finished seat", geometry},
    {F::bore_tip_depth, "bore.tip_depth_mm", millimetres, up, sawn,
     "depth to the drill's point, from the finished seat", "geometry of the cone"},
    {F::bore_depth_from_drilled_face, "bore.depth_from_drilled_face_mm", millimetres, near, sawn,
     "set the depth stop to, from the face that is drilled", geometry},
    {F::bore_least_wall, "bore.least_wall_mm", millimetres, down, fine, "least wall between bore and finished form",
     geometry},
    {F::bore_web, "bore.web_mm", millimetres, down, sawn, "wood left behind the drill's point", geometry},
    {F::turning_swing, "turning.swing_mm", millimetres, up, sawn, "swing of the square blank on the stud",
     "geometry, a√2 + 2(e + l t)"},
    {F::turning_speed_ceiling, "turning.speed_ceiling_rpm", turns_per_minute, down, fine,
     "no faster than, while it is square", "6000 in·rpm / swing; common practice, no source"},
    {F::start_pieces, "start_count.pieces", whole_number, up, fine, "blanks to start",
     "beta-binomial, Jeffreys' prior"},
    {F::start_from_stock, "start_count.from_stock", whole_number, near, fine, "of these from stock", "register"},
    {F::start_witnesses, "start_count.witnesses", whole_number, near, fine, "witnesses besides", "register"},
    {F::start_good_so_far, "start_count.good_so_far", whole_number, near, fine, "good so far", "shop file"},
    {F::start_started_so_far, "start_count.started_so_far", whole_number, near, fine, "started so far", "shop file"},
    {F::start_confidence, "start_count.confidence", part_of_one, near, fine, "confidence asked for", given},
    {F::start_chance_enough, "start_count.chance_enough", part_of_one, down, fine, "chance that enough come out good",
     "beta-binomial, Jeffreys' prior"},
    {F::start_expected_surplus, "start_count.expected_surplus", pieces, near, fine,
     "good pieces more than ordered, on average", "beta-binomial mean"},
});

struct Written {
  double in_unit;  ///< SI value of one of the unit
  double step;     ///< of the contract's rounding, in that unit
};

Written written(FigureUnit unit) {
  switch (unit) {
    case millimetres:
      return {1e-3, 0.01};
    case millimetres_per_100mm:
      return {0.01, 0.01};
    case cubic_centimetres:
      return {1e-6, 0.01};
    case square_centimetres:
      return {1e-4, 0.01};
    case square_millimetres:
      return {1e-6, 0.01};
    case newtons:
      return {1, 1};
    case part_of_one:
      return {1, 0.0001};
    case in_percent:
      return {0.01, 0.1};
    case turns_per_minute:
      return {1.0 / 60, 1};
    case whole_number:
      return {1, 1};
    case pieces:
      return {1, 0.01};
    case words:
      break;
  }
  return {1, 1};
}

}  // namespace

std::span<const FigureInfo> figure_infos() { return infos; }

const FigureInfo& info(Figure figure) {
  const FigureInfo& found = infos.at(static_cast<std::size_t>(figure));
  BW_EXPECT(found.figure == figure);
  return found;
}

std::optional<Figure> figure_at(std::string_view path) {
  const auto found = std::find_if(infos.begin(), infos.end(), [&](const FigureInfo& i) { return i.path == path; });
  return found == infos.end() ? std::nullopt : std::optional{found->figure};
}

double contract_number(Figure figure, double si) {
  const FigureInfo& i = info(figure);
  const Written w = written(i.unit);
  // Through text, so that 0.1 + 0.2 is written 0.3.
  const std::string digits = fmt::format("{:.4f}", rounded(si / w.in_unit, w.step, i.safe));
  double number = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), number);
  return number;
}

std::string text(Figure figure, const FigureValue& value, UnitSystem system) {
  if (std::holds_alternative<std::monostate>(value)) return "not known";
  if (const auto* words = std::get_if<std::string>(&value)) return *words;
  const double si = std::get<double>(value);
  const FigureInfo& i = info(figure);
  switch (i.unit) {
    case millimetres:
      return text(si * metre, {system, i.safe, i.fineness});
    case millimetres_per_100mm:
      return system == UnitSystem::metric ? fmt::format("{:.2f} mm per 100 mm", rounded(si * 100, 0.01, i.safe))
                                          : fmt::format("{:.3f} in per 4 in", rounded(si * 4, 0.001, i.safe));
    case cubic_centimetres:
      return text(si * Volume::unit(), system);
    case square_centimetres:
      return system == UnitSystem::metric ? fmt::format("{:.1f} cm²", si * 1e4)
                                          : fmt::format("{:.2f} in²", si * Area::unit() / inch2);
    case square_millimetres:
      return text(si * Area::unit(), system);
    case newtons:
      return text(si * newton, system, i.safe);
    case part_of_one:
    case in_percent:
      return fmt::format("{:.1f} %", rounded(si * 100, 0.1, i.safe));
    case turns_per_minute:
      return fmt::format("{:.0f} rpm", rounded(si * 60, 10, i.safe));
    case whole_number:
      return fmt::format("{:.0f}", si);
    case pieces:
      return fmt::format("{:.1f}", si);
    case words:
      break;
  }
  return {};
}

}  // namespace blankwright
