#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <iterator>

#include "gated_blank.h"
#include "plan/gate/could_become.h"
#include "plan/gate/gate_axis.h"
#include "plan/gate/gate_resin.h"
#include "planning.h"
#include "random_numbers.h"

using namespace blankwright;

using std::chrono::hours;

// ---- resin ----

namespace {

struct Burnisher {
  Shop shop = shop_of(sample_file("metric/shop.toml"));
  Order order = order_of(sample_file("metric/burnisher.toml"));
  OrderPlan plan = *planned(order, shop).plan;

  ResinGate judge(Stage stage, double dry_g, double now_g, int soaked_h = 0) const {
    BlankState blank = begun();
    blank.stage = stage;
    blank.dry = {{monday, dry_g * gram}};
    blank.dry_size = SizeSeen{50 * mm, 40 * mm, 100 * mm};  // 200 cm³
    (stage == Stage::wet ? blank.wet : blank.cured).push_back({monday, now_g * gram});
    BathState bath;
    bath.released = monday;
    if (soaked_h > 0) blank.out_of_bath = monday + hours{soaked_h};
    const auto gate = resin_gate({blank, plan, bath, shop.vacuum});
    REQUIRE(gate.has_value());
    return *gate;
  }
};

}  // namespace

TEST_CASE("the resin of a blank is judged by its own void space") {
  const Burnisher b;
  // By hand: 90 g of cell wall at 1.53 g/cm³ (Siau) take 58.82 cm³ of 200; 141.18 cm³ are void. With resin of 1.04
  // g/cm³ a full blank would hold 146.8 g; 110 g are 74.9 %.
  REQUIRE(b.plan.process.resin->density.value / (1 * gram / cm3) == doctest::Approx(1.04));
  const ResinGate gate = b.judge(Stage::wet, 90, 200);
  CHECK(*gate.fill / percent == doctest::Approx(74.92).epsilon(1e-3));
  const double f = b.plan.process.uptake->fill / whole;
  CHECK(*gate.least / gram == doctest::Approx(90 + f * 1.04 * (200 - 90 / 1.53)).epsilon(1e-6));
  CHECK(gate.own_size);

  CHECK(b.judge(Stage::wet, 90, *gate.least / gram + 0.01).answer == ResinAnswer::cure);
  CHECK(b.judge(Stage::wet, 90, *gate.least / gram - 0.01).answer == ResinAnswer::soak_again);
  CHECK(b.judge(Stage::wet, 90, 90 + 146.9).answer == ResinAnswer::impossible);  // more than the void holds
  CHECK(b.judge(Stage::wet, 310, 330).answer == ResinAnswer::impossible);        // denser than cell wall
}

TEST_CASE("cured, a blank is judged by what is left after the resin that bleeds out") {
  const Burnisher b;
  const Mass wet = *b.judge(Stage::wet, 90, 200).least;
  const double bled = b.plan.process.resin->bleed_out.value / whole;
  const double least = wet / gram - bled * (wet / gram - 90);
  CHECK(b.judge(Stage::cured, 90, least + 0.01).answer == ResinAnswer::good);
  CHECK(b.judge(Stage::cured, 90, least - 0.01).answer == ResinAnswer::poor);
}

TEST_CASE("a blank that is short soaks on by the square root of time") {
  const Burnisher b;
  // Half of the fill that is asked for, in 4 h: twice as deep takes four times as long, 12 h more (Washburn 1921).
  const double f = b.plan.process.uptake->fill / whole;
  const double half = 90 + 0.5 * f * 1.04 * (200 - 90 / 1.53);
  const ResinGate gate = b.judge(Stage::wet, 90, half, 4);
  CHECK(gate.answer == ResinAnswer::soak_again);
  CHECK(*gate.soak_longer / hour == doctest::Approx(12));
  CHECK_FALSE(b.judge(Stage::wet, 90, half).soak_longer.has_value());
}

