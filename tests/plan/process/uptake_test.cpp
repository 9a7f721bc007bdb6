#include "plan/process/uptake.h"

#include <doctest/doctest.h>

#include <cmath>
#include <set>
#include <string>

#include "diagnose/failure.h"
#include "plan/tables/species.h"
#include "plan/tables/uptake.h"
#include "plan/tables/wood.h"
#include "planning.h"
#include "random_numbers.h"

using namespace blankwright;

namespace {

/// One blank; what a test is about is set in it.
struct UptakeCase {
  ResinFacts resin;
  UptakeFacts facts;
  UptakeInput in{.section = 40 * mm,
                 .length = 150 * mm,
                 .species = "Sugar maple",
                 .sound = 656.5 * kilogram_per_m3,
                 .measured = std::nullopt,
                 .condition = given(WoodCondition::sound),
                 .resin = resin,
                 .facts = facts,
                 .air_removed = whole};

  explicit UptakeCase(double gram_per_cm3 = 1.04, Share bleed_out = 3 * percent) {
    resin.density = given(gram_per_cm3 * (gram / cm3));
    resin.bleed_out = given(bleed_out);
  }
  UptakeCase(const UptakeCase&) = delete;  // `in` refers to its neighbours
  UptakeCase& operator=(const UptakeCase&) = delete;

  Uptake worked() const { return uptake(in).value; }
};

Density of(std::string_view species) {
  return oven_dry_density(*std::get<const Species*>(find_species(species))).value();
}

}  // namespace

TEST_CASE("the most resin that wood can hold is what its void space holds") {
  // Siau 1984, void fraction 1 − G/1.53 at no moisture, and 100 ρ_r Va/G by hand: sugar maple, G 0.6565, resin of
  // 1.04 g/cm³: 0.571 and 90.4 % of the dry mass; basswood, G 0.38, methyl methacrylate of 0.94: 0.752 and 185.9 %.
  struct Row {
    double gravity, resin, void_share, gain, off;
  };
  for (const Row& row : {Row{0.6565, 1.04, 0.571, 90.4, 0.2}, Row{0.38, 0.94, 0.752, 185.9, 0.3}}) {
    CAPTURE(row.gravity);
    UptakeCase c{row.resin};
    c.in.sound = row.gravity * (gram / cm3);
    const Uptake u = c.worked();
    CHECK(std::abs(u.void_share / whole - row.void_share) <= 0.001);  // by 1.50 or 1.54 it is 0.005 and more off
    CHECK(std::abs(100 * (u.resin_limit / u.dry_mass) - row.gain) <= row.off);
  }
}

TEST_CASE("specific gravity is that on the oven-dry volume, neither green nor at 12 percent") {
  // Wood Handbook tables 4-3 and 5-3, eq. 4-9: sugar maple 0.56 green, 0.63 at 12 %; 0.56/(1 − 0.147) = 0.6565 dry.
  UptakeCase c;
  c.in.sound = of("Sugar maple");
  CHECK(std::abs(c.worked().dry_density / kilogram_per_m3 - 656.5) <= 0.6);
  CHECK(std::abs(c.worked().dry_mass / gram - 0.6565 * 4 * 4 * 15) <= 0.2);
}

TEST_CASE("moisture counts on the dry mass: density at 12 percent holds 1/1.12 of wood, not 0.88") {
  // EN 350:2016, European beech 710 kg/m³ at 12 % (from memory), shrinkage 5.8 + 11.8 = 17.6 %: of a green volume
  // 1 − 0.176 · 18/30 = 0.8944 is left at 12 % and 0.824 when dry; 710/1.12 · 0.8944/0.824 = 688.1.
  CHECK(std::abs(of("European beech") / kilogram_per_m3 - 688.1) <= 0.1);
}

