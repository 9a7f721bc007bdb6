#include "plan/process/bath.h"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>
#include <numeric>

#include "diagnose/failure.h"
#include "measure/largest_that.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/packing.h"

namespace blankwright {
namespace {

Traced<double> pi() { return term("π", std::numbers::pi); }

Traced<Area> surface_of(const Traced<Length>& section, const Traced<Length>& length) {
  return 2_exactly * squared(section) + 4_exactly * section * length;
}

/// One kind of blanks as the worksheet names it: with its number where the bath has several.
class BlankTerms {
 public:
  BlankTerms(const BathInput& in, std::size_t i)
      : of_{in.blanks.at(i)}, behind_{in.blanks.size() == 1 ? "" : fmt::format(" ({})", i + 1)} {}

  Traced<double> count() const { return term("blanks" + behind_, static_cast<double>(of_.count), "planned"); }
  Traced<Length> section() const { return term("dry section" + behind_, of_.section, "blank"); }
  Traced<Length> length() const { return term("dry length" + behind_, of_.length, "blank"); }
  Traced<Mass> dry_mass() const { return term("dry mass" + behind_, of_.dry_mass, "uptake"); }
  Traced<Mass> resin() const { return term("resin at most" + behind_, of_.resin_high, "uptake"); }
  Traced<Volume> volume() const { return squared(section()) * length(); }
  Traced<Area> surface() const { return surface_of(section(), length()); }

