#include "plan/process/cure.h"
#include "plan/figure/figure.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "block_in_air.h"
#include "plan/process/impregnated_wood.h"
#include "planning.h"
#include "random_numbers.h"

using namespace blankwright;

namespace {

double degrees(Temperature t) { return (t - ice_point) / kelvin; }

CalibrationPair pair_of(Temperature dial, Temperature shown) { return {given(dial), given(shown)}; }

OvenFacts kiln() {
  OvenFacts o;
  o.name = given(std::string{"Kiln"});
  o.width = given(400 * mm);
  o.depth = given(350 * mm);
  o.height = given(300 * mm);
  return o;
}

/// A resin that cures at 200 °F; its figures are invented.
ResinFacts resin() {
  ResinFacts r;
  r.name = given(std::string{"Resin"});
  r.density = given(1040 * kilogram_per_m3);
  r.cure_air = given(fahrenheit(200));
  r.cure_core = given(fahrenheit(190));
  r.cure_hold = given(30 * minute);
  return r;
}

/// Wood of 620 kg/m³ with a third of its volume filled: 0.333 · 1040/620 of its mass.
CureInput cure_input(const OvenFacts& o, const ResinFacts& r) {
  return {.oven = o,
          .resin = r,
          .section = 38 * mm,
          .length = 150 * mm,
          .uptake = 0.333 * 1040 / 620,
          .resin_part = 33.3 * percent,
          .dry_density = 620 * kilogram_per_m3,
          .start = celsius(20)};
}

bool has_step(const Worked<Cure>& cure, Figure figure) {
  return std::ranges::any_of(cure.steps, [&](const Step& step) { return step.figure == figure; });
}

}  // namespace

TEST_CASE("the dial is found between the pairs that were measured, and not beyond them") {
  // By hand: 80 → 76.5, 90 → 88.0, 100 → 99.2; for 93.0 true: 90 + 10 (93 − 88)/11.2 = 94.46.
  const std::vector<CalibrationPair> pairs{pair_of(celsius(80), celsius(76.5)), pair_of(celsius(90), celsius(88)),
                                           pair_of(celsius(100), celsius(99.2))};
  CHECK(std::abs(degrees(*dial_for(pairs, celsius(93))) - 94.46) <= 0.01);
  CHECK(degrees(*dial_for(pairs, celsius(76.5))) == doctest::Approx(80));
  CHECK(degrees(*dial_for(pairs, celsius(88))) == doctest::Approx(90));
  CHECK(degrees(*dial_for(pairs, celsius(99.2))) == doctest::Approx(100));
  CHECK_FALSE(dial_for(pairs, celsius(76.4)).has_value());
  CHECK_FALSE(dial_for(pairs, celsius(99.3)).has_value());
  CHECK_FALSE(dial_for({}, celsius(93)).has_value());
  CHECK(degrees(*dial_for({pair_of(celsius(95), celsius(93))}, celsius(93))) == doctest::Approx(95));
}

TEST_CASE("an offset of an oven is a difference and is not shifted by 32") {
  // 9 °F of offset are 5 K: an oven that shows 9 °F less than its dial, at any temperature.
  const std::vector<CalibrationPair> pairs{pair_of(fahrenheit(180), fahrenheit(171)),
                                           pair_of(fahrenheit(220), fahrenheit(211))};
  const Temperature dial = *dial_for(pairs, fahrenheit(200));
  CHECK((dial - fahrenheit(200)) / kelvin == doctest::Approx(5).epsilon(1e-9));
  // NIST SP 811 app. B.8: 200 °F = 93.33 °C.
  CHECK(std::abs(degrees(dial) - (93.3333 + 5)) <= 0.0001);
}

