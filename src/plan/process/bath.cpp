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

Traced<double> pi() { return term(Term::pi, std::numbers::pi); }

Traced<Area> surface_of(const Traced<Length>& section, const Traced<Length>& length) {
  return 2_exactly * squared(section) + 4_exactly * section * length;
}

/// One kind of blanks as the worksheet names it: with its number where the bath has several.
class BlankTerms {
 public:
  BlankTerms(const BathInput& in, std::size_t i)
      : of_{in.blanks.at(i)},
        behind_{in.blanks.size() == 1 ? Printed{} : printed_words(fmt::format("({})", i + 1))} {}

  Traced<double> count() const {
    return term(Term::blanks, static_cast<double>(of_.count), TermFrom::planned, behind_);
  }
  Traced<Length> section() const { return term(Term::dry_section, of_.section, TermFrom::blank, behind_); }
  Traced<Length> length() const { return term(Term::dry_length, of_.length, TermFrom::blank, behind_); }
  Traced<Mass> dry_mass() const { return term(Term::dry_mass, of_.dry_mass, TermFrom::uptake, behind_); }
  Traced<Mass> resin() const { return term(Term::resin_at_most, of_.resin_high, TermFrom::uptake, behind_); }
  Traced<Volume> volume() const { return squared(section()) * length(); }
  Traced<Area> surface() const { return surface_of(section(), length()); }

 private:
  const BathBlanks& of_;
  Printed behind_;
};

template <class Part>
auto sum(const BathInput& in, Part part) {
  auto total = part(BlankTerms{in, 0});
  for (std::size_t i = 1; i < in.blanks.size(); ++i) total = total + part(BlankTerms{in, i});
  return total;
}

Traced<Area> vessel_area(const VesselFacts& vessel) {
  if (vessel.shape.value == VesselShape::round)
    return pi() / 4_exactly * squared(term(Term::diameter, *vessel.diameter));
  return term(Term::width, *vessel.width) * term(Term::depth, *vessel.depth);
}

Traced<Area> rod_area(const VesselFacts& vessel) {
  return pi() / 4_exactly * squared(term(Term::rod, vessel.piercing));
}

bool is_pierced(const VesselFacts& vessel) { return vessel.piercing.value > Length{}; }

/// What one kind of blanks needs to be held down just so: nothing, where it is heavier than the resin.
Traced<Mass> lift(const BathInput& in, const BlankTerms& kind) {
  const auto up = kind.count() * (term(Term::density_of_resin, in.resin.density) * kind.volume() - kind.dry_mass());
  return up.value() > Mass{} ? up : larger(up, term(Term::nothing, Mass{}, TermFrom::it_sinks));
}

Traced<Mass> ballast(const BathInput& in) {
  const auto lifts = sum(in, [&](const BlankTerms& kind) { return lift(in, kind); });
  const auto buoyant =
      term(Term::density_of_resin, in.resin.density) / term(Term::ballast_density, in.facts.ballast_density);
  const auto reserve =
      term(Term::reserve, in.facts.ballast_reserve.value / whole, origin_of(in.facts.ballast_reserve));
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
  const auto free = term(Term::free_area, b.free_area, TermFrom::above);
  const auto top = term(Term::top_of_the_blanks, b.layout.top, TermFrom::layout);
  const Length thickness = thickness_of(b, in);
  const bool pokes_out = !fits(in.facts.cover.value, thickness);
  const auto over = pokes_out ? term(Term::thickness_of_the_ballast, thickness, TermFrom::lies_evenly_on_the_blanks)
                              : term(Term::cover, in.facts.cover);
  const auto end = top + over;
  b.end_height = out.step(Figure::bath_end_height, end,
                          pokes_out ? std::optional{StepNote{Note::ballast_stands_out}} : std::nullopt);
  const auto start =
      term(Term::end_level, end.value(), TermFrom::above) +
      (term(Term::taken_up, b.taken_up, TermFrom::above) + term(Term::film, b.film, TermFrom::above)) / free;
  b.start_height = out.step(Figure::bath_start_height, start, StepNote{Note::before_uptake});
}

