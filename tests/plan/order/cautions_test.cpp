#include "plan/order/cautions.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "planning.h"

using namespace blankwright;

namespace {

/// Vessel, pump, resin and oven of an invented shop; the resin's data are invented too.
const std::string means_of_impregnation = R"(
[[vessels]]
name = "pot"
diameter = "220 mm"
height = "400 mm"
usable_height = "230 mm"
[[resins]]
name = "Clear Q"
density = "1.04 g/cm3"
activator = "1 %"
cure_air = "93 °C"
cure_core = "85 °C"
cure_hold = "1 h"
[[ovens]]
name = "oven"
width = "420 mm"
depth = "380 mm"
height = "300 mm"
calibration = [{dial = "80 °C", shown = "78 °C"}, {dial = "110 °C", shown = "107 °C"}]
)";
const std::string treatment = "\n[treatment]\nresin = \"Clear Q\"\n";

std::set<Caution> cautions(const std::string& job, const std::string& shop_text) {
  const Order order = order_of(job);
  const Shop shop = shop_of(shop_text);
  const Planned p = planned(order, shop);
  REQUIRE_MESSAGE(p.plan.has_value(), rendered(p.said));
  const auto chosen = cautions_for(order, shop, *p.plan);
  CHECK(std::is_sorted(chosen.begin(), chosen.end(), [](Caution a, Caution b) { return step_of(a) < step_of(b); }));
  return {chosen.begin(), chosen.end()};
}

std::string bare_job() { return awl(); }
std::string wet_job() { return bare_job() + treatment; }
std::string bare_shop() { return bench(); }
std::string wet_shop() { return bare_shop() + means_of_impregnation; }

}  // namespace

TEST_CASE("without a bath nothing is said of resin, activator, vacuum or cure, even in a shop that has them") {
  for (const std::string& shop : {bare_shop(), wet_shop()}) {
    const auto dry = cautions(bare_job(), shop);
    for (const Caution caution :
         {Caution::dry_before_resin, Caution::resin, Caution::activator, Caution::vacuum_vessel, Caution::vacuum_pump,
          Caution::curing_oven, Caution::exotherm, Caution::uncured}) {
      CHECK(!dry.contains(caution));
    }
    for (const Caution caution : {Caution::sawing, Caution::drying_oven, Caution::drilling, Caution::check_blank,
                                  Caution::speed, Caution::threaded_mount, Caution::dust}) {
      CHECK(dry.contains(caution));
    }
  }
}

TEST_CASE("with a bath resin, vacuum and cure are all spoken of") {
  const auto wet = cautions(wet_job(), wet_shop());
  for (const Caution caution : {Caution::dry_before_resin, Caution::resin, Caution::activator, Caution::vacuum_vessel,
                                Caution::vacuum_pump, Caution::curing_oven, Caution::exotherm, Caution::uncured}) {
    CHECK(wet.contains(caution));
  }
}

TEST_CASE("a resin that comes ready to use has no caution for an activator") {
  const auto ready = cautions(wet_job(), with(wet_shop(), "activator = \"1 %\"\n", ""));
  CHECK(!ready.contains(Caution::activator));
  CHECK(ready.contains(Caution::resin));
}

TEST_CASE("glue is spoken of where it is used: for a stud, and for a ferrule on a tapped bore") {
  const std::string tapped = with(bare_job(), "fit = \"glued\"", "fit = \"tapped\"");
  const std::string shop =
      with(bare_shop(), "drills = [\"3.3 mm\", ", "drills = [\"3.3 mm\", \"6.8 mm\", \"7 mm\", ");
  const auto ferruled = [&](const std::string& fit) {
    return tapped + "\n[ferrule]\noutside_diameter = \"31 mm\"\nlength = \"10 mm\"\nfit = \"" + fit + "\"\n";
  };
  CHECK(cautions(bare_job(), shop).contains(Caution::glue));
  CHECK(!cautions(tapped, shop).contains(Caution::glue));
  CHECK(cautions(ferruled("glued"), shop).contains(Caution::glue));
  CHECK(!cautions(ferruled("pressed"), shop).contains(Caution::glue));
}

TEST_CASE("a joint is called untested until the shop has measured its bond") {
  CHECK(cautions(bare_job(), bare_shop()).contains(Caution::untested_stud));
  const std::string measured =
      with(bare_shop(), "shear_strength = \"2 MPa\"", "shear_strength = \"2 MPa\"\nshear_measured = true");
  CHECK(!cautions(bare_job(), measured).contains(Caution::untested_stud));
}

TEST_CASE("spalted and punky wood has a caution of its own, sound wood and burl have not") {
  const auto decayed = [](const std::string& condition) {
    const std::string job =
        with(bare_job(), "moisture = \"9 %\"", "moisture = \"9 %\"\ncondition = \"" + condition + "\"");
    return cautions(job, bare_shop()).contains(Caution::decayed_wood);
  };
  CHECK(decayed("spalted"));
  CHECK(decayed("punky"));
  CHECK(!decayed("sound"));
  CHECK(!decayed("burl"));
}

TEST_CASE("a finish has a caution where one is named") {
  CHECK(!cautions(bare_job(), bare_shop()).contains(Caution::finish));
  CHECK(cautions(with(bare_job(), "quantity = 6", "quantity = 6\nfinish = \"oil\""), bare_shop())
            .contains(Caution::finish));
}

TEST_CASE("a blank that is given squared is neither sawn nor dried") {
  const auto squared = cautions(
      bare_job() + "\n[blank]\nsection = \"50 mm\"\nlength = \"140 mm\"\nstate = \"squared\"\n", bare_shop());
  CHECK(!squared.contains(Caution::sawing));
  CHECK(!squared.contains(Caution::drying_oven));
  CHECK(squared.contains(Caution::drilling));
}
