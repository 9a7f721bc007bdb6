#include <algorithm>
#include <cmath>
#include <numbers>

#include <doctest/doctest.h>

#include "monotone_cubic.h"
#include "plan/figure/figure.h"
#include "planning.h"

using namespace blankwright;
using std::numbers::pi;

// Whole orders out of tests/orders, reckoned through by hand in plain numbers beside the plan.

namespace {

const double degree_in_radians = pi / 180;

/// Equal but for what arithmetic adds.
void is(double found, double reckoned) {
  CAPTURE(found);
  CAPTURE(reckoned);
  CHECK(std::abs(found - reckoned) <= 1e-7 * (1 + std::abs(reckoned)));
}

}  // namespace

TEST_CASE("an awl handle on a glued M8 stud comes out as reckoned by hand") {
  const OrderPlan plan = plan_of(awl(), bench());
  // Stud: 3 × 8 = 24 mm; for the pull 3 × 600/(π 8 × 2) = 35.8 mm; so 36 mm. Enters 14 of a hole of 17.
  CHECK(3 * 600 / (pi * 8 * 2) > 35);
  is(in_mm(plan, Figure::stud_embedded), 36);
  is(in_mm(plan, Figure::stud_cut_length), 36 + 14);
  is(in_mm(plan, Figure::stud_bottom_clearance), 17 - 14);
  is(bare(plan, Figure::stud_bond_capacity), pi * 8 * 36 * 2);
  // Bore: 8 + 2 × 0.25 = 8.5 mm, a drill that the shop owns; 36 + 6 deep, its point 4.25/tan 59° deeper.
  const double tip = 42 + 4.25 / std::tan(59 * degree_in_radians);
  is(in_mm(plan, Figure::bore_diameter), 8.5);
  is(in_mm(plan, Figure::bore_depth), 42);
  is(in_mm(plan, Figure::bore_tip_depth), tip);
  is(in_mm(plan, Figure::bore_depth_from_drilled_face), 42 + 2.5);
  is(in_mm(plan, Figure::bore_least_wall), (26 - 8.5) / 2 - 0.25);
  is(in_mm(plan, Figure::bore_web), 110 - tip);
  // Axis of the set stud.
  const double e = 0.5 + 0.25;
  const double t = 0.006 + 2 * 0.25 / 36 + 0.002;
  is(in_mm(plan, Figure::axis_offset), e);
  is(bare(plan, Figure::axis_tilt), t);
  // Blank: the station at 80 mm governs: D + 2 z t is 26, 31.3, 37.5, 24.8 mm.
  const double needed = 34 + 2 * 1.5 + 2 * 0.5 + 2 * (e + 80 * t) + 0.6;
  const double s = 1 - (1 - 0.118) / (1 - 0.118 * (30 - 9) / 30);
  CHECK((needed + 3) / (1 - s) + 1.2 > 49);
  CHECK((needed + 3) / (1 - s) + 1.2 < 50);
  is(in_mm(plan, Figure::blank_sawn_section), 50);
  const double squared = (50 - 1.2) * (1 - s) - 3;
  is(bare(plan, Figure::blank_shrinkage), s);
  is(in_mm(plan, Figure::blank_dry_section), (50 - 1.2) * (1 - s));
  is(in_mm(plan, Figure::blank_squared_section), squared);
  // Limits: e* = m(80) − 80 t; the rod's is the tilt of the axis, at the same place.
  const double e_most = (squared - 0.6 - 34) / 2 - 1.5 - 0.5 - 80 * t;
  is(in_mm(plan, Figure::centring_seat_position), 2 * e_most);
  is(in_mm(plan, Figure::centring_seat_governing), 80);
  is(bare(plan, Figure::centring_tilt), t);
  is(in_mm(plan, Figure::centring_tilt_governing), 80);
  // On the stud the far end of the square swings widest: corners half of a√2 from its middle, which is e + l t off.
  const double squared_length = in_mm(plan, Figure::blank_squared_length);
  const double swing = squared * std::sqrt(2.0) + 2 * (e + squared_length * t);
  is(in_mm(plan, Figure::turning_swing), swing);
  is(bare(plan, Figure::turning_speed_ceiling) * 60, 6000 * 25.4 / swing);
  CHECK(6000 * 25.4 / swing < 2500);
  // 6 good ones after 18 of 20 with 90 %: 8, by exact sums outside this program.
  is(bare(plan, Figure::start_pieces), 8);
  is(bare(plan, Figure::start_expected_surplus), 8 * 18.5 / 21 - 6);
}