void step_pour(const BathInput& in, Worked<Bath>& out) {
  Bath& b = out.value;
  auto under =
      term(Term::free_area, b.free_area, TermFrom::above) * term(Term::end_level, b.end_height, TermFrom::above);
  if (is_pierced(in.vessel)) {
    under = under + term(Term::rod_area, rod_area(in.vessel).value(), TermFrom::above) *
                        term(Term::top_of_the_blanks, b.layout.top, TermFrom::the_rod_ends_there);
  }
  auto solids =
      sum(in, [](const BlankTerms& kind) { return kind.count() * kind.volume(); }) +
      term(Term::ballast, b.ballast, TermFrom::above) / term(Term::ballast_density, in.facts.ballast_density);
  if (b.filler > Volume{}) {
    const bool all = b.filler == in.facts.filler.value;
    solids = solids +
             term(Term::filler, b.filler, all ? origin_of(in.facts.filler) : TermSource{TermFrom::under_the_tops});
  }
  const auto lost = term(Term::taken_up, b.taken_up, TermFrom::above) + term(Term::film, b.film, TermFrom::above);
  b.pour = out.step(Figure::bath_pour, under - solids + lost);
}

void step_resin(const BathInput& in, Worked<Bath>& out) {
  Bath& b = out.value;
  const auto pour = term(Term::pour, b.pour, TermFrom::above);
  const auto on_hand = term(Term::on_hand, in.on_hand, TermFrom::left_over);
  const auto reused =
      call(Term::least_of, std::min(pour.value(), on_hand.value()), {pour.expression(), on_hand.expression()});
  b.reused = out.step(Figure::bath_reused_resin, reused);
  b.fresh = out.step(Figure::bath_fresh_resin, pour - term(Term::reused, b.reused, TermFrom::above));
  const auto dose = term(Term::dose, in.resin.activator.value / whole, origin_of(in.resin.activator));
  b.activator = out.step(Figure::bath_activator, dose * term(Term::fresh_resin, b.fresh, TermFrom::above) *
                                                     term(Term::density_of_resin, in.resin.density));
  b.left_over = out.step(Figure::bath_left_over, pour - term(Term::taken_up, b.taken_up, TermFrom::above) -
                                                     term(Term::film, b.film, TermFrom::above));
}

void step_dips(const BathInput& in, Worked<Bath>& out) {
  Bath& b = out.value;
  const auto height = term(Term::vessel_height, in.vessel.height);
  const auto start = term(Term::start_level, b.start_height, TermFrom::above);
  out.step(Figure::bath_start_dip, height - start);
  out.step(Figure::bath_end_dip, height - term(Term::end_level, b.end_height, TermFrom::above));
  b.headspace = out.step(Figure::bath_headspace, height - start);
}

std::optional<Worked<Bath>> filled(const BathInput& in, Stance stance) {
  Worked<Bath> out;
  Bath& b = out.value;
  b.vessel = &in.vessel;
  b.resin = &in.resin;
  b.layout = layout_for(in, stance);
  if (b.layout.capacity() == 0) return std::nullopt;
  const auto layers =
      phrase(Term::as_few_as_hold_them, static_cast<double>(b.layout.layers),
             {term(Term::blanks_in_all, static_cast<double>(count_of(in.blanks)), TermFrom::planned).expression(),
              term(Term::places_a_layer, static_cast<double>(b.layout.in_layer), TermFrom::layout).expression()});
  out.step(Figure::bath_layers, layers);
  const auto inside = vessel_area(in.vessel);
  b.free_area = out.step(Figure::bath_free_area, is_pierced(in.vessel) ? inside - rod_area(in.vessel) : inside);
  BW_EXPECT(b.free_area > Area{});
  b.ballast = out.step(Figure::bath_ballast, ballast(in),
                       is_pierced(in.vessel) ? std::optional{StepNote{Note::clamped_without}} : std::nullopt);
  const auto taken = sum(in, [&](const BlankTerms& kind) {
    return kind.count() * kind.resin() / term(Term::density_of_resin, in.resin.density);
  });
  b.taken_up = out.step(Figure::bath_taken_up, taken);
  const auto wetted = sum(in, [](const BlankTerms& kind) { return kind.count() * kind.surface(); });
  b.film = out.step(Figure::bath_film, term(Term::film, in.resin.film) * wetted);
  step_levels(in, out);
  if (!fits(usable_height(in.vessel), b.start_height)) return std::nullopt;
  b.filler = filler_under(b.layout.top, inside.value(), in);
  out.step(Figure::bath_filler, term(Term::filler_under_the_tops, b.filler, TermFrom::shop));
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
  return resin.film.value * surface_of(term(Term::section, section), term(Term::length, length)).value();
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
