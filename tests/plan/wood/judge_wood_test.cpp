#include "plan/wood/judge_wood.h"
#include "diagnose/problem.h"

#include <doctest/doctest.h>

#include <cmath>

#include "planning.h"

using namespace blankwright;

namespace {

struct JudgedTimes {
  bool rise = false;
  Diagnostics said;
};

JudgedTimes times(const std::string& rows) {
  JudgedTimes out;
  out.rise = drying_times_rise(shop_of(bench() + "\n[drying]\ntimes = [" + rows + "]\n"), out.said);
  CHECK(out.rise == !out.said.has_errors());
  return out;
}

Order with_moisture(const std::string& moisture) { return order_of(with(awl(), "moisture = \"9 %\"\n", moisture)); }

Diagnostics judged_moisture(const Order& order, const Shop& shop) {
  Diagnostics out;
  const auto worked = drying({.section = 45 * mm, .moisture = order.wood.moisture, .facts = shop.drying});
  judge_drying(worked.value, order, shop, out);
  return out;
}

WoodFacts wood(const std::string& lines) { return order_of(with(awl(), "species = \"European beech\"", lines)).wood; }

}  // namespace

TEST_CASE("drying times that rise with the thickness pass, and so do the usual ones") {
  CHECK(times("").rise);
  CHECK(times(R"({thickness = "30 mm", at_least = "20 h"})").rise);
  CHECK(times(R"({thickness = "30 mm", at_least = "20 h"}, {thickness = "50 mm", at_least = "20 h"})").rise);
}

TEST_CASE("drying times that fall are refused where they stand, beside the row before") {
  const auto falling = times(R"({thickness = "30 mm", at_least = "20 h"}, {thickness = "50 mm", at_least = "18 h"})");
  REQUIRE(falling.said.errors() == 1);
  const Diagnostic& time = falling.said.all().front();
  CHECK(time.problem == Problem::drying_times_fall);
  CHECK(time.message_text().find("18 h") != std::string::npos);
  CHECK(time.labels.size() == 1);
  CHECK(time.labels.front().at.column < time.at.column);

  // Thicknesses out of order or twice the same, whatever their times; each row is told once.
  const auto unsorted = times(
      R"({thickness = "50 mm", at_least = "24 h"}, {thickness = "30 mm", at_least = "20 h"}, {thickness = "30 mm", at_least = "30 h"})");
  CHECK(unsorted.said.errors() == 2);
  CHECK(unsorted.said.all().front().message_text().find("30.0 mm") != std::string::npos);
}

TEST_CASE("wood too wet for the oven is to be air-dried first") {
  const Shop shop = shop_of(bench());
  CHECK(judged_moisture(with_moisture("moisture = \"10 %\"\n"), shop).all().empty());
  const auto said = judged_moisture(with_moisture("moisture = \"18 %\"\n"), shop);
  REQUIRE(said.all().size() == 1);
  const Diagnostic& wet = said.all().front();
  CHECK(wet.severity == Severity::warning);
  CHECK(wet.problem == Problem::wood_too_wet);
  CHECK(wet.message_text().find("18.0 %") != std::string::npos);
  CHECK(wet.message_text().find("10.0 %") != std::string::npos);
  CHECK(wet.hint_text().find("moisture = \"10.0 %\"") != std::string::npos);

  // The shop's own limit is pointed at.
  const Shop strict = shop_of(bench() + "\n[drying]\nair_dry_above = \"8 %\"\n");
  const auto stricter = judged_moisture(with_moisture("moisture = \"9 %\"\n"), strict);
  REQUIRE(stricter.all().size() == 1);
  CHECK(stricter.all().front().labels.size() == 1);
}

TEST_CASE("moisture that nobody told is warned of at the wood, and said to be taken") {
  const auto said = judged_moisture(with_moisture(""), shop_of(bench()));
  REQUIRE(said.all().size() == 1);
  CHECK(said.all().front().at.source != nullptr);
  CHECK(said.all().front().message_text().find("assumed since none is given") != std::string::npos);
}

TEST_CASE("density comes from the species, and only without one from the order") {
  Diagnostics out;
  // EN 350:2016, 710 kg/m³ at 12 % (from memory), worked to oven-dry by hand: 688.1.
  CHECK(std::abs(judge_density(wood("species = \"European beech\""), out).value() / kilogram_per_m3 - 688.1) <= 0.1);
  const auto sound = judge_density(wood("species = \"European beech\"\ndry_density = \"0.40 g/cm3\""), out).value();
  CHECK(std::abs(sound / kilogram_per_m3 - 688.1) <= 0.1);  // measured 0.40 is how far this wood has gone
  // Wood Handbook table 4-4 gives white lauan's shrinkage, and the table has no specific gravity for it.
  const auto own = judge_density(wood("species = \"White lauan\"\ndry_density = \"0.45 g/cm3\""), out);
  CHECK(own.value() / kilogram_per_m3 == doctest::Approx(450));
  CHECK(out.all().empty());

  CHECK_FALSE(judge_density(wood("species = \"White lauan\""), out).has_value());
  REQUIRE(out.errors() == 1);
  CHECK(out.all().front().problem == Problem::wood_density_unknown);
  CHECK(out.all().front().message_text().find("White lauan") != std::string::npos);
  CHECK(out.all().front().hint_text().find("dry_density = \"") != std::string::npos);
}