TEST_CASE("without a size of its own a blank is judged by the order's, and says so") {
  const Burnisher b;
  const BathState bath;
  BlankState blank = begun();
  blank.stage = Stage::wet;
  blank.wet = {{monday, 200 * gram}};
  CHECK(resin_gate({blank, b.plan, bath, b.shop.vacuum})->answer == ResinAnswer::weigh);  // no dry mass
  blank.dry = {{monday, 100 * gram}};
  const auto gate = resin_gate({blank, b.plan, bath, b.shop.vacuum});
  CHECK_FALSE(gate->own_size);
  CHECK(text(says_of(*gate, UnitSystem::metric)).find("nominal size") != std::string::npos);
  blank.stage = Stage::in_oven;
  CHECK_FALSE(resin_gate({blank, b.plan, bath, b.shop.vacuum}).has_value());
}

TEST_CASE("how long a soak should have been is a share of the vacuum, to the release or to the bubbling's end") {
  // By hand: 5 h from target to release, 4 h to the last bubbles; twice that.
  BathState bath;
  VacuumFacts facts;
  CHECK_FALSE(least_soak(bath, facts).has_value());
  bath.target_reached = monday;
  bath.bubbling_ended = monday + hours{4};
  bath.released = monday + hours{5};
  CHECK(*least_soak(bath, facts) / hour == doctest::Approx(10));
  facts.soak_counts_to.value = SoakCountsTo::bubbling_end;
  CHECK(*least_soak(bath, facts) / hour == doctest::Approx(8));
}

TEST_CASE("a squared blank is told of where it was short before, or never weighed") {
  const Burnisher b;
  CHECK(b.judge(Stage::cured, 90, 100).answer == ResinAnswer::poor);
  BlankState blank = begun();
  blank.dry = {{monday, 90 * gram}};
  blank.dry_size = SizeSeen{50 * mm, 40 * mm, 100 * mm};
  blank.stage = Stage::squared;
  for (const Stage stage : {Stage::squared, Stage::bored, Stage::turned}) {
    blank.stage = stage;
    const auto gate = resin_gate({blank, b.plan, BathState{}, b.shop.vacuum});
    REQUIRE(gate.has_value());
    CHECK(verdict_of(gate->answer) == Verdict::waits);
    CHECK(text(says_of(*gate, UnitSystem::metric)).starts_with("not weighed between its bath and the saw"));
  }
  blank.wet = {{monday, 200 * gram}};
  CHECK_FALSE(resin_gate({blank, b.plan, BathState{}, b.shop.vacuum}).has_value());
  blank.cured = {{monday, 100 * gram}};
  REQUIRE(resin_gate({blank, b.plan, BathState{}, b.shop.vacuum}).has_value());
  CHECK(resin_gate({blank, b.plan, BathState{}, b.shop.vacuum})->answer == ResinAnswer::poor);
}

// ---- axis ----

namespace {

AxisSeen axis(std::array<double, 4> faces_mm, double lean_1_mm = 0, double lean_2_mm = 0) {
  return {{faces_mm[0] * mm, faces_mm[1] * mm, faces_mm[2] * mm, faces_mm[3] * mm},
          lean_1_mm * mm,
          lean_2_mm * mm,
          100 * mm,
          {},
          {}};
}

}  // namespace

