#include "plan/process/bath.h"
#include "plan/figure/figure.h"

#include <doctest/doctest.h>

#include <numbers>

#include "bath_cases.h"
#include "diagnose/failure.h"

using namespace blankwright;

namespace {

/// Pot of 140 mm inside, four blanks of 38 × 38 × 150 mm of 0.62 g/cm³, resin 1.04, ballast 7.85 g/cm³, 25 mm of
/// cover: a worked example of ours, by Archimedes; every figure below is worked out by hand beside it.
BathCase example() {
  BathCase c;
  c.vessel = pot(140 * mm, 400 * mm);
  c.facts.cover = given(25 * mm);
  c.facts.gap = given(5 * mm);
  c.facts.ballast_density = given(7.85 * (gram / cm3));
  c.facts.ballast_reserve = given(0 * percent);
  c.resin.density = given(1.04 * (gram / cm3));
  c.resin.film = given(0 * mm);
  const Volume volume = 38 * mm * (38 * mm) * (150 * mm);                                    // 216.6 cm³
  c.blanks = {{4, 38 * mm, 150 * mm, 0.62 * (gram / cm3) * volume, 60 * gram, 104 * gram}};  // 104 g: 100 cm³
  return c;
}

/// How high so much liquid stands among the solids of a bath, found by filling it up slice by slice: blanks where
/// their layers stand, the rod from their tops upwards, ballast and filler somewhere below the level.
class SlowlyFilled {
 public:
  explicit SlowlyFilled(const BathCase& c, const Bath& b) : c_{c}, b_{b} {
    int place = 0;
    const double layer = b.layout.top / mm / b.layout.layers;
    for (const BathBlanks& blanks : c.blanks) {
      for (int i = 0; i < blanks.count; ++i, ++place) {
        const bool standing = b.layout.stance == Stance::standing;
        const double bottom = place / b.layout.in_layer * layer;
        const double height = (standing ? blanks.length : blanks.section) / mm;
        const double flat = blanks.section / mm * ((standing ? blanks.section : blanks.length) / mm);
        boxes_.push_back({bottom, bottom + height, flat});
      }
    }
    CHECK(place <= b.layout.capacity());
  }

  double level(double liquid_ml) const {
    double wanted = 1000 * (liquid_ml + b_.ballast / c_.facts.ballast_density.value / cm3 + b_.filler / cm3);
    double h = 0;
    for (; wanted > 0; h += slice) wanted -= slice * open_at(h + slice / 2);
    return h;
  }

  static constexpr double slice = 0.1;  // mm

 private:
  double open_at(double h) const {
    const auto round = [](Length d) { return std::numbers::pi / 4 * (d / mm) * (d / mm); };
    const VesselFacts& v = c_.vessel;
    double open = v.diameter ? round(v.diameter->value) : v.width->value / mm * (v.depth->value / mm);
    if (h > b_.layout.top / mm) open -= round(v.piercing.value);
    for (const Box& box : boxes_) open -= h > box.bottom && h < box.top ? box.flat : 0;
    return open;
  }
  struct Box {
    double bottom, top, flat;
  };
  const BathCase& c_;
  const Bath& b_;
  std::vector<Box> boxes_;
};

double ml(Figure figure, Volume volume) { return contract_number(figure, volume / Volume::unit()); }

/// Least resin, in ml, over both stances and up to so many layers; worked out by hand in mm, from the places alone.
/// For a bath without rod and filler.
std::optional<double> least_pour(const BathCase& c, int most_layers) {
  double solids = 0, gone = 0, held = 0, section = 0, length = 0;
  const double rho = c.resin.density.value / kilogram_per_m3,
               ballast_rho = c.facts.ballast_density.value / kilogram_per_m3;
  for (const BathBlanks& b : c.blanks) {
    const double s = b.section / mm, l = b.length / mm;
    solids += b.count * s * s * l;
    gone += b.count * (b.resin_high / gram / rho * 1e6 + c.resin.film.value / mm * (2 * s * s + 4 * s * l));
    held += b.count * std::max(0.0, rho * 1e-6 * s * s * l - b.dry_mass / gram);
    section = std::max(section, s);
    length = std::max(length, l);
  }
  const double ballast =
      held / (1 - rho / ballast_rho) * (1 + c.facts.ballast_reserve.value / whole) / ballast_rho * 1e6;
  const VesselFacts& v = c.vessel;
  const double area = v.diameter ? std::numbers::pi / 4 * std::pow(v.diameter->value / mm, 2)
                                 : v.width->value / mm * (v.depth->value / mm);
  std::optional<double> least;
  for (const Stance stance : {Stance::standing, Stance::lying}) {
    for (int layers = 1; layers <= most_layers; ++layers) {
      const int places = bath_layout(v, c.facts, section * mm, length * mm, stance, layers).in_layer;
      if (places * layers < c.count()) continue;
      const bool standing = stance == Stance::standing;
      const double flat = std::min(c.count(), places) * section * (standing ? section : length);
      const double end = layers * (standing ? length : section) + std::max(c.facts.cover.value / mm, ballast / flat);
      if (end + gone / area > usable_height(v) / mm) continue;
      const double pour = (area * end - solids - ballast + gone) / 1000;
      least = std::min(least.value_or(pour), pour);
    }
  }
  return least;
}

}  // namespace