TEST_CASE("air that stays in the pores takes its part of the resin") {
  UptakeCase c;
  const Uptake all = c.worked();
  c.in.air_removed = 90 * percent;
  CHECK(c.worked().resin_limit / all.resin_limit == doctest::Approx(0.9));
  CHECK(c.worked().resin_high / gram == doctest::Approx(all.resin_high / gram));
  // Where much air stays, even what is usual is not to be had, nor asked for.
  c.in.air_removed = 20 * percent;
  const Uptake little = c.worked();
  CHECK(little.resin_high / gram == doctest::Approx(little.resin_limit / gram));
  CHECK(little.resin_low <= little.resin_high);
  CHECK(little.least_wet <= (1 + 1e-12) * (little.dry_mass + little.resin_limit));
  c.in.air_removed = Share{};
  CHECK(c.worked().least_wet / gram == doctest::Approx(c.worked().dry_mass / gram));
}

TEST_CASE("a blank's least wet mass is its own dry wood and part of its own void full of resin") {
  // Another way than the formula: the substance's volume is m/ρ_cw, the void is the rest, resin fills its part of it.
  // Counted from the dry mass: what water a blank still holds when it is weighed is no resin.
  RandomNumbers random{11};
  for (int trial = 0; trial < 2000; ++trial) {
    CAPTURE(trial);
    const double density = random.between(0.9, 1.2);
    const double bleed_out = random.between(0, 0.3);
    UptakeCase c{density, bleed_out * whole};
    const double fill = random.between(0.01, 1);
    c.facts.least_fill = given(fill * whole);
    c.in.section = random.between(10, 90) * mm;
    c.in.length = random.between(30, 400) * mm;
    c.in.measured = given(random.between(0.15, 1.5) * (gram / cm3));
    const Uptake u = c.worked();
    const double volume = (c.in.section / cm) * (c.in.section / cm) * (c.in.length / cm);
    const double dry = volume * (c.in.measured->value / (gram / cm3));
    const double taken = fill * (volume - dry / 1.53) * density;
    CHECK(u.dry_volume / cm3 == doctest::Approx(volume));
    CHECK(u.least_wet / gram == doctest::Approx(dry + taken));
    CHECK(u.least_cured / gram == doctest::Approx(dry + taken * (1 - bleed_out)));
    const LadderRung rung = ladder_rung(dry * gram, volume * cm3, fill * whole, c.resin);
    CHECK(rung.wet / gram == doctest::Approx(dry + taken));
    CHECK(rung.cured / gram == doctest::Approx(dry + taken * (1 - bleed_out)));
  }
}

TEST_CASE("curing shrinks the resin's volume and leaves its mass") {
  UptakeCase c{1.04, Share{}};
  CHECK(c.worked().least_cured / gram == doctest::Approx(c.worked().least_wet / gram));
}

TEST_CASE("what the shop has seen goes before what is usual, as far as the void holds it") {
  // By hand: 90.4 % of sugar maple's dry mass is what its void holds (above); two deviations either side of the mean.
  UptakeCase c;
  c.in.seen = Spread{.n = 8, .mean = 0.5, .deviation = 0.1};
  CHECK(c.worked().resin_low / c.worked().dry_mass == doctest::Approx(0.3));
  CHECK(c.worked().resin_high / c.worked().dry_mass == doctest::Approx(0.7));
  c.in.seen->mean = 0.8;
  CHECK(std::abs(c.worked().resin_high / c.worked().dry_mass - 0.904) < 0.002);
  c.in.seen->mean = 1.2;
  CHECK(std::abs(c.worked().resin_low / c.worked().dry_mass - 0.904) < 0.002);
  c.in.air_removed = 50 * percent;
  CHECK(std::abs(c.worked().resin_high / c.worked().dry_mass - 0.452) < 0.001);
  c.in.seen->n = 7;
  CHECK(c.worked().resin_low / c.worked().dry_mass < 0.452);
}