TEST_CASE("a knob on a stud screwed into a dry blank comes out as reckoned by hand") {
  const OrderPlan plan = plan_of(order_file("knob-tapped.toml"), bench());
  const std::vector<std::pair<double, double>> stations{{0, 18}, {10, 16}, {25, 30}, {32, 32}, {40, 20}};
  // M6 is tapped from 4.917 mm on (ISO 68-1); of the shop's drills only 5 mm is between that and the 6H limit.
  is(in_mm(plan, Figure::bore_diameter), 5);
  is(bare(plan, Figure::bore_thread_percent), (6 - 5) / 1.08253);
  is(in_mm(plan, Figure::bore_depth), 20 + 6);
  const double tip = 26 + 2.5 / std::tan(59 * degree_in_radians);
  is(in_mm(plan, Figure::bore_web), 40 - tip);
  is(in_mm(plan, Figure::bore_least_wall), (16 - 5) / 2.0);
  // No glue line, so nothing beyond what the press does.
  is(in_mm(plan, Figure::axis_offset), 0.5);
  is(bare(plan, Figure::axis_tilt), 0.008);
  is(in_mm(plan, Figure::blank_dry_section), 46);
  is(in_mm(plan, Figure::blank_squared_section), 46 - 3);
  is(in_mm(plan, Figure::blank_squared_length), 66 - 4);
  double e_most = 1e9;
  for (int i = 0; i <= 400000; ++i) {
    const double z = i * 1e-4;
    e_most = std::min(e_most, (43 - 0.6 - monotone_cubic(stations, z)) / 2 - 1.5 - 0.5 - z * 0.008);
  }
  is(in_mm(plan, Figure::centring_seat_position), 2 * e_most);
  CHECK(std::get<std::string>(plan.figures.get(Figure::bore_fit)) == "tapped");
}

TEST_CASE("a file handle bored on the lathe comes out as reckoned by hand, in inches") {
  const OrderPlan plan = plan_of(order_file("file-handle.toml"), order_file("shop-lathe.toml"));
  const auto in = [&](Figure figure) { return in_mm(plan, figure) / 25.4; };
  // Stud: 3 × 5/16 = 0.9375 in; for the pull 4 × 80/(π 0.3125 × 300) = 1.0865 in; up to a sixteenth: 1-1/8 in.
  CHECK(4 * 80 / (pi * 0.3125 * 300) > 17.0 / 16);
  CHECK(4 * 80 / (pi * 0.3125 * 300) < 18.0 / 16);
  is(in(Figure::stud_embedded), 1.125);
  is(in(Figure::bore_diameter), 21.0 / 64);  // 0.3125 + 0.01 = 0.3225 in
  const double g = (21.0 / 64 - 0.3125) / 2;
  is(in(Figure::bore_depth), 1.125 + 0.1875);
  is(in(Figure::bore_tip_depth), 1.3125 + 21.0 / 128 / std::tan(67.5 * degree_in_radians));
  is(in(Figure::bore_depth_from_drilled_face), 1.3125 + 3 / 32.0);
  is(in(Figure::bore_least_wall), 0.5 - 21.0 / 128 - g);
  // The jig's residual stands for the glue line, and the lathe's drill does not lean; 100 mm are 100/25.4 in.
  const double e = 0.02 + 0.01;
  const double t = (0.012 + 0.008) * 25.4 / 100;
  is(in(Figure::axis_offset), e);
  is(bare(plan, Figure::axis_tilt), t);
  const double needed = 1.375 + 2 / 16.0 + 2 / 64.0 + 2 * (e + 2.25 * t) + 1 / 50.0;
  const double s = 1 - (1 - 0.078) / (1 - 0.078 * (30 - 8) / 30);
  const double sawn = std::ceil(((needed + 5 / 32.0) / (1 - s) + 5 / 64.0) * 16) / 16;
  is(in(Figure::blank_sawn_section), sawn);
  const double squared = (sawn - 5 / 64.0) * (1 - s) - 5 / 32.0;
  is(in(Figure::blank_squared_section), squared);
  is(in(Figure::centring_seat_position), 2 * ((squared - 1 / 50.0 - 1.375) / 2 - 1 / 16.0 - 1 / 64.0 - 2.25 * t));
  is(in(Figure::centring_seat_governing), 2.25);
  is(bare(plan, Figure::start_pieces), 12 + 3);  // no yield known: the shop's spares
}