TEST_CASE("buoyancy is taken at dry density, and ballast is what Archimedes asks for there") {
  // (1.04 − 0.62) 216.6 / (1 − 1.04/7.85) = 104.9 g for one blank, 419.5 g for four.
  BathCase c = example();
  CHECK(std::abs(c.filled()->ballast / gram - 419.5) <= 0.05);
  c.blanks.front().count = 1;
  CHECK(std::abs(c.filled()->ballast / gram - 104.9) <= 0.05);
  // What it takes up later holds it down the better, and is not counted on.
  c.blanks.front().resin_high = 180 * gram;
  CHECK(std::abs(c.filled()->ballast / gram - 104.9) <= 0.05);
  c.facts.ballast_reserve = given(40 * percent);
  CHECK(std::abs(c.filled()->ballast / gram - 1.4 * 104.87) <= 0.05);
}

TEST_CASE("uptake lowers the level, and so much resin is poured that it does not bare the tops") {
  // With 600 g of ballast the room round the blanks up to 175 mm is 153.94 × 17.5 − 4 × 216.6 − 600/7.85 = 1751.1
  // cm³. Were no more poured than that, 400 cm³ taken up would lower it by 25.98 mm to 149.0 mm: 1 mm under the tops.
  // So 400 cm³ more are poured, it starts at 201.0 mm, and 1751.1 cm³ are left at the end.
  BathCase c = example();
  c.facts.ballast_reserve = given((600 / 419.476 - 1) * whole);
  const Bath b = c.filled().value();
  CHECK(std::abs(b.ballast / gram - 600) <= 0.05);
  CHECK(std::abs(b.end_height / mm - 175) <= 1e-6);
  CHECK(std::abs((b.start_height - b.end_height) / mm - 25.98) <= 0.02);
  CHECK(std::abs(b.start_height / mm - 200.98) <= 0.02);
  CHECK(std::abs(b.pour / cm3 - (1751.1 + 400)) <= 0.3);
  CHECK(std::abs(b.left_over / cm3 - 1751.1) <= 0.3);
  CHECK(std::abs(b.headspace / mm - (400 - 200.98)) <= 0.02);
}

TEST_CASE("what is taken up is counted as liquid, since curing shrinks its volume and leaves its mass") {
  BathCase c = example();
  CHECK(c.filled()->taken_up / cm3 == doctest::Approx(400));  // 4 × 104 g at 1.04 g/cm³
  c.resin.film = given(0.1 * mm);
  // 4 × (2 × 3.8² + 4 × 3.8 × 15) cm² × 0.01 cm = 10.28 cm³
  CHECK(std::abs(c.filled()->film / cm3 - 10.275) <= 0.001);
  CHECK(std::abs(film_on(c.resin, 38 * mm, 150 * mm) / cm3 - 10.275 / 4) <= 0.001);
}