TEST_CASE("impregnated wood lies between its bounds") {
  // By hand from Wood Handbook eq. 4-15 and 4-16 (k = G 0.1941 + 0.01864, c = 0.1031 + 0.003867 T kJ/(kg K)), at G
  // 0.62 and 330 K: wood 0.13898 W/(m K), 1.3792 kJ/(kg K). A third of resin of 0.19 W/(m K), 1.45 kJ/(kg K) (PMMA,
  // from memory): in series 1/(0.667/0.13898 + 0.333/0.19) = 0.15264; in the air's place 0.13898 + 0.333 · 0.17136 =
  // 0.19604.
  const double uptake = 0.333 * 1040 / 620;
  const ImpregnatedWood wood = impregnated_wood({.dry_density = 620 * kilogram_per_m3,
                                                 .uptake = uptake,
                                                 .resin_part = 33.3 * percent,
                                                 .warmed_to = Temperature::above_zero(330 * kelvin)});
  CHECK(wood.density / kilogram_per_m3 == doctest::Approx(620 + 0.333 * 1040).epsilon(1e-9));
  CHECK(wood.k_across_least == doctest::Approx(0.15264).epsilon(0.001));
  CHECK(wood.k_across == doctest::Approx((0.15264 + 0.19604) / 2).epsilon(0.001));
  CHECK(wood.k_along == doctest::Approx(1.8 * 0.13898 + 0.333 * 0.17136).epsilon(0.001));
  CHECK(wood.heat_capacity == doctest::Approx((1379.2 + uptake * 1450) / (1 + uptake)).epsilon(0.001));
  // Published for impregnated wood, from memory: 0.15 to 0.25 across the grain, 0.3 to 0.4 along.
  CHECK(wood.k_across_least > 0.15);
  CHECK(wood.k_across < 0.25);
  CHECK(wood.k_along > 0.3);
  CHECK(wood.k_along < 0.4);

  // Without resin it is wood; filled up, only what the wood is made of remains beside the resin.
  const ImpregnatedWood bare = impregnated_wood(
      {.dry_density = 620 * kilogram_per_m3, .resin_part = {}, .warmed_to = Temperature::above_zero(330 * kelvin)});
  CHECK(bare.k_across == doctest::Approx(0.13898).epsilon(0.001));
  CHECK(bare.k_across_least == doctest::Approx(bare.k_across).epsilon(1e-12));
  CHECK(bare.heat_capacity == doctest::Approx(1379.2).epsilon(0.001));
  CHECK(bare.density / kilogram_per_m3 == doctest::Approx(620));
}

TEST_CASE("a 38 mm blank takes about two hours near 93 °C in still air") {
  // Common practice, no source: blanks of that size are left in for about two hours near 93 °C. What is printed as
  // the likely time is less, what is printed as cautious reaches it.
  const OvenFacts o = kiln();
  const ResinFacts r = resin();
  const Cure c = cure(cure_input(o, r)).value;
  CHECK(*c.core_time / hour > 1);
  CHECK(*c.core_time / hour < 2);
  CHECK(*c.core_time_cautious / hour > 2);
  CHECK(*c.core_time_cautious / hour < 3);
}

TEST_CASE("the core's times are those of a block in air of the oven's kind") {
  // Still air 10 and 5 W/(m² K), with a fan 20 and 15: common practice, no source. Finite volumes, by the test.
  for (const bool fan : {false, true}) {
    CAPTURE(fan);
    OvenFacts o = kiln();
    o.fan = given(fan);
    const ResinFacts r = resin();
    const CureInput in = cure_input(o, r);
    const ImpregnatedWood wood = impregnated_wood({.dry_density = in.dry_density,
                                                   .uptake = in.uptake,
                                                   .resin_part = in.resin_part,
                                                   .warmed_to = celsius((20 + 93.333) / 2)});
    const auto by_volumes = [&](double film, double k_across) {
      return BlockInAir{{.across = in.section,
                         .along = in.length,
                         .k_across = k_across,
                         .k_along = wood.k_along,
                         .heat_capacity = wood.heat_capacity,
                         .density = wood.density,
                         .film = film,
                         .start = celsius(20),
                         .air = fahrenheit(200),
                         .target = fahrenheit(190)}}
          .until((200.0 - 190.0) / (200.0 - 68.0));
    };
    const Cure c = cure(in).value;
    CHECK(*c.core_time / second == doctest::Approx(by_volumes(fan ? 20 : 10, wood.k_across)).epsilon(0.01));
    CHECK(*c.core_time_cautious / second ==
          doctest::Approx(by_volumes(fan ? 15 : 5, wood.k_across_least)).epsilon(0.01));
  }
}