TEST_CASE("a cylinder about a leaning axis comes nearest to the face away from which the rod leans, at the tail") {
  // By hand: 40 mm square, rod 0.3 mm towards face 1 at the seat, leaning 0.5 mm towards face 1 over 100 mm outside;
  // inside it goes towards face 3. At the tail, 120 mm in: to face 3 20.3 − 0.6 = 19.7, to face 1 19.7 + 0.6 = 20.3.
  const FinishedForm form = cylinder(36, 120);
  const AxisSeen seen = axis({19.7, 20.0, 20.3, 20.0}, 0.5);
  const AxisGate gate = axis_gate({.form = form, .seen = seen, .allowance = 1.0 * mm});
  CHECK(gate.faces.at(0).margin / mm == doctest::Approx(1.7));  // at the seat
  CHECK(gate.faces.at(0).along / mm == doctest::Approx(0));
  CHECK(gate.faces.at(2).margin / mm == doctest::Approx(1.7));  // at the tail
  CHECK(gate.faces.at(2).along / mm == doctest::Approx(120));
  CHECK(gate.faces.at(1).margin / mm == doctest::Approx(2.0));
  CHECK(gate.clear_diameter / mm == doctest::Approx(39.4));
  // (19.7 − 1)·2/36 = 1.0388…, rounded down to a thousandth.
  CHECK(gate.factor == doctest::Approx(1.038));
  CHECK(gate.answer == AxisAnswer::cleans_up);
}

TEST_CASE("an axis cleans up, is tight, or fails, with the error of measuring carried along") {
  const FinishedForm form = cylinder(36, 100);
  const auto answer = [&](double nearest_mm, double error_mm) {
    const ReadingError error{error_mm * mm, error_mm * mm};
    return axis_gate({.form = form,
                      .seen = axis({nearest_mm, 20, 40 - nearest_mm, 20}),
                      .allowance = 1.0 * mm,
                      .error = error})
        .answer;
  };
  CHECK(answer(19.01, 0.0) == AxisAnswer::cleans_up);
  CHECK(answer(18.99, 0.0) == AxisAnswer::tight);
  CHECK(answer(19.01, 0.1) == AxisAnswer::tight);  // the reading may be off
  CHECK(answer(19.21, 0.1) == AxisAnswer::cleans_up);
  CHECK(answer(18.01, 0.0) == AxisAnswer::tight);
  CHECK(answer(17.99, 0.0) == AxisAnswer::fails);
  CHECK(answer(17.99, 0.1) == AxisAnswer::tight);
  CHECK(answer(17.70, 0.1) == AxisAnswer::fails);
}

TEST_CASE("the margin is that of a form placed point by point in the blank") {
  // The form's surface is walked round and along, and each point's distance to the four planes taken: another way
  // than the gate's, which looks along each face alone.
  RandomNumbers numbers{11};
  for (int round = 0; round < 40; ++round) {
    const bool smooth = numbers.yes();
    std::vector<FormPoint> stations;
    for (int k = 0; k < 5; ++k) stations.push_back({25.0 * k * mm, numbers.between(20, 34) * mm});
    const FinishedForm form{stations, smooth};
    const double x = numbers.between(-1, 1), y = numbers.between(-1, 1);
    const double lean_1 = numbers.between(-1, 1), lean_2 = numbers.between(-1, 1);
    const AxisSeen seen = axis({20 - x, 20 - y, 20 + x, 20 + y}, lean_1, lean_2);
    const AxisGate gate = axis_gate({.form = form, .seen = seen, .allowance = 0.5 * mm});
    double nearest = 1e9, factor = 1e9;
    for (double z = 0; z <= 100; z += 0.05) {
      const double r = form.diameter(z * mm) / mm / 2;
      const double cx = x - lean_1 * z / 100, cy = y - lean_2 * z / 100;  // towards face 1 and face 2
      for (int step = 0; step < 4; ++step) {
        const double a = step * std::numbers::pi / 2;  // where a circle is nearest to a plane
        const double px = cx + r * std::cos(a), py = cy + r * std::sin(a);
        nearest = std::min({nearest, 20 - std::abs(px), 20 - std::abs(py)});
      }
      factor = std::min({factor, (20 - std::abs(cx) - 0.5) / r, (20 - std::abs(cy) - 0.5) / r});
    }
    CAPTURE(round);
    CHECK(gate.least.margin / mm == doctest::Approx(nearest).epsilon(2e-4));
    CHECK(gate.factor <= factor + 1e-4);
    CHECK(gate.factor >= factor - 0.0012);
  }
}

