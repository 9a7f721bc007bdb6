#include "plan/part/bore.h"
#include "plan/figure/figure.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <doctest/doctest.h>

#include "plan/tables/drills.h"
#include "plan/tables/threads.h"
#include "planning.h"
#include "random_numbers.h"

using namespace blankwright;

namespace {

Drill drill(std::string_view written) {
  const auto read = read_drill(written);
  REQUIRE_MESSAGE(read.has_value(), std::string{written});
  return *read;
}

BoreDepth depth(double drill_mm, double point, double embedded = 25, double reservoir = 6, double facing = 3) {
  return bore_depth({.drill = drill_mm * mm,
                     .point = given(point * degree),
                     .embedded = embedded * mm,
                     .reservoir = given(reservoir * mm),
                     .facing = given(facing * mm)})
      .value;
}

}  // namespace

TEST_CASE("a drill's point is as long as the geometry of the cone says") {
  // L = D / (2 tan(a/2)). Per unit of diameter 0.3004 at 118°, 0.2071 at 135°, 0.5 at 90°; 10.5 mm at 118°: 3.154 mm.
  struct Row {
    double drill, point, length, tolerance;
  };
  const Row rows[] = {{1, 118, 0.3004, 6e-5},
                      {1, 135, 0.2071, 6e-5},
                      {1, 90, 0.5, 6e-5},
                      {10.5, 118, 3.154, 0.002},
                      {10, 180, 0, 1e-9}};
  for (const Row& row : rows) {
    CAPTURE(row.drill);
    CAPTURE(row.point);
    const BoreDepth d = depth(row.drill, row.point);
    CHECK(std::abs((d.tip - d.full) / mm - row.length) <= row.tolerance);
  }
}

TEST_CASE("the depth stop is set from the face as it is drilled, the facing still to come") {
  // 9 mm drill at 118°, 25 mm embedded, 6 mm reservoir, 3 mm facing, by hand.
  const BoreDepth d = depth(9, 118);
  CHECK(d.full / mm == doctest::Approx(25 + 6).epsilon(1e-12));
  CHECK(d.tip / mm == doctest::Approx(31 + 4.5 / std::tan(59 * std::numbers::pi / 180)).epsilon(1e-9));
  CHECK(d.from_drilled_face / mm == doctest::Approx(31 + 3).epsilon(1e-12));
}

TEST_CASE("more embedment never shortens the bore, and a blunter point never lengthens it") {
  for (double embedded = 5; embedded < 100; embedded += 5) {
    CHECK(depth(9, 118, embedded + 5).tip > depth(9, 118, embedded).tip);
  }
  for (double point = 60; point < 180; point += 5) CHECK(depth(9, point + 5).tip < depth(9, point).tip);
}

TEST_CASE("walls and web of a bored handle are those worked out by hand") {
  // 8.5 mm drill for M8: glue line 0.25 mm. 36 mm embedded, 42 mm to the lips, to the point 42 + 4.25/tan 59°.
  const FinishedForm form{{{0 * mm, 26 * mm}, {30 * mm, 30 * mm}, {80 * mm, 34 * mm}, {110 * mm, 20 * mm}}, false};
  const BoreDepth d = depth(8.5, 118, 36);
  const BoreWalls walls =
      bore_walls({.form = form, .drill = 8.5 * mm, .glue_line = 0.25 * mm, .embedded = 36 * mm, .depth = d}).value;
  CHECK(walls.least_wall / mm == doctest::Approx(26 / 2.0 - 8.5 / 2 - 0.25).epsilon(1e-12));
  CHECK(walls.wall_at / mm == doctest::Approx(0));
  CHECK(walls.web / mm == doctest::Approx(110 - 42 - 4.25 / std::tan(59 * std::numbers::pi / 180)).epsilon(1e-9));
}

TEST_CASE("behind the stud a leaning one leaves the bore farther off its axis than the glue line") {
  // Waist of 14 mm at the lips, 30 mm deep; stud 20 mm in: off by 0.25 × (2 × 30/20 − 1) = 0.5 mm there.
  const FinishedForm form{{{0 * mm, 24 * mm}, {30 * mm, 14 * mm}, {100 * mm, 30 * mm}}, false};
  const BoreDepth d = depth(8.5, 118, 20, 10);
  const BoreWalls walls =
      bore_walls({.form = form, .drill = 8.5 * mm, .glue_line = 0.25 * mm, .embedded = 20 * mm, .depth = d}).value;
  CHECK(walls.wall_at / mm == doctest::Approx(30).epsilon(1e-9));
  CHECK(walls.least_wall / mm == doctest::Approx(14 / 2.0 - 8.5 / 2 - 0.25 * (2 * 30 / 20.0 - 1)).epsilon(1e-9));
}