TEST_CASE("the gas to be pumped is what stands over the resin, with lid, hose and trap") {
  VesselFacts v = pot(140 * mm, 400 * mm);
  v.free_gas = given(2 * litre);
  CHECK(std::abs(gas_above(v, 200 * mm) / litre - (0.153938 * 20 + 2)) <= 0.0001);
  VesselFacts t = trough(100 * mm, 200 * mm, 300 * mm);
  t.free_gas = given(1 * litre);
  CHECK(gas_above(t, 150 * mm) / litre == doctest::Approx(4));
}

TEST_CASE("activated resin goes in first, and activator on the fresh resin alone") {
  BathCase c = example();
  c.resin.activator = given(2 * percent);
  const Volume pour = c.filled()->pour;
  CHECK(c.filled()->activator / gram == doctest::Approx(0.02 * 1.04 * (pour / cm3)));
  c.on_hand = 500 * millilitre;
  const Bath some = c.filled().value();
  CHECK(some.pour / cm3 == doctest::Approx(pour / cm3));
  CHECK(some.reused / cm3 == doctest::Approx(500));
  CHECK(some.fresh / cm3 == doctest::Approx(pour / cm3 - 500));
  CHECK(some.activator / gram == doctest::Approx(0.02 * 1.04 * (pour / cm3 - 500)));
  c.on_hand = 20 * litre;
  CHECK(c.filled()->fresh / cm3 == doctest::Approx(0));
  CHECK(c.filled()->activator / gram == doctest::Approx(0));
}

TEST_CASE("a rod through the surface leaves less of it, and displaces resin from the tops upwards") {
  BathCase c = example();
  c.vessel.piercing = given(30 * mm);  // 7.069 cm²
  const Bath b = c.filled().value();
  CHECK(std::abs(b.free_area / (cm * cm) - (153.938 - 7.069)) <= 0.001);
  // 400 / 146.869 = 27.235 mm; poured: 153.938 × 17.5 − 7.069 × 2.5 − 866.4 − 419.476/7.85 + 400
  CHECK(std::abs(b.start_height / mm - (175 + 27.235)) <= 0.001);
  CHECK(std::abs(b.pour / cm3 - 2156.41) <= 0.05);
}

TEST_CASE("filler saves resin, but no more of it than lies beside the blanks below their tops") {
  BathCase c = example();
  const Volume without = c.filled()->pour;
  c.facts.filler = given(0.5 * litre);
  CHECK((without - c.filled()->pour) / cm3 == doctest::Approx(500));
  // Loosely poured, 60 % (Scott 1960, from memory) of 153.938 × 15 − 866.4 cm³.
  c.facts.filler = given(50 * litre);
  CHECK(std::abs((without - c.filled()->pour) / cm3 - 0.6 * (153.938 * 15 - 866.4)) <= 0.05);
  CHECK(c.filled()->start_height / mm == doctest::Approx(example().filled()->start_height / mm));
}

TEST_CASE("ballast that would stand out of the resin raises the level at the end") {
  BathCase c = example();
  c.facts.cover = given(0 * mm);
  // 419.476 g of 7.85 g/cm³ evenly on four squares of 38 mm: 53.44 cm³ / 57.76 cm² = 9.25 mm.
  CHECK(std::abs(c.filled()->end_height / mm - 159.25) <= 0.01);
}

TEST_CASE("blanks lie where that takes less resin or the vessel is too low, and more layers come only when needed") {
  BathCase c = example();
  c.vessel = trough(200 * mm, 200 * mm, 400 * mm);
  CHECK(c.filled()->layout.stance == Stance::lying);  // up to 38 + 25 mm instead of 150 + 25
  CHECK(c.filled()->layout.layers == 1);
  c.blanks.front().count = 5;  // 4 × 38 + 3 × 5 + 10 = 177 mm: four lie beside each other, the fifth on them
  CHECK(c.filled()->layout.layers == 2);
  CHECK(c.filled()->layout.stance == Stance::lying);
  c.vessel = pot(140 * mm, 400 * mm);  // 150 mm do not lie in it
  c.blanks.front().count = 4;
  CHECK(c.filled()->layout.stance == Stance::standing);
}

