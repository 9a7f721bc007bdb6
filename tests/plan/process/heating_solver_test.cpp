#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "block_in_air.h"
#include "diagnose/failure.h"
#include "plan/process/cure.h"
#include "random_numbers.h"

using namespace blankwright;

namespace {

double seconds(const HeatingInput& in) { return heating_time(in) / second; }
double left(const HeatingInput& in) { return (in.air - in.target) / (in.air - in.start); }

/// A wall of half thickness 1 m with Fo = t in seconds and Bi = film; its breadth does not count for days.
HeatingInput wall(double biot) {
  return {.across = 10000 * metre,
          .along = 2 * metre,
          .k_across = 1,
          .k_along = 1,
          .heat_capacity = 1,
          .density = 1 * kilogram_per_m3,
          .film = biot,
          .start = celsius(0),
          .air = celsius(100),
          .target = {}};
}

double fourier_of_wall(double biot, double left_over) {
  HeatingInput in = wall(biot);
  in.target = celsius(100 * (1 - left_over));
  return seconds(in);
}

/// The temperature of the middle after a time, °C, found from heating_time().
double middle_after(HeatingInput in, double t) {
  Temperature low = in.start;
  Temperature high = in.air;
  for (int i = 0; i < 60; ++i) {
    in.target = low + (high - low) / 2;
    if (in.target <= in.start || in.target >= in.air) break;
    (seconds(in) < t ? low : high) = in.target;
  }
  return (low - ice_point) / kelvin;
}

}  // namespace

TEST_CASE("the first root and coefficient of a plane wall are the tabled ones") {
  // Incropera et al., Fundamentals of Heat and Mass Transfer, table 5.1, plane wall (from memory): late, the middle
  // falls as C1 exp(−ζ1² Fo), and two times give both. Printed to four decimals.
  struct Row {
    double biot, zeta, coefficient;
  };
  for (const Row& row :
       {Row{0.01, 0.0998, 1.0017}, Row{0.02, 0.1410, 1.0033}, Row{0.05, 0.2217, 1.0082}, Row{0.1, 0.3111, 1.0160},
        Row{0.2, 0.4328, 1.0311}, Row{0.3, 0.5218, 1.0450}, Row{0.5, 0.6533, 1.0701}, Row{0.7, 0.7506, 1.0918},
        Row{1, 0.8603, 1.1191}, Row{2, 1.0769, 1.1785}, Row{3, 1.1925, 1.2102}, Row{5, 1.3138, 1.2402},
        Row{10, 1.4289, 1.2620}, Row{20, 1.4961, 1.2699}, Row{50, 1.5400, 1.2727}, Row{100, 1.5552, 1.2731}}) {
    CAPTURE(row.biot);
    const double early = fourier_of_wall(row.biot, 0.02);
    const double late = fourier_of_wall(row.biot, 0.005);
    const double rate = std::log(0.02 / 0.005) / (late - early);
    CHECK(std::abs(std::sqrt(rate) - row.zeta) <= 0.00011);
    CHECK(std::abs(0.02 * std::exp(rate * early) - row.coefficient) <= 0.00011);
  }
}

TEST_CASE("the pipe wall of the textbook's example is as warm as it says") {
  // Incropera et al., example 5.4: a steel wall of 40 mm, insulated on one side, h 500 W/(m² K), k 63.9 W/(m K),
  // α 18.8e-6 m²/s, from −20 °C with oil of 60 °C: 42.9 °C at the insulated face after 8 min. The book rounds ζ1;
  // ours may be off by 0.15 K for that.
  HeatingInput in = wall(1);
  in.along = 80 * mm;
  in.k_across = in.k_along = 63.9;
  in.heat_capacity = 63.9 / 18.8e-6;
  in.film = 500;
  in.start = celsius(-20);
  in.air = celsius(60);
  CHECK(std::abs(middle_after(in, 480) - 42.9) <= 0.15);
}

TEST_CASE("the middle of a blank in still air warms as a calculation in three dimensions has it") {
  // Another program's series, and its finite volumes on 16 × 16 × 32 cells: 58.06 °C after 1800 s, 79.62 °C after
  // 3600 s, 85 °C after 4532.8 s (4531.6 s by finite volumes).
  CHECK(std::abs(middle_after(block_of_two_answers(), 1800) - 58.06) <= 0.03);
  CHECK(std::abs(middle_after(block_of_two_answers(), 3600) - 79.62) <= 0.03);
  CHECK(std::abs(seconds(block_of_two_answers()) - 4532.8) <= 0.5);
  // The film matters more than anything: 124.8, 50.2 and 45.1 min with 5, 20 and 25 W/(m² K).
  for (const auto& [film, minutes] : {std::pair{5.0, 124.8}, std::pair{20.0, 50.2}, std::pair{25.0, 45.1}}) {
    HeatingInput in = block_of_two_answers();
    in.film = film;
    CHECK(std::abs(seconds(in) / 60 - minutes) <= 0.06);
  }
}