TEST_CASE("the hold counts from the core or from the air, as the data sheet says") {
  const OvenFacts o = kiln();
  ResinFacts r = resin();
  const Cure from_core = cure(cure_input(o, r)).value;
  CHECK(from_core.hold / minute == doctest::Approx(30));
  CHECK(from_core.total / minute == doctest::Approx(*from_core.core_time_cautious / minute + 30));
  CHECK(from_core.total_likely / minute == doctest::Approx(*from_core.core_time / minute + 30));

  // From the air it is the longer of hold and core, which still has to get there.
  r.hold_from = given(HoldFrom::air);
  CHECK(cure(cure_input(o, r)).value.total / minute == doctest::Approx(*from_core.core_time_cautious / minute));
  r.cure_hold = given(5 * hour);
  CHECK(cure(cure_input(o, r)).value.total / hour == doctest::Approx(5));
  CHECK(cure(cure_input(o, r)).value.total_likely / hour == doctest::Approx(5));

  // Without a core temperature there is nothing else to count from.
  r.hold_from = given(HoldFrom::core);
  r.cure_core.reset();
  const auto no_core = cure(cure_input(o, r));
  CHECK(no_core.value.total / hour == doctest::Approx(5));
  CHECK_FALSE(no_core.value.core.has_value());
  CHECK_FALSE(no_core.value.core_time.has_value());
  CHECK_FALSE(has_step(no_core, Figure::cure_core_time));
}

TEST_CASE("a core that never gets there has no time, one that is there already takes none") {
  const OvenFacts o = kiln();
  ResinFacts r = resin();
  r.cure_core = given(fahrenheit(200));
  const Cure never = cure(cure_input(o, r)).value;
  CHECK(never.core.has_value());
  CHECK_FALSE(never.core_time.has_value());
  CHECK_FALSE(never.core_time_cautious.has_value());
  r.cure_core = given(celsius(20));
  const Cure at_once = cure(cure_input(o, r)).value;
  CHECK(*at_once.core_time_cautious == Duration{});
  CHECK(at_once.total / minute == doctest::Approx(30));
}

TEST_CASE("a cure says its dial only where the oven was measured") {
  OvenFacts o = kiln();
  const ResinFacts r = resin();
  const auto unknown = cure(cure_input(o, r));
  CHECK_FALSE(unknown.value.dial.has_value());
  CHECK_FALSE(has_step(unknown, Figure::cure_dial));
  o.calibration = {pair_of(celsius(90), celsius(85)), pair_of(celsius(110), celsius(105))};
  const auto known = cure(cure_input(o, r));
  CHECK(std::abs(degrees(*known.value.dial) - 98.3333) <= 0.0001);
  CHECK(has_step(known, Figure::cure_dial));
  CHECK(degrees(known.value.air) == doctest::Approx(93.3333).epsilon(1e-5));
}

TEST_CASE("a larger blank is slower to warm, and the cautious time is the longer one") {
  const OvenFacts o = kiln();
  const ResinFacts r = resin();
  RandomNumbers random{5};
  for (int trial = 0; trial < 40; ++trial) {
    CAPTURE(trial);
    CureInput in = cure_input(o, r);
    in.section = random.between(15, 80) * mm;
    in.length = random.between(60, 300) * mm;
    in.dry_density = random.between(250, 900) * kilogram_per_m3;
    in.resin_part = {};
    in.uptake = 0;
    const Cure before = cure(in).value;
    CHECK(*before.core_time < *before.core_time_cautious);
    CureInput larger = in;
    larger.section = 1.2 * in.section;
    CHECK(*cure(larger).value.core_time > *before.core_time);
    CHECK(*cure(larger).value.core_time_cautious > *before.core_time_cautious);
  }
}