TEST_CASE("no wood is expected to take all that its void holds") {
  for (const char* species : {"Sugar maple", "White oak"}) {
    for (const WoodCondition condition :
         {WoodCondition::sound, WoodCondition::spalted, WoodCondition::punky, WoodCondition::burl}) {
      UptakeCase c;
      c.in.species = species;
      c.in.condition = given(condition);
      const Uptake u = c.worked();
      CHECK(u.resin_high <= 0.95 * (c.resin.density.value * (u.dry_volume - u.dry_mass / cell_wall)) * (1 + 1e-9));
    }
  }
}

TEST_CASE("the low end of what is usual is the least fill until the shop has its own") {
  UptakeCase c;
  const Uptake usual = c.worked();
  CHECK((usual.least_wet - usual.dry_mass) / gram == doctest::Approx(usual.resin_low / gram));
  c.facts.least_fill = given(70 * percent);
  CHECK(c.worked().fill / percent == doctest::Approx(70));
  CHECK(c.worked().resin_low / gram == doctest::Approx(usual.resin_low / gram));
}

TEST_CASE("a porous blank roughly doubles its mass") {
  // Common practice, no source: the resin in spalted and punky wood weighs 0.6 to 1.4 of the dry wood.
  for (const char* species : {"Sugar maple", "European beech", "European ash"}) {
    for (const WoodCondition condition : {WoodCondition::spalted, WoodCondition::punky}) {
      CAPTURE(species);
      UptakeCase c;
      c.in.species = species;
      c.in.sound = of(species);
      c.in.condition = given(condition);
      c.in.air_removed = 95 * percent;
      const Uptake u = c.worked();
      const double middle = (u.resin_low + u.resin_high) / 2 / u.dry_mass;
      CHECK(middle > 0.6);
      CHECK(middle < 1.4);
    }
  }
}

TEST_CASE("sound sapwood takes what is known of it, and closed heartwood little") {
  // From memory: vinyl polymers in sapwood of diffuse-porous woods 30 to 120 % of the dry mass, in heartwood of white
  // oak, locust and tropical woods below 15 %.
  const auto gain = [](std::string_view species, bool high) {
    UptakeCase c;
    c.in.species = species;
    c.in.sound = of(species);
    const Uptake u = c.worked();
    return (high ? u.resin_high : u.resin_low) / u.dry_mass;
  };
  CHECK(gain("Sugar maple", false) >= 0.3);
  CHECK(gain("American basswood", true) >= 1.2);
  CHECK(gain("White oak", false) < 0.15);
  CHECK(gain("Black locust", false) < 0.15);
}

TEST_CASE("woods with closed heartwood take less than others in every condition that keeps it") {
  // EN 350:2016, heartwood extremely difficult to impregnate, or alike; from memory.
  const std::set<std::string_view> closed{
      "White oak",     "European oak",     "American chestnut", "Sweet chestnut", "Black locust", "Robinia",
      "True mahogany", "African mahogany", "Afrormosia",        "Macawood",       "Teak"};
  std::size_t met = 0;
  for (const Species& species : species_table()) {
    CAPTURE(species.name);
    met += closed.count(species.name);
    for (const WoodCondition condition :
         {WoodCondition::sound, WoodCondition::spalted, WoodCondition::punky, WoodCondition::burl}) {
      const UsualFill fill = usual_fill(condition, species.name);
      const UsualFill open = usual_fill(condition, "European beech");
      CHECK(fill.low > Share{});
      CHECK(fill.low < fill.high);
      CHECK(fill.high < whole);
      CHECK((fill.low < open.low) == closed.contains(species.name));
    }
  }
  CHECK(met == closed.size());
}

TEST_CASE("spalted wood is lighter than sound wood, and punky wood lighter still") {
  CHECK(usual_loss(WoodCondition::sound) == Share{});
  CHECK(usual_loss(WoodCondition::burl) == Share{});
  UptakeCase sound, spalted, punky;
  spalted.in.condition = given(WoodCondition::spalted);
  punky.in.condition = given(WoodCondition::punky);
  CHECK(sound.worked().punkiness == Share{});
  CHECK(spalted.worked().punkiness > Share{});
  CHECK(punky.worked().punkiness > spalted.worked().punkiness);
  CHECK(punky.worked().dry_mass < spalted.worked().dry_mass);
  CHECK(punky.worked().resin_high > spalted.worked().resin_high);
}