TEST_CASE("series and finite volumes agree over sizes, films and grain") {
  struct Size {
    Length across, along;
  };
  for (const Size& size : {Size{20 * mm, 60 * mm}, Size{38 * mm, 150 * mm}, Size{50 * mm, 50 * mm},
                           Size{70 * mm, 30 * mm}, Size{90 * mm, 350 * mm}}) {
    for (const double film : {5.0, 15.0, 40.0}) {
      for (const double grain : {1.0, 1.8, 2.8}) {
        for (const double target : {40.0, 88.0}) {
          HeatingInput in = block_of_two_answers();
          in.across = size.across;
          in.along = size.along;
          in.film = film;
          in.k_across = 0.16;
          in.k_along = 0.16 * grain;
          in.target = celsius(target);
          CAPTURE(size.across / mm);
          CAPTURE(film);
          CAPTURE(grain);
          CAPTURE(target);
          CHECK(seconds(in) == doctest::Approx(BlockInAir{in}.until(left(in))).epsilon(0.01));
        }
      }
    }
  }
}

TEST_CASE("a lumped mass, one term of the series and a slab are all wrong") {
  // The same blank, 4532.8 s: Bi 0.95 across is above 0.1, Fo 0.106 lengthwise below 0.2.
  const HeatingInput in = block_of_two_answers();
  const double stored = 950 * 1600;
  const double a = 0.038;
  const double l = 0.150;
  const double lumped = stored * (a * a * l) / (10 * (2 * a * a + 4 * a * l)) * std::log(1 / left(in));
  CHECK(std::abs(lumped - 2769.7) <= 1);
  CHECK(lumped < 0.65 * seconds(in));

  // One term each: roots by Newton's method on z − atan(Bi/z).
  const auto first = [](double biot) {
    double z = std::min(1.5, std::sqrt(biot));
    for (int i = 0; i < 100; ++i) z -= (z - std::atan(biot / z)) / (1 + biot / (z * z + biot * biot));
    return std::pair{z, 4 * std::sin(z) / (2 * z + std::sin(2 * z))};
  };
  const auto [z_side, c_side] = first(10 * a / 2 / 0.2);
  const auto [z_end, c_end] = first(10 * l / 2 / 0.2);
  const double rate = 0.2 / stored * (2 * z_side * z_side / (a * a / 4) + z_end * z_end / (l * l / 4));
  const double one_term = std::log(c_side * c_side * c_end / left(in)) / rate;
  CHECK(std::abs(one_term - 4642.3) <= 2);
  CHECK(one_term > 1.02 * seconds(in));

  HeatingInput slab = wall(1);
  slab.along = in.across;
  slab.k_across = slab.k_along = 0.2;
  slab.heat_capacity = stored;
  slab.film = 10;
  slab.start = in.start;
  slab.air = in.air;
  slab.target = in.target;
  CHECK(std::abs(seconds(slab) - 8737) <= 2);
}

TEST_CASE("a thin block of metal warms as a lumped mass") {
  // Bi 0.0005: the textbook's lumped capacitance, t = ρ c V/(h A) ln(1/θ), good to Bi.
  HeatingInput in = block_of_two_answers();
  in.across = in.along = 20 * mm;
  in.k_across = in.k_along = 200;
  const double lumped = 950 * 1600 * 0.02 / (10 * 6) * std::log(1 / left(in));
  CHECK(seconds(in) == doctest::Approx(lumped).epsilon(0.001));
}

TEST_CASE("a thicker, longer or heavier block is slower, and one that conducts or is blown at is faster") {
  RandomNumbers random{11};
  for (int trial = 0; trial < 200; ++trial) {
    CAPTURE(trial);
    HeatingInput in = block_of_two_answers();
    in.across = random.between(10, 120) * mm;
    in.along = random.between(20, 400) * mm;
    in.k_across = random.between(0.1, 0.3);
    in.k_along = in.k_across * random.between(1, 3);
    in.film = random.between(3, 60);
    in.density = random.between(300, 1300) * kilogram_per_m3;
    in.target = celsius(random.between(21.5, 93));
    const double t = seconds(in);
    CHECK(t > 0);
    const auto with_change = [&](auto change) {
      HeatingInput other = in;
      change(other);
      return seconds(other);
    };
    CHECK(with_change([](HeatingInput& o) { o.across = 1.1 * o.across; }) > t);
    CHECK(with_change([](HeatingInput& o) { o.along = 1.1 * o.along; }) >= t * (1 - 1e-9));
    CHECK(with_change([](HeatingInput& o) { o.density = 1.1 * o.density; }) ==
          doctest::Approx(1.1 * t).epsilon(1e-9));
    CHECK(with_change([](HeatingInput& o) { o.film *= 1.1; }) < t);
    CHECK(with_change([](HeatingInput& o) { o.k_across *= 1.1, o.k_along *= 1.1; }) < t);
    CHECK(with_change([](HeatingInput& o) { o.target = o.target + 0.1 * kelvin; }) > t);
  }
}

TEST_CASE("a core as warm as the air is never reached, and is a broken promise") {
  HeatingInput in = block_of_two_answers();
  in.target = in.air;
  CHECK_THROWS_AS(heating_time(in), BrokenPromise);
  in.target = in.start;
  CHECK_THROWS_AS(heating_time(in), BrokenPromise);
}