TEST_CASE("a blank keeps out more resin than it takes up, so fewer of them in the same vessel take more") {
  // Up to 175 mm the vessel holds 2693.9 cm³. Three: 2693.9 − 649.8 − 314.6/7.85 + 300 = 2304.0 cm³. Four: 2174.1.
  BathCase c = example();
  CHECK(std::abs(c.filled()->pour / cm3 - 2174.1) <= 0.1);
  c.blanks.front().count = 3;
  CHECK(std::abs(c.filled()->pour / cm3 - 2304.0) <= 0.1);
}

TEST_CASE("blanks are stacked in four layers at most") {
  // 20 + 2 × 5 across and 150 + 2 × 5 along: one lies in a layer; five layers would be 100 + 25 mm high.
  BathCase c = example();
  c.vessel = trough(30 * mm, 160 * mm, 400 * mm);
  c.vessel.usable_height->value = 140 * mm;
  const Volume volume = 20 * mm * (20 * mm) * (150 * mm);
  c.blanks = {{4, 20 * mm, 150 * mm, 0.62 * (gram / cm3) * volume, 0 * gram, 0 * gram}};
  CHECK(c.filled()->layout.layers == 4);
  CHECK(bath_capacity(c.vessel, c.facts, c.resin, c.blanks.front()) == 4);
}

TEST_CASE("no bath where the level would start above the usable height") {
  BathCase c = example();
  c.vessel.usable_height->value = 201 * mm;  // 200.98 are needed
  CHECK(c.filled());
  CHECK(bath_capacity(c.vessel, c.facts, c.resin, c.blanks.front()) == 4);
  c.vessel.usable_height->value = 200.9 * mm;
  CHECK_FALSE(c.filled());
  CHECK(bath_capacity(c.vessel, c.facts, c.resin, c.blanks.front()) == 3);
  c.vessel.usable_height->value = 150 * mm;
  CHECK(bath_capacity(c.vessel, c.facts, c.resin, c.blanks.front()) == 0);
}

TEST_CASE("a bath of ballast that floats is a broken promise") {
  BathCase c = example();
  c.facts.ballast_density = given(1.04 * (gram / cm3));
  CHECK_THROWS_AS(c.filled(), BrokenPromise);
}

TEST_CASE("in any bath the masses close, the tops stay covered whatever is taken up, and the level suits the foam") {
  RandomNumbers random{41};
  int baths = 0, several_layers = 0, pierced = 0, filler_cut = 0;
  for (int trial = 0; trial < 6000; ++trial) {
    CAPTURE(trial);
    const BathCase c = random_bath(random);
    const auto filled = c.filled();
    if (!filled) continue;
    const Bath& b = *filled;
    ++baths;
    several_layers += b.layout.layers > 1 ? 1 : 0;
    pierced += c.vessel.piercing.value > 0 * mm ? 1 : 0;
    filler_cut += b.filler < c.facts.filler.value ? 1 : 0;
    CHECK(c.count() <= b.layout.capacity());
    CHECK(fits(usable_height(c.vessel), b.start_height));
    CHECK(b.end_height >= b.layout.top + c.facts.cover.value);
    CHECK(b.pour >= b.taken_up + b.film);

    // The resin, not rounded and as printed in millilitres.
    CHECK(std::abs((b.pour - b.taken_up - b.film - b.left_over) / millilitre) <= 1e-6);
    CHECK(std::abs((b.pour - b.fresh - b.reused) / millilitre) <= 1e-6);
    const double poured = ml(Figure::bath_pour, b.pour);
    CHECK(std::abs(poured - ml(Figure::bath_taken_up, b.taken_up) - ml(Figure::bath_film, b.film) -
                   ml(Figure::bath_left_over, b.left_over)) <= 1);
    CHECK(std::abs(poured - ml(Figure::bath_fresh_resin, b.fresh) - ml(Figure::bath_reused_resin, b.reused)) <= 1);

    // Under the resin, ballast and dry blanks together weigh no less than the resin in their place.
    Mass weight = b.ballast, displaced = c.resin.density.value * (b.ballast / c.facts.ballast_density.value);
    for (const BathBlanks& blanks : c.blanks) {
      weight += blanks.count * blanks.dry_mass;
      displaced += c.resin.density.value * (blanks.count * (blanks.section * blanks.section * blanks.length));
    }
    CHECK(weight / gram >= displaced / gram - 1e-6);

    if (trial % 3 != 0) continue;
    const SlowlyFilled slowly{c, b};
    const double pour = b.pour / cm3, at_most = (b.taken_up + b.film) / cm3;
    // A slice at each edge of a blank may be half wrong, and the last one whole.
    const double off = SlowlyFilled::slice * (2 + 4 * b.layout.layers);
    CHECK(std::abs(slowly.level(pour) - b.start_height / mm) <= off);
    for (const double part : {0.0, 0.3, 0.7, 1.0}) {
      CHECK(slowly.level(pour - part * at_most) >= b.layout.top / mm + c.facts.cover.value / mm - off);
    }
    CHECK(std::abs(slowly.level(pour - at_most) - b.end_height / mm) <= off);
  }
  CHECK(baths > 1500);
  CHECK(several_layers > 200);
  CHECK(pierced > 500);
  CHECK(filler_cut > 200);
}