TEST_CASE("a rounded blank ends at a circle, also between two faces") {
  // A cylinder of 30 mm in one of 37 mm; its axis is off the middle by 3 mm in either direction: 4.243 mm. Chords
  // through it: 2 √(18.5² − 3²) = 36.510 mm, so 18.255 ± 3 mm to the faces. Geometry: 18.5 − 4.243 − 15 = −0.743 mm.
  const FinishedForm form = cylinder(30, 80);
  const AxisSeen seen = axis({18.255 - 3, 18.255 - 3, 18.255 + 3, 18.255 + 3});
  const AxisGate round = axis_gate({.form = form, .seen = seen, .allowance = 0 * mm, .section = Section::round});
  CHECK(round.least.margin / mm == doctest::Approx(-0.743).epsilon(0.002));
  CHECK(round.answer == AxisAnswer::fails);
  CHECK(round.least.face + round.least.and_face == 3);  // between faces 1 and 2
  CHECK(text(says_of(round, UnitSystem::metric)).find("towards face 1 and face 2") != std::string::npos);
  CHECK(round.clear_diameter / mm == doctest::Approx(2 * (18.5 - 4.243)).epsilon(0.001));
  CHECK(round.factor == doctest::Approx((18.5 - 4.243) / 15).epsilon(0.002));
  CHECK(round.faces.at(2).margin / mm == doctest::Approx(18.255 + 3 - 15).epsilon(0.001));
  // In a square the same readings leave 0.255 mm beside each face.
  const AxisGate square = axis_gate({.form = form, .seen = seen, .allowance = 0 * mm});
  CHECK(square.least.margin / mm == doctest::Approx(0.255).epsilon(0.001));
  // Towards one face alone both say the same.
  const AxisSeen straight_off =
      axis({18.5 - 2, std::sqrt(18.5 * 18.5 - 4), 18.5 + 2, std::sqrt(18.5 * 18.5 - 4)}, 0.5, 0);
  const AxisGate towards_1 =
      axis_gate({.form = form, .seen = straight_off, .allowance = 0 * mm, .section = Section::round});
  CHECK(towards_1.least.margin / mm ==
        doctest::Approx(axis_gate({.form = form, .seen = straight_off, .allowance = 0 * mm}).least.margin / mm));
  CHECK(towards_1.least.and_face == 0);
}

TEST_CASE("turning the blank by a quarter turns the tight face with it") {
  const FinishedForm form = cylinder(36, 100);
  const AxisGate a = axis_gate({.form = form, .seen = axis({19, 20, 21, 20.5}, 0.2, 0.1), .allowance = 1 * mm});
  const AxisGate b = axis_gate({.form = form, .seen = axis({20.5, 19, 20, 21}, -0.1, 0.2), .allowance = 1 * mm});
  for (std::size_t k = 0; k < 4; ++k) {
    CHECK(a.faces.at(k).margin / mm == doctest::Approx(b.faces.at((k + 1) % 4).margin / mm));
  }
  CHECK(a.factor == b.factor);
}

// ---- what else it could become ----

