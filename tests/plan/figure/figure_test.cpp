#include "plan/figure/figure.h"

#include <algorithm>
#include <set>
#include <string>

#include <doctest/doctest.h>

#include "planning.h"

using namespace blankwright;

namespace {

std::set<std::string> unknown_in(const OrderPlan& plan) {
  std::set<std::string> unknown;
  for (const FigureInfo& i : figure_infos()) {
    if (!plan.figures.known(i.figure)) unknown.insert(std::string{i.path});
  }
  return unknown;
}

}  // namespace

TEST_CASE("the plan's figures have the names that other programs rely on") {
  // The contract blankwright-plan/1: names are added, never changed.
  const std::string_view contract[] = {
      "handle.length_mm",
      "handle.largest_diameter_mm",
      "handle.volume_cm3",
      "axis.offset_mm",
      "axis.tilt_mm_per_100mm",
      "blank.squared_section_mm",
      "blank.dry_section_mm",
      "blank.sawn_section_mm",
      "blank.squared_length_mm",
      "blank.sawn_length_mm",
      "blank.shrinkage",
      "centring.seat_position_diameter_mm",
      "centring.tilt_mm_per_100mm",
      "centring.seat_governing_mm",
      "centring.tilt_governing_mm",
      "centring.chance_clean",
      "bore.fit",
      "bore.diameter_mm",
      "bore.drill",
      "bore.depth_mm",
      "bore.tip_depth_mm",
      "bore.depth_from_drilled_face_mm",
      "bore.least_wall_mm",
      "bore.web_mm",
      "stud.thread",
      "stud.major_mm",
      "stud.pitch_mm",
      "stud.tensile_area_mm2",
      "stud.embedded_mm",
      "stud.projection_mm",
      "stud.cut_length_mm",
      "stud.bond_capacity_N",
      "stud.largest_tightening_Nm",
      "start_count.pieces",
      "start_count.from_stock",
      "start_count.witnesses",
      "start_count.good_so_far",
      "start_count.started_so_far",
      "start_count.confidence",
      "start_count.chance_enough",
      "start_count.expected_surplus",
  };
  for (const std::string_view path : contract) {
    CAPTURE(std::string{path});
    CHECK(figure_at(path).has_value());
  }
  CHECK_FALSE(figure_at("bore.depth").has_value());
}

TEST_CASE("a figure's name ends in its unit, and no two figures share one") {
  std::set<std::string_view> seen;
  for (const FigureInfo& i : figure_infos()) {
    CAPTURE(std::string{i.path});
    CHECK(seen.insert(i.path).second);
    CHECK(figure_at(i.path) == i.figure);
    CHECK_FALSE(i.label.empty());
    CHECK_FALSE(i.source.empty());
    if (i.unit == FigureUnit::millimetres) CHECK(i.path.ends_with("_mm"));
    if (i.unit == FigureUnit::millimetres_per_100mm) CHECK(i.path.ends_with("_mm_per_100mm"));
    if (i.unit == FigureUnit::cubic_centimetres) CHECK(i.path.ends_with("_cm3"));
    if (i.unit == FigureUnit::newtons) CHECK(i.path.ends_with("_N"));
  }
}

TEST_CASE("every figure of a plan is known, but for those that the order has none of") {
  // Nothing is drawn in, so that no oven is chosen, and no load, torque or price is named.
  std::set<std::string> without{"drying.dial_C",       "stud.torque_safety", "stud.bending_MPa",
                                "stud.bending_safety", "stud.head_strip_N",  "stud.head_strip_safety",
                                "stud.tightening_MPa", "stud.preload_N",     "stud.safety_in_use"};
  for (const FigureInfo& i : figure_infos()) {
    for (const std::string_view part : {"uptake.", "vacuum.", "cure.", "cost.", "baths[]."}) {
      if (i.path.starts_with(part)) without.emplace(i.path);
    }
  }
  const auto with = [&](std::initializer_list<std::string> more) {
    std::set<std::string> all = without;
    all.insert(more);
    return all;
  };
  // Bored on the press, of the squared blank.
  const std::initializer_list<std::string> rounded{"rounded.marking_mm", "rounded.diameter_mm", "rounded.runout_mm"};
  without.insert(rounded);
  CHECK(unknown_in(plan_of(awl(), bench())) == with({"bore.thread_percent"}));
  // A dry blank that is there already, a stud screwed in, a hole of unknown depth.
  CHECK(unknown_in(plan_of(order_file("knob-tapped.toml"), bench())) ==
        with({"blank.sawn_section_mm", "blank.sawn_length_mm", "blank.shrinkage", "stud.bond_capacity_N",
              "stud.bond_torque_Nm", "stud.bond_safety", "stud.bottom_clearance_mm", "stud.tightened_bond_N",
              "stud.largest_tightening_Nm"}));
  // Bored on the lathe; no yield known: no chance stated.
  for (const std::string& path : rounded) without.erase(path);
  CHECK(unknown_in(plan_of(order_file("file-handle.toml"), order_file("shop-lathe.toml"))) ==
        with({"bore.thread_percent", "start_count.good_so_far", "start_count.started_so_far",
              "start_count.confidence", "start_count.chance_enough", "start_count.expected_surplus"}));
}