TEST_CASE("no stance and no other number of layers would take less resin") {
  RandomNumbers random{44};
  int baths = 0, several_layers = 0, lying = 0;
  for (int trial = 0; trial < 3000; ++trial) {
    CAPTURE(trial);
    BathCase c = random_bath(random);
    c.vessel.piercing = given(0 * mm);
    c.facts.filler = given(0 * litre);
    const auto filled = c.filled();
    const auto least = least_pour(c, 4);
    REQUIRE(filled.has_value() == least.has_value());
    if (!filled) continue;
    ++baths;
    several_layers += filled->layout.layers > 1 ? 1 : 0;
    lying += filled->layout.stance == Stance::lying ? 1 : 0;
    CHECK(std::abs(filled->pour / millilitre - *least) <= 0.001);
  }
  CHECK(baths > 700);
  CHECK(several_layers > 100);
  CHECK(lying > 200);
  CHECK(baths - lying > 100);
}

TEST_CASE("more blanks, or thirstier ones, never start at a lower level") {
  RandomNumbers random{42};
  int compared = 0;
  for (int trial = 0; trial < 1500; ++trial) {
    CAPTURE(trial);
    BathCase c = random_bath(random);
    c.blanks.resize(1);
    BathCase more = c, thirstier = c;
    ++more.blanks.front().count;
    thirstier.blanks.front().resin_high = 1.2 * c.blanks.front().resin_high;
    const auto few = c.filled(), many = more.filled(), thirsty = thirstier.filled();
    if (many) REQUIRE(few);
    if (thirsty) REQUIRE(few);
    // Where the two are set alike; filler apart, the least resin and the lowest level go together.
    if (many && many->layout.stance == few->layout.stance) {
      ++compared;
      CHECK(many->start_height / mm >= few->start_height / mm - 1e-9);
      const auto all_in = [](const BathCase& of, const Bath& b) {
        return (b.pour + of.solids() + b.ballast / of.facts.ballast_density.value + b.filler) / millilitre;
      };
      CHECK(all_in(more, *many) >= all_in(c, *few) - 1e-6);
    }
    if (thirsty && thirsty->layout.stance == few->layout.stance) {
      CHECK(thirsty->start_height / mm >= few->start_height / mm - 1e-9);
    }
  }
  CHECK(compared > 300);
}

TEST_CASE("what one filling takes at most is found as by trying one blank more each time") {
  RandomNumbers random{43};
  int most = 0;
  for (int trial = 0; trial < 250; ++trial) {
    CAPTURE(trial);
    BathCase c = random_bath(random);
    c.blanks.resize(1);
    c.blanks.front().count = 1;
    while (c.filled()) ++c.blanks.front().count;
    const int found = bath_capacity(c.vessel, c.facts, c.resin, c.blanks.front());
    CHECK(found == c.blanks.front().count - 1);
    most = std::max(most, found);
  }
  CHECK(most > 30);
}