TEST_CASE("an order in inches and the same in millimetres get the same plan") {
  const OrderPlan inches = plan_of(order_file("two-units-inch.toml"), bench());
  const OrderPlan metric = plan_of(order_file("two-units-mm.toml"), bench());
  for (const FigureInfo& i : figure_infos()) {
    CAPTURE(std::string{i.path});
    const FigureValue a = inches.figures.get(i.figure);
    const FigureValue b = metric.figures.get(i.figure);
    REQUIRE(a.index() == b.index());
    if (std::holds_alternative<double>(a)) {
      const double x = std::get<double>(a);
      const double y = std::get<double>(b);
      // Where a flat curve is fullest is looked for to a hundredth of a millimetre only.
      const bool place = i.figure == Figure::centring_seat_governing || i.figure == Figure::centring_tilt_governing;
      CHECK(std::abs(x - y) <= (place ? 1e-5 : 1e-9 * std::abs(y)));
    } else {
      CHECK(a == b);
    }
  }
}

TEST_CASE("blanks that were issued before stay in the plan") {
  const Order order = order_of(awl());
  const Shop shop = shop_of(bench());
  Record record;
  for (std::uint32_t n = 0; n < 11; ++n) record.issued_to_order.push_back(BlankId::nth(n));
  const Planned p = planned(order, shop, record);
  REQUIRE(p.plan.has_value());
  CHECK(p.plan->start.pieces == 11);
  is(bare(*p.plan, Figure::start_pieces), 11);
  is(bare(*p.plan, Figure::start_expected_surplus), 11 * 18.5 / 21 - 6);
}

TEST_CASE("a spigot makes the blank longer and the depth stop deeper by its height") {
  // By geometry: the face that is drilled is the spigot's end, as far before the seat as the spigot is high.
  const std::string job = awl();
  const OrderPlan flat = plan_of(job, bench());
  const OrderPlan spigot =
      plan_of(job + "\n[seat]\nform = \"spigot\"\ndiameter = \"18 mm\"\nheight = \"4 mm\"\n", bench());
  const AllowanceFacts allowances = shop_of(bench()).allowances;
  const Length needed = flat.form.length() + allowances.seat_facing.value + 4 * mm + allowances.tail_waste.value;
  CHECK(fits(spigot.blank.squared_length, needed));
  CHECK_FALSE(fits(flat.blank.squared_length, needed));
  CHECK((spigot.depth.from_drilled_face - flat.depth.from_drilled_face) / mm == doctest::Approx(4));
  CHECK(spigot.depth.full == flat.depth.full);
}

TEST_CASE("no handle is so small that its spindle may turn faster than the lathe's own ceiling") {
  // By hand: the knob's blank is 43 mm squared and swings on some 62 mm, 6000 in/min ÷ 62 mm = 2458 rpm; a lathe that
  // stops at 1800 rpm, and, by the shop's default of 2500 rpm, one half as thick.
  const auto speed = [](const std::string& shop, Length swing) {
    return speed_ceiling(swing, shop_of(shop).lathe.fastest).value / per_minute;
  };
  const std::string slow = with(bench(), "[boring]", "[lathe]\nfastest = \"1800 rpm\"\n[boring]");
  CHECK(speed(bench(), 62 * mm) == doctest::Approx(6000 * 25.4 / 62));
  CHECK(speed(bench(), 30 * mm) == doctest::Approx(2500));  // 5080 by the swing
  CHECK(speed(slow, 62 * mm) == doctest::Approx(1800));
  CHECK(speed(slow, 100 * mm) == doctest::Approx(1524));
  const OrderPlan plan = plan_of(awl(), slow);
  CHECK(text(Figure::turning_speed_ceiling, plan.figures.get(Figure::turning_speed_ceiling), UnitSystem::metric) ==
        "1800 rpm");
}