TEST_CASE("a blank could become what its wood, its resin, its size, its bore and its axis allow") {
  const Burnisher b;
  const auto other = [&](std::string_view from, std::string_view to) {
    return order_of(with(sample_file("metric/burnisher.toml"), from, to));
  };
  const Order same = b.order;
  const Order species = other("species = \"European beech\"", "species = \"European ash\"");
  const OrderPlan species_plan = *planned(species, b.shop).plan;
  const std::array open{OpenOrder{&same, &b.plan, &b.shop}, OpenOrder{&species, &species_plan, &b.shop}};

  BlankState blank = begun();
  blank.stage = Stage::squared;
  blank.squared_size =
      SizeSeen{b.plan.blank.squared_section, b.plan.blank.squared_section, b.plan.blank.squared_length};
  const auto answers = [&] { return could_become({blank, b.order, b.plan}, open); };
  auto found = answers();
  REQUIRE(found.size() == 2);
  CHECK(found.at(0).order == 0);
  CHECK(found.at(0).against == Against::nothing);
  CHECK(found.at(1).against == Against::species);

  // What a blank is wider by is room for the axis by half; of the planned size it has that of the turner's sheet.
  const Length spare = found.at(0).room.value().offset;
  blank.squared_size = SizeSeen{b.plan.blank.squared_section + 2 * mm, b.plan.blank.squared_section + 2 * mm,
                                b.plan.blank.squared_length};
  CHECK((answers().front().room.value().offset - spare) / mm == doctest::Approx(1));
  CHECK(spare / mm == doctest::Approx(b.plan.centring.seat_offset / mm));
  CHECK(found.at(0).room.value().tilt == doctest::Approx(b.plan.centring.tilt));
  blank.squared_size =
      SizeSeen{b.plan.blank.squared_section, b.plan.blank.squared_section, b.plan.blank.squared_length};

  // A narrower one fits as long as it leaves room for an axis without lean.
  Length least = 1 * metre;
  const CentringInput true_axis{.form = b.plan.form,
                                .squared_section = b.plan.blank.squared_section,
                                .section_tolerance = b.shop.allowances.section_tolerance,
                                .finish = b.shop.allowances.finish,
                                .bow = b.shop.allowances.bow,
                                .axis = {},
                                .spread_offset = {}};
  for (const Length place : b.plan.form.places()) least = std::min(least, margin_at(true_axis, place));
  blank.squared_size->width = b.plan.blank.squared_section - 2 * least + 0.1 * mm;
  CHECK(answers().front().against == Against::nothing);
  blank.squared_size->width = b.plan.blank.squared_section - 2 * least - 0.1 * mm;
  CHECK(answers().front().against == Against::size);
  blank.squared_size->width = blank.squared_size->depth;
  // The sample's handle is 108 mm long, its seat is faced by 3 mm, and 8 mm behind its tail are enough for the wire
  // hole and the end mark (common practice, no source).
  blank.squared_size->length = 119.1 * mm;
  CHECK(answers().front().against == Against::nothing);
  blank.squared_size->length = 118.9 * mm;
  CHECK(answers().front().against == Against::size);
  blank.squared_size->length = b.plan.blank.squared_length;

  blank.stage = Stage::bored;
  const double half = b.plan.blank.squared_section / mm / 2;
  blank.bore = axis({half, half, half, half});
  CHECK(answers().front().against == Against::nothing);
  blank.bore->diameter = b.plan.bore.drill.diameter + 1 * mm;
  CHECK(answers().front().against == Against::bore);
  blank.bore = axis({half - 8, half, half + 8, half});
  CHECK(answers().front().against == Against::axis);

  blank.stage = Stage::turned;
  CHECK(answers().empty());
}

TEST_CASE("a blank that measures what its sheet says fits, sawn, dry and cured") {
  const Burnisher b;
  const std::array open{OpenOrder{&b.order, &b.plan, &b.shop}};
  const auto answer = [&](const BlankState& blank) { return could_become({blank, b.order, b.plan}, open).front(); };
  const double planned = b.plan.centring.seat_offset / mm;
  const SizeSeen sawn{48 * mm, 48 * mm, 128 * mm}, dry{45.1 * mm, 45.1 * mm, 127.9 * mm};  // as printed, rounded down

  BlankState blank = begun();
  blank.sawn_size = sawn;
  CHECK(answer(blank).against == Against::nothing);
  CHECK(answer(blank).room.value().offset / mm == doctest::Approx(planned));
  blank.dry_size = dry;
  CHECK(answer(blank).against == Against::nothing);
  CHECK(answer(blank).room.value().offset / mm == doctest::Approx(planned).epsilon(0.1));
  blank.stage = Stage::cured;
  blank.cured_size = dry;
  CHECK(answer(blank).against == Against::nothing);
}