TEST_CASE("a measured density goes before the table's, and tells how punky the wood is") {
  UptakeCase c;
  c.in.condition = given(WoodCondition::spalted);
  c.in.sound = 660 * kilogram_per_m3;
  c.in.measured = given(330 * kilogram_per_m3);
  CHECK(c.worked().dry_density / kilogram_per_m3 == doctest::Approx(330));
  CHECK(c.worked().punkiness / percent == doctest::Approx(50));
  c.in.measured = given(700 * kilogram_per_m3);
  CHECK(c.worked().punkiness == Share{});  // denser than usual is not punky
  c.in.measured = given(1530 * kilogram_per_m3);
  CHECK_THROWS_AS(c.worked(), BrokenPromise);
}

TEST_CASE("the ladder has round rungs from rotten to heavy wood, and room on the sheet") {
  RandomNumbers random{5};
  for (int trial = 0; trial < 600; ++trial) {
    CAPTURE(trial);
    UptakeCase c{random.between(0.9, 1.2), random.between(0, 0.3) * whole};
    c.facts.least_fill = given(random.between(0.05, 1) * whole);
    c.in.section = random.between(20, 90) * mm;
    c.in.length = random.between(60, 300) * mm;
    c.in.measured = given(random.between(0.25, 0.95) * (gram / cm3));
    const Uptake u = c.worked();
    for (const UnitSystem units : {UnitSystem::metric, UnitSystem::inches}) {
      const Mass least_step = units == UnitSystem::metric ? gram : 0.1 * ounce;
      const auto rungs = ladder(u, c.resin, units);
      REQUIRE(rungs.size() >= 4);
      CHECK(rungs.size() <= 15);
      CHECK(rungs.front().dry <= 0.66 * u.dry_mass);
      CHECK(rungs.back().dry >= 1.24 * u.dry_mass);
      const double step = (rungs.at(1).dry - rungs.at(0).dry) / least_step;
      CAPTURE(step);
      const double decade = std::pow(10, std::floor(std::log10(step) + 1e-9));
      const double leading = std::round(step / decade);
      CHECK((leading == 1 || leading == 2 || leading == 5));
      CHECK(step == doctest::Approx(leading * decade));
      for (std::size_t i = 0; i < rungs.size(); ++i) {
        const LadderRung& rung = rungs.at(i);
        const double steps = rung.dry / (step * least_step);
        CHECK(steps == doctest::Approx(std::round(steps)));
        // Each rung by the same way round: what is left of the blank's volume beside the substance, partly filled.
        const double empty = u.dry_volume / cm3 - rung.dry / gram / 1.53;
        const double taken = (u.fill / whole) * empty * (c.resin.density.value / (gram / cm3));
        CHECK((rung.wet - rung.dry) / gram == doctest::Approx(taken));
        if (i == 0) continue;
        const LadderRung& before = rungs.at(i - 1);
        CHECK((rung.dry - before.dry) / least_step == doctest::Approx(step));
        CHECK(rung.wet > before.wet);  // more wood and less resin: still heavier, since ρ_r is below ρ_cw
        CHECK(rung.cured > before.cured);
      }
    }
  }
}

TEST_CASE("the ladder ends where nothing but wood substance would be left") {
  UptakeCase c;
  c.in.measured = given(1300 * kilogram_per_m3);
  const Uptake u = c.worked();
  const auto rungs = ladder(u, c.resin, UnitSystem::metric);
  REQUIRE_FALSE(rungs.empty());
  CHECK(rungs.back().dry < 1530 * kilogram_per_m3 * u.dry_volume);
  CHECK(rungs.back().wet > rungs.back().dry);
}