 private:
  const BathBlanks& of_;
  std::string behind_;
};

template <class Part>
auto sum(const BathInput& in, Part part) {
  auto total = part(BlankTerms{in, 0});
  for (std::size_t i = 1; i < in.blanks.size(); ++i) total = total + part(BlankTerms{in, i});
  return total;
}

Traced<Area> vessel_area(const VesselFacts& vessel) {
  if (vessel.shape.value == VesselShape::round) return pi() / 4_exactly * squared(term("diameter", *vessel.diameter));
  return term("width", *vessel.width) * term("depth", *vessel.depth);
}

Traced<Area> rod_area(const VesselFacts& vessel) { return pi() / 4_exactly * squared(term("rod", vessel.piercing)); }

bool is_pierced(const VesselFacts& vessel) { return vessel.piercing.value > Length{}; }

/// What one kind of blanks needs to be held down just so: nothing, where it is heavier than the resin.
Traced<Mass> lift(const BathInput& in, const BlankTerms& kind) {
  const auto up = kind.count() * (term("ρ resin", in.resin.density) * kind.volume() - kind.dry_mass());
  return up.value() > Mass{} ? up : larger(up, term("nothing", Mass{}, "it sinks"));
}

Traced<Mass> ballast(const BathInput& in) {
  const auto lifts = sum(in, [&](const BlankTerms& kind) { return lift(in, kind); });
  const auto buoyant = term("ρ resin", in.resin.density) / term("ρ ballast", in.facts.ballast_density);
  const auto reserve = term("reserve", in.facts.ballast_reserve.value / whole, origin_text(in.facts.ballast_reserve));
  return lifts / (1_exactly - buoyant) * (1_exactly + reserve);
}

Volume volume_of(const std::vector<BathBlanks>& blanks) {
  return std::accumulate(blanks.begin(), blanks.end(), Volume{}, [](Volume sum, const BathBlanks& b) {
    return sum + b.count * (b.section * b.section * b.length);
  });
}

int count_of(const std::vector<BathBlanks>& blanks) {
  return std::accumulate(blanks.begin(), blanks.end(), 0, [](int n, const BathBlanks& b) { return n + b.count; });
}

/// As few layers as hold them all; without places where that is too high or too many, or not one fits.
BathLayout layout_for(const BathInput& in, Stance stance) {
  Length section, length;
  for (const BathBlanks& blanks : in.blanks) {
    section = std::max(section, blanks.section);
    length = std::max(length, blanks.length);
  }
  const int count = count_of(in.blanks);
  const BathLayout one = bath_layout(in.vessel, in.facts, section, length, stance, 1);
  if (one.in_layer == 0 || count <= one.in_layer) return one;
  if (count > most_layers * one.in_layer) return {};
  return bath_layout(in.vessel, in.facts, section, length, stance, (count + one.in_layer - 1) / one.in_layer);
}

/// How high the ballast lies on the top layer.
Length thickness_of(const Bath& b, const BathInput& in) {
  const int under_it = std::min(count_of(in.blanks), b.layout.in_layer);
  const Area covered = under_it * (b.layout.cell_across * b.layout.cell_along);
  return b.ballast / in.facts.ballast_density.value / covered;
}

/// Of the filler so much as finds room beside the blanks, below their tops.
Volume filler_under(Length top, Area vessel, const BathInput& in) {
  const Volume room = loose_packing * (vessel * top - volume_of(in.blanks));
  return std::clamp(in.facts.filler.value, Volume{}, std::max(room, Volume{}));
}

void step_levels(const BathInput& in, Worked<Bath>& out) {
  Bath& b = out.value;
  const auto free = term("free area", b.free_area, "above");
  const auto top = term("top of the blanks", b.layout.top, "layout");
  const Length thickness = thickness_of(b, in);
  const bool pokes_out = !fits(in.facts.cover.value, thickness);
  const auto over = pokes_out ? term("thickness of the ballast", thickness, "lies evenly on the blanks")
                              : term("cover", in.facts.cover);
  const auto end = top + over;
  b.end_height = out.step(Figure::bath_end_height, end,
                          pokes_out ? std::optional{StepNote{Note::ballast_stands_out}} : std::nullopt);
  const auto start = term("end level", end.value(), "above") +
                     (term("taken up", b.taken_up, "above") + term("film", b.film, "above")) / free;
  b.start_height = out.step(Figure::bath_start_height, start, StepNote{Note::before_uptake});
}

void step_pour(const BathInput& in, Worked<Bath>& out) {
  Bath& b = out.value;
  auto under = term("free area", b.free_area, "above") * term("end level", b.end_height, "above");
  if (is_pierced(in.vessel)) {
    under = under + term("rod's area", rod_area(in.vessel).value(), "above") *
                        term("top of the blanks", b.layout.top, "the rod ends there");
  }
  auto solids = sum(in, [](const BlankTerms& kind) { return kind.count() * kind.volume(); }) +
                term("ballast", b.ballast, "above") / term("ρ ballast", in.facts.ballast_density);
  if (b.filler > Volume{}) {
    const bool all = b.filler == in.facts.filler.value;
    solids = solids + term("filler", b.filler, all ? origin_text(in.facts.filler) : "as much as lies under the tops");
  }
  const auto lost = term("taken up", b.taken_up, "above") + term("film", b.film, "above");
  b.pour = out.step(Figure::bath_pour, under - solids + lost);
}

void step_resin(const BathInput& in, Worked<Bath>& out) {
  Bath& b = out.value;
  const auto pour = term("pour", b.pour, "above");
  const auto on_hand = term("on hand", in.on_hand, "left over, of this resin and dye");
  const auto reused = call("min", std::min(pour.value(), on_hand.value()), {pour.expression(), on_hand.expression()});
  b.reused = out.step(Figure::bath_reused_resin, reused);
  b.fresh = out.step(Figure::bath_fresh_resin, pour - term("reused", b.reused, "above"));
  const auto dose = term("dose", in.resin.activator.value / whole, origin_text(in.resin.activator));
  b.activator = out.step(Figure::bath_activator,
                         dose * term("fresh resin", b.fresh, "above") * term("ρ resin", in.resin.density));
  b.left_over =
      out.step(Figure::bath_left_over, pour - term("taken up", b.taken_up, "above") - term("film", b.film, "above"));
}

void step_dips(const BathInput& in, Worked<Bath>& out) {
  Bath& b = out.value;
  const auto height = term("vessel's height", in.vessel.height);
  const auto start = term("start level", b.start_height, "above");
  out.step(Figure::bath_start_dip, height - start);
  out.step(Figure::bath_end_dip, height - term("end level", b.end_height, "above"));
  b.headspace = out.step(Figure::bath_headspace, height - start);
}

std::optional<Worked<Bath>> filled(const BathInput& in, Stance stance) {
  Worked<Bath> out;
  Bath& b = out.value;
  b.vessel = &in.vessel;
  b.resin = &in.resin;
  b.layout = layout_for(in, stance);
  if (b.layout.capacity() == 0) return std::nullopt;
  const auto layers = phrase("as few as hold them", static_cast<double>(b.layout.layers),
                             {term("blanks in all", static_cast<double>(count_of(in.blanks)), "planned").expression(),
                              term("places a layer", static_cast<double>(b.layout.in_layer), "layout").expression()});
  out.step(Figure::bath_layers, layers);
  const auto inside = vessel_area(in.vessel);
  b.free_area = out.step(Figure::bath_free_area, is_pierced(in.vessel) ? inside - rod_area(in.vessel) : inside);
  BW_EXPECT(b.free_area > Area{});
  b.ballast = out.step(Figure::bath_ballast, ballast(in),
                       is_pierced(in.vessel) ? std::optional{StepNote{Note::clamped_without}} : std::nullopt);
  const auto taken = sum(
      in, [&](const BlankTerms& kind) { return kind.count() * kind.resin() / term("ρ resin", in.resin.density); });
  b.taken_up = out.step(Figure::bath_taken_up, taken);
  const auto wetted = sum(in, [](const BlankTerms& kind) { return kind.count() * kind.surface(); });
  b.film = out.step(Figure::bath_film, term("film", in.resin.film) * wetted);
  step_levels(in, out);
  if (!fits(usable_height(in.vessel), b.start_height)) return std::nullopt;
  b.filler = filler_under(b.layout.top, inside.value(), in);
  out.step(Figure::bath_filler, term("filler under the tops", b.filler, "shop"));
  step_pour(in, out);
  step_resin(in, out);
  step_dips(in, out);
  return out;
}

}  // namespace

Volume gas_above(const VesselFacts& vessel, Length level) {
  BW_EXPECT(fits(vessel.height.value, level));
  return vessel_area(vessel).value() * (vessel.height.value - level) + vessel.free_gas.value;
}

Volume film_on(const ResinFacts& resin, Length section, Length length) {
  return resin.film.value * surface_of(term("section", section), term("length", length)).value();
}

std::optional<Worked<Bath>> bath(const BathInput& in) {
  BW_EXPECT(!in.blanks.empty() && in.on_hand >= Volume{});
  BW_EXPECT(in.facts.ballast_density.value > in.resin.density.value);
  for (const BathBlanks& blanks : in.blanks) {
    BW_EXPECT(blanks.count >= 1 && blanks.dry_mass >= Mass{} && blanks.resin_high >= Mass{});
  }
  auto best = filled(in, Stance::standing);
  auto lying = filled(in, Stance::lying);
  return !best || (lying && lying->value.pour < best->value.pour) ? lying : best;
}

int bath_capacity(const VesselFacts& vessel, const BathFacts& facts, const ResinFacts& resin, const BathBlanks& one) {
  const auto holds = [&](int count) {
    BathBlanks blanks = one;
    blanks.count = count;
    return bath({.vessel = vessel, .facts = facts, .resin = resin, .blanks = {blanks}, .on_hand = {}}).has_value();
  };
  int too_many = 1;
  while (holds(too_many)) too_many *= 2;
  return largest_that(too_many / 2, too_many, holds);
}

}  // namespace blankwright