TEST_CASE("each known number of a plan has its working") {
  for (const auto& [order, shop] : {std::pair{"awl-handle.toml", "shop.toml"}, {"knob-tapped.toml", "shop.toml"}}) {
    const OrderPlan plan = plan_of(order_file(order), order_file(shop));
    for (const FigureInfo& i : figure_infos()) {
      if (!std::holds_alternative<double>(plan.figures.get(i.figure))) continue;
      CAPTURE(std::string{i.path});
      const auto shown = std::ranges::count(plan.working, i.figure, &Step::figure);
      CHECK(shown == 1);
    }
  }
}

TEST_CASE("limits are printed to the side on which they still hold") {
  CHECK(text(Figure::centring_seat_position, 2.1079e-3, UnitSystem::metric) == "2.10 mm");
  CHECK(text(Figure::centring_seat_position, 2.1079e-3, UnitSystem::inches) == "0.082 in");  // 0.08299 in
  CHECK(text(Figure::centring_tilt, 0.021999, UnitSystem::metric) == "2.19 mm per 100 mm");
  CHECK(text(Figure::centring_tilt, 0.021999, UnitSystem::inches) == "0.087 in per 4 in");  // 0.087996
  CHECK(text(Figure::axis_offset, 0.7512e-3, UnitSystem::metric) == "0.76 mm");
  CHECK(text(Figure::blank_sawn_section, 0.05001, UnitSystem::metric) == "50.1 mm");
  CHECK(text(Figure::bore_web, 0.0065999, UnitSystem::metric) == "6.5 mm");
  CHECK(text(Figure::turning_speed_ceiling, 2919.0 / 60, UnitSystem::metric) == "2910 rpm");
  CHECK(text(Figure::stud_bond_capacity, 1809.56, UnitSystem::metric) == "1809 N");
  // What has to be reached is rounded up, of whatever kind it is.
  CHECK(text(Figure::vacuum_gauge, 86'310.0, UnitSystem::metric) == "86.4 kPa");
  CHECK(text(Figure::vacuum_gauge, 23.501 * 3386.389, UnitSystem::inches) == "23.51 inHg");
  CHECK(text(Figure::vacuum_water_boils, 273.15 + 32.9, UnitSystem::metric) == "32 °C");
  CHECK(text(Figure::cure_core, 273.15 + 84.1, UnitSystem::metric) == "85 °C");
  CHECK(text(Figure::cure_core, 273.15 + 84.1, UnitSystem::inches) == "184 °F");  // 183.4
  CHECK(text(Figure::cure_hold, 3601.0, UnitSystem::metric) == "1 h 1 min");
  CHECK(text(Figure::bath_start_dip, 0.12349, UnitSystem::metric) == "123.4 mm");
  CHECK(text(Figure::bath_start_dip, 4.8629 * 0.0254, UnitSystem::inches) == "4.862 in");
  CHECK(text(Figure::bore_tip_depth, 0.03501, UnitSystem::metric) == "35.1 mm");
  CHECK(text(Figure::stud_bond_torque, 7.099, UnitSystem::metric) == "7.09 N m");
  CHECK(text(Figure::stud_bending_stress, 55.51e6, UnitSystem::metric) == "55.6 MPa");
  // A time that is given stays what it is.
  CHECK(text(Figure::vacuum_hold, 33 * 60.0, UnitSystem::metric) == "33 min");
  CHECK(text(Figure::start_witnesses, FigureValue{}, UnitSystem::metric) == "not known");
}

TEST_CASE("a figure in plan.json is written with the digits that it has") {
  CHECK(contract_number(Figure::centring_seat_position, 0.3e-3) == 0.3);
  CHECK(contract_number(Figure::centring_tilt, 0.021999) == 2.19);
  CHECK(contract_number(Figure::start_pieces, 8) == 8);
  CHECK(contract_number(Figure::handle_volume, 61.2345e-6) == 61.23);
  CHECK(contract_number(Figure::bore_thread_percent, 0.92376) == 92.4);
}

TEST_CASE("a figure is a bath's where its path runs through the list of baths, and the order's elsewhere") {
  for (const FigureInfo& figure : figure_infos()) {
    CAPTURE(figure.path);
    CHECK(is_of_a_bath(figure) == (figure.path.find("baths[]") == 0));
  }
}