TEST_CASE("the least wall is never more than what is left anywhere along the bore, cone and lean included") {
  RandomNumbers random{12};
  for (int trial = 0; trial < 200; ++trial) {
    CAPTURE(trial);
    std::vector<FormPoint> stations;
    Length along{};
    for (int i = 0; i < 6; ++i) {
      stations.push_back({along, random.between(18, 40) * mm});
      along += random.between(2, 25) * mm;
    }
    const FinishedForm form{std::move(stations), random.yes()};
    const double bore = random.between(4, 13);
    const double g = random.between(0, 0.6);
    const double embedded = random.between(5, 40);
    const BoreDepth d = depth(bore, random.between(60, 180), embedded, random.between(0, 12));
    const BoreWalls walls =
        bore_walls({.form = form, .drill = bore * mm, .glue_line = g * mm, .embedded = embedded * mm, .depth = d})
            .value;
    double least = 1e9;
    const double full = d.full / mm;
    const double tip = d.tip / mm;
    const double end = std::min(tip, form.length() / mm);
    for (int i = 0; i <= 3000; ++i) {
      const double z = end * i / 3000;
      const double radius = z <= full ? bore / 2 : bore / 2 * (tip - z) / (tip - full);
      for (const double seat : {-g, g}) {  // the stud touches a wall at the seat, another or the same at its end
        for (const double inner : {-g, g}) {
          least = std::min(least,
                           form.diameter(z * mm) / mm / 2 - radius - std::abs(seat + (inner - seat) * z / embedded));
        }
      }
    }
    CHECK(walls.least_wall / mm <= least + 1e-5);
    CHECK(walls.least_wall / mm >= least - 0.05);  // and no more cautious than the steps of this search
  }
}

TEST_CASE("a glued stud gets the next drill up from its major diameter and two glue lines, never a thinner one") {
  const std::vector<Drill> owned{drill("8 mm"), drill("8.4 mm"), drill("8.5 mm"), drill("9 mm"), drill("21/64")};
  CHECK(glued_bore_least(thread_of("M8"), 0.25 * mm) / mm == doctest::Approx(8.5));
  CHECK(next_drill_up(owned, glued_bore_least(thread_of("M8"), 0.25 * mm))->name() == "8.5 mm");
  CHECK(next_drill_up(owned, glued_bore_least(thread_of("M8"), 0.2 * mm))->name() == "8.4 mm");
  CHECK(next_drill_up(owned, glued_bore_least(thread_of("M8"), 0.26 * mm))->name() == "9 mm");
  // 5/16 in + 2 × 0.005 in = 0.3225 in; 21/64 in = 0.328125 in is 8.334 mm.
  CHECK(next_drill_up(owned, glued_bore_least(thread_of("5/16-18"), 0.005 * inch))->name() == "21/64");
  CHECK_FALSE(next_drill_up(owned, glued_bore_least(thread_of("M10"), 0 * mm)).has_value());
  const BoreDrill bore = glued_bore(thread_of("M8"), given(0.25 * mm), drill("9 mm")).value;
  CHECK(bore.glue_line / mm == doctest::Approx((9 - 8) / 2.0).epsilon(1e-12));
  CHECK_FALSE(bore.thread_percent.has_value());
}

TEST_CASE("a tapped bore is inside the limits of the internal thread's minor diameter") {
  // ISO 965-1 6H minor diameter of M8: 6.647 to 6.912 mm; ASME B1.1 2B of 1/4-20: 0.196 to 0.207 in (both printed to
  // their last digit).
  const auto chosen = [](std::vector<Drill> owned, std::string_view t) {
    return tap_drill_among(owned, thread_of(t));
  };
  CHECK(chosen({drill("6.6 mm"), drill("6.8 mm"), drill("7 mm")}, "M8")->name() == "6.8 mm");
  CHECK(chosen({drill("6.7 mm"), drill("6.9 mm")}, "M8").has_value());
  CHECK_FALSE(chosen({drill("6.6 mm"), drill("6.95 mm")}, "M8").has_value());
  CHECK(chosen({drill("#9"), drill("#7"), drill("13/64"), drill("#3")}, "1/4-20")->name() == "#7");
  CHECK_FALSE(chosen({drill("3/16"), drill("#3")}, "1/4-20").has_value());
}

TEST_CASE("the percentage of a tapped bore is of 5H/8 a side, and says so") {
  // Metric charts, percent of 5H/8: M6 with 5.0 mm 92, M8 with 6.8 mm 89, M10x1.25 with 8.8 mm 89, M12 with 10.2
  // mm 95. By the text formula of Machinery's Handbook (D − hole)/(1.08253 P).
  struct Row {
    std::string_view thread, drill;
    double percent;
  };
  const Row rows[] = {{"M6", "5 mm", 92},
                      {"M8", "6.8 mm", 89},
                      {"M10x1.25", "8.8 mm", 89},
                      {"M12", "10.2 mm", 95},
                      {"M16x1.5", "14.5 mm", 92}};
  for (const Row& row : rows) {
    CAPTURE(std::string{row.thread});
    const BoreDrill bore = tapped_bore(thread_of(row.thread), drill(row.drill)).value;
    CHECK(std::abs(*bore.thread_percent / percent - row.percent) <= 0.5);
    CHECK(bore.glue_line / mm == 0);
  }
  // 1/4-20: 75 % on this basis is a hole of 0.2094 in, printed to 0.0001 in.
  const BoreDrill quarter = tapped_bore(thread_of("1/4-20"), drill("0.2094 in")).value;
  CHECK(std::abs(*quarter.thread_percent / percent - 75) <= 0.1);
  CHECK(info(Figure::bore_thread_percent).label.find("5H/8") != std::string_view::npos);
  CHECK(info(Figure::bore_thread_percent).label.find("1.0825 P") != std::string_view::npos);
}
