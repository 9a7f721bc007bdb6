#include "plan/wood/drying.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "diagnose/failure.h"
#include "planning.h"

using namespace blankwright;

namespace {

struct Row {
  Length thickness;
  Duration time;
};

DryingFacts with_times(const std::vector<Row>& rows) {
  DryingFacts facts;
  for (const Row& row : rows) facts.times.push_back({given(row.thickness), given(row.time)});
  return facts;
}

Drying dried(Length section, const DryingFacts& facts, Share moisture = 9 * percent) {
  return drying({.section = section, .moisture = given(moisture), .facts = facts}).value;
}

double hours(Length section, const DryingFacts& facts) { return dried(section, facts).least / hour; }

/// How far a plate, from one moisture throughout, is on the way to that of the air, after `fourier` = D t/thickness²:
/// finite differences on half of it, explicit.
class Plate {
 public:
  /// Takes the plate on in time.
  void go_to(double fourier) {
    const double dx = 0.5 / cells;
    const double step = 0.4 * dx * dx;
    while (time_ < fourier) {
      std::vector<double> next = to_go_;
      for (std::size_t i = 0; i < cells; ++i) {
        const double inwards = i + 1 < cells ? to_go_[i + 1] - to_go_[i] : 0;
        const double outwards = i > 0 ? to_go_[i - 1] - to_go_[i] : -2 * to_go_[i];
        next[i] += 0.4 * (inwards + outwards);
      }
      to_go_ = next;
      time_ += step;
    }
  }
  double left() const {
    double sum = 0;
    for (const double part : to_go_) sum += part;
    return sum / static_cast<double>(cells);
  }
  double time() const { return time_; }

 private:
  static constexpr std::size_t cells = 200;
  std::vector<double> to_go_ = std::vector<double>(cells, 1.0);
  double time_ = 0;
};

/// D t/a² until that part is left of a square section, which is that of a plate squared.
double fourier_of_square(double left) {
  Plate plate;
  while (plate.left() * plate.left() > left) plate.go_to(plate.time() + 1e-6);
  return plate.time();
}

}  // namespace

TEST_CASE("a blank of 40 to 50 mm dries for a day at 103 degrees") {
  // Common practice, no source: 24 h at 103 °C (EN 13183-1 and ASTM D4442 for the temperature), then weighed twice.
  const DryingFacts facts;
  CHECK(hours(40 * mm, facts) == doctest::Approx(24));
  CHECK(hours(50 * mm, facts) == doctest::Approx(24));
  CHECK((dried(45 * mm, facts).oven - ice_point) / kelvin == doctest::Approx(103));
  CHECK(dried(45 * mm, facts).cool / hour == doctest::Approx(2));
}

TEST_CASE("the shop's time is that of the first thickness that covers the section") {
  const DryingFacts facts = with_times({{30 * mm, 16 * hour}, {45 * mm, 26 * hour}, {60 * mm, 30 * hour}});
  CHECK(hours(12 * mm, facts) == doctest::Approx(16));
  CHECK(hours(30 * mm, facts) == doctest::Approx(16));
  CHECK(hours(30.01 * mm, facts) == doctest::Approx(26));
  CHECK(hours(60 * mm, facts) == doctest::Approx(30));
}

TEST_CASE("beyond the thickest the time grows with the square of the thickness") {
  // Diffusion: 30 h at 60 mm, at 90 mm 30 · 1.5² = 67.5 h.
  const DryingFacts facts = with_times({{45 * mm, 26 * hour}, {60 * mm, 30 * hour}});
  CHECK(hours(90 * mm, facts) == doctest::Approx(67.5));
  CHECK_THROWS_AS(dried(0 * mm, facts), BrokenPromise);
}

TEST_CASE("a thicker blank never dries faster") {
  const DryingFacts facts;
  double before = 0;
  for (Length section = 5 * mm; section < 200 * mm; section += 1 * mm) {
    CHECK(hours(section, facts) >= before);
    before = hours(section, facts);
  }
}

TEST_CASE("in a cooler oven the usual time is longer, and the shop's own holds for its own oven") {
  // By hand, 35 kJ/mol: at 80 °C 35000/8.314 (1/353.15 − 1/376.15) = 0.7289, e^0.7289 = 2.073; 24 h become 49.75 h.
  DryingFacts usual;
  usual.oven = given(celsius(80));
  CHECK(std::abs(hours(45 * mm, usual) - 49.75) <= 0.05);
  usual.oven = given(celsius(105));
  CHECK(hours(45 * mm, usual) == doctest::Approx(24));

  DryingFacts own = with_times({{50 * mm, 40 * hour}});
  own.oven = given(celsius(80));
  CHECK(hours(45 * mm, own) == doctest::Approx(40));
}

TEST_CASE("left in the open room a dry blank goes back to the room's moisture") {
  // Wood Handbook (FPL-GTR-282) eq. 4-5: 20 °C and 50 %, 9.27 %; 20 °C and 75 %, 14.45 %; to 0.01 in a public fact
  // sheet.
  DryingFacts facts;
  facts.room = given(celsius(20));
  facts.room_humidity = given(50 * percent);
  CHECK(std::abs(dried(45 * mm, facts).room_moisture / percent - 9.27) <= 0.006);
  const Duration in_dry_room = dried(45 * mm, facts).regain.value();
  facts.room_humidity = given(75 * percent);
  CHECK(std::abs(dried(45 * mm, facts).room_moisture / percent - 14.45) <= 0.006);
  CHECK(dried(45 * mm, facts).regain.value() < in_dry_room);
  // At 1 % of humidity wood never takes up 1 %.
  facts.room_humidity = given(1 * percent);
  CHECK(dried(45 * mm, facts).room_moisture < 1 * percent);
  CHECK_FALSE(dried(45 * mm, facts).regain.has_value());
}

TEST_CASE("the time to regain one percent is a little earlier than diffusion by finite differences has it") {
  // A square section, 3 % of the moisture left after 30 h in the oven; in the room 23.78 times slower (35 kJ/mol, by
  // hand), towards 9.27 %.
  DryingFacts facts = with_times({{50 * mm, 30 * hour}});
  const double dry = fourier_of_square(0.03);
  const double regained = fourier_of_square(1 - 1 / 9.27);
  const double expected = 30 * 23.78 * regained / dry;
  const double regain = dried(50 * mm, facts).regain.value() / hour;
  CHECK(regain <= expected);
  CHECK(regain >= 0.9 * expected);
  // Half the thickness, a quarter of the time: also where the table's rows do not say so.
  facts = with_times({{25 * mm, 29 * hour}, {50 * mm, 30 * hour}});
  CHECK(dried(25 * mm, facts).regain.value() / hour == doctest::Approx(regain / 4));
}

TEST_CASE("wood wetter than the shop puts into the oven is air-dried first") {
  DryingFacts facts;
  facts.air_dry_above = given(11 * percent);
  CHECK_FALSE(dried(45 * mm, facts, 11 * percent).air_dry_first);
  CHECK(dried(45 * mm, facts, 11.1 * percent).air_dry_first);
  CHECK(dried(45 * mm, facts, 11.1 * percent).start_moisture / percent == doctest::Approx(11.1));
}
