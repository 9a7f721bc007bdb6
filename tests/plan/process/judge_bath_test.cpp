#include "plan/process/judge_bath.h"
#include "diagnose/problem.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <regex>

#include "bath_cases.h"
#include "judging.h"

using namespace blankwright;

namespace {

const std::string usual_vessel = R"(
[[vessels]]
name = "Pot"
diameter = "140 mm"
height = "400 mm"
usable_height = "220 mm"
)";

const std::string usual_resin = R"(
[[resins]]
name = "Clear Creek"
density = "1.04 g/cm3"
dyes = ["honey", "soot"]
storage_life = "720 h"
cure_air = "93 °C"
cure_hold = "1 h"

[[resins]]
name = "Thick"
density = "1.10 g/cm3"
cure_air = "93 °C"
cure_hold = "1 h"
)";

Shop shop_and(const std::string& tables) { return shop_of(bench() + tables); }
Shop usual_shop() { return shop_and(usual_vessel + usual_resin); }

Order order_with(const std::string& treatment) { return order_of(awl() + "\n[treatment]\n" + treatment); }

/// What is wrong with a shop's vessels.
Diagnostics against(const std::string& tables) {
  Diagnostics said;
  CHECK_FALSE(vessels_make_sense(shop_and(tables), said));
  return said;
}

/// The text that stands in quotes behind a key in a hint.
std::string hinted(const Diagnostic& d, const std::string& key) {
  std::smatch found;
  const std::string hint = d.hint_text();
  REQUIRE_MESSAGE(std::regex_search(hint, found, std::regex{key + R"re( = "([^"]*)")re"}), hint);
  return found[1];
}

Length length_of(const std::string& text) { return read_quantity<Length>(text).value(); }

}  // namespace

TEST_CASE("a vessel without the sizes of its shape is refused, with what to measure") {
  Diagnostics said;
  CHECK(vessels_make_sense(usual_shop(), said));
  CHECK(said.all().empty());

  const Diagnostics no_diameter = against(with(usual_vessel, "diameter = \"140 mm\"\n", ""));
  CHECK(about(no_diameter, Problem::vessel_size_missing).message_text() == "round vessel \"Pot\" without diameter");
  const Place vessel = shop_and(with(usual_vessel, "diameter = \"140 mm\"\n", "")).vessels.front().place;
  CHECK(about(no_diameter, Problem::vessel_size_missing).at.line == vessel.line);
  const Diagnostics no_depth =
      against(with(usual_vessel, "diameter = \"140 mm\"\n", "shape = \"rectangular\"\nwidth = \"150 mm\"\n"));
  const Diagnostic& depth = about(no_depth, Problem::vessel_size_missing);
  CHECK(depth.message_text() == "rectangular vessel \"Pot\" without depth");
  CHECK(length_of(hinted(depth, "depth")) > 0 * mm);
}

TEST_CASE("a usable height above the rim, a rod as wide as the vessel and ballast that floats are refused") {
  const Diagnostics high = against(with(usual_vessel, "\"220 mm\"", "\"401 mm\""));
  const Diagnostic& said = about(high, Problem::out_of_range);
  CHECK(said.message_text() == "usable height of 401.0 mm is more than the whole height of vessel \"Pot\", 400.0 mm");
  CHECK(length_of(hinted(said, "usable_height")) / mm == doctest::Approx(200));
  CHECK(about(against(usual_vessel + "piercing = \"140 mm\"\n"), Problem::out_of_range)
            .message_text()
            .starts_with("a rod of 140.0 mm fills vessel \"Pot\""));
  const Diagnostics floats =
      against("\n[bath]\nballast_density = \"1.6 g/cm3\"\n" + usual_vessel + with(usual_resin, "1.10", "1.60"));
  CHECK(about(floats, Problem::out_of_range)
            .message_text()
            .starts_with("ballast of 1.60 g/cm³ does not sink in resin"));
}

TEST_CASE("activated resin on hand has to be one of the shop's, in one of its dyes") {
  const std::string left =
      "\n[[activated]]\nresin = \"Clear Creek\"\ndye = \"soot\"\namount = \"1 l\"\non = 2027-01-05\n";
  Diagnostics said;
  CHECK(vessels_make_sense(shop_and(usual_vessel + usual_resin + left), said));
  CHECK(hinted(about(against(usual_vessel + usual_resin + with(left, "Creek", "Crek")), Problem::resin_unknown),
               "resin") == "Clear Creek");
  CHECK(hinted(about(against(usual_vessel + usual_resin + with(left, "soot", "sot")), Problem::dye_unknown), "dye") ==
        "soot");
}

TEST_CASE("a treatment names a resin and a dye that the shop knows, and needs a vessel") {
  Diagnostics said;
  const Shop shop = usual_shop();
  const ResinFacts* found = judge_treatment(order_with("resin = \"Clear Creek\"\ndye = \"honey\"\n"), shop, said);
  REQUIRE(found != nullptr);
  CHECK(found->name.value == "Clear Creek");
  CHECK(said.all().empty());

  Diagnostics resin;
  CHECK_FALSE(nullptr != judge_treatment(order_with("resin = \"clear creak\"\n"), usual_shop(), resin));
  CHECK(hinted(about(resin, Problem::resin_unknown), "resin") == "Clear Creek");
  Diagnostics nothing_like_it;
  CHECK_FALSE(nullptr != judge_treatment(order_with("resin = \"Q\"\n"), usual_shop(), nothing_like_it));
  CHECK(about(nothing_like_it, Problem::resin_unknown).hint_text() == "resin = \"Clear Creek\" or resin = \"Thick\"");
  Diagnostics dye;
  CHECK_FALSE(nullptr != judge_treatment(order_with("resin = \"Thick\"\ndye = \"soot\"\n"), usual_shop(), dye));
  CHECK(about(dye, Problem::dye_unknown).hint_text().find("dyes = [\"soot\"]") == 0);

  Diagnostics no_vessel;
  CHECK_FALSE(nullptr != judge_treatment(order_with("resin = \"Thick\"\n"), shop_and(usual_resin), no_vessel));
  CHECK(no_vessel.errors() == 0);
  CHECK(about(no_vessel, Problem::vessel_missing).severity == Severity::warning);
}

TEST_CASE("a blank that finds no room is told what the nearest vessel lacks, and what it proposes does take one") {
  const Order order = order_with("resin = \"Clear Creek\"\n");
  const Volume volume = 38 * mm * (38 * mm) * (150 * mm);
  for (const bool inches : {false, true}) {
    CAPTURE(inches);
    for (const bool narrow : {false, true}) {
      CAPTURE(narrow);
      Shop shop = shop_and(with(usual_vessel, "\"140 mm\"", narrow ? "\"55 mm\"" : "\"140 mm\"") + usual_resin);
      if (inches) shop.units = given(UnitSystem::inches);
      shop.vessels.front().usable_height->value = 170 * mm;
      Diagnostics said;
      judge_vessel(38 * mm, 150 * mm, order, shop, said);
      const Diagnostic& d = about(said, Problem::vessel_too_small);
      CHECK(d.severity == Severity::error);
      CHECK(d.message_text().find(narrow ? "is too narrow" : "would have to be filled up to") != std::string::npos);
      // As thirsty as a blank can be, and as light.
      const BathBlanks one{1,         38 * mm,  150 * mm,
                           20 * gram, 0 * gram, 0.99 * (shop.resins.front().density.value * volume)};
      VesselFacts& vessel = shop.vessels.front();
      CHECK(bath_capacity(vessel, shop.bath, shop.resins.front(), one) == 0);
      vessel.usable_height->value = length_of(hinted(d, "usable_height"));
      if (narrow) vessel.diameter->value = length_of(hinted(d, "diameter"));
      CHECK(bath_capacity(vessel, shop.bath, shop.resins.front(), one) >= 1);
      // And no more than is needed: an eighth of an inch less would not do.
      vessel.usable_height->value -= inch / 8;
      CHECK(bath_capacity(vessel, shop.bath, shop.resins.front(),
                          {1, 38 * mm, 150 * mm, 0 * gram, 0 * gram, shop.resins.front().density.value * volume}) ==
            0);
    }
  }
}

TEST_CASE("of several vessels the one that lacks least is spoken of") {
  const Order order = order_with("resin = \"Clear Creek\"\n");
  const std::string low = with(with(usual_vessel, "Pot", "Low"), "\"220 mm\"", "\"100 mm\"");
  const std::string narrow = with(with(usual_vessel, "Pot", "Sleeve"), "140 mm", "50 mm");
  const std::string nearly = with(with(usual_vessel, "Pot", "Nearly"), "\"220 mm\"", "\"176 mm\"");
  Diagnostics said;
  judge_vessel(38 * mm, 150 * mm, order, shop_and(narrow + low + nearly + usual_resin), said);
  CHECK(about(said, Problem::vessel_too_small).message_text().find("any vessel; the nearest, \"Nearly\",") !=
        std::string::npos);
}

TEST_CASE("wood that sinks in the resin is a reason to look at the densities again") {
  const Order order = order_with("resin = \"Clear Creek\"\n");
  const Shop shop = usual_shop();
  const auto noted = [&](double gram_per_cm3) {
    Diagnostics said;
    const Volume volume = 40 * mm * (40 * mm) * (100 * mm);
    judge_float({1, 40 * mm, 100 * mm, gram_per_cm3 * (gram / cm3) * volume, 0 * gram, 1 * gram}, order, shop,
                shop.resins.front(), said);
    for (const Diagnostic& d : said.all()) {
      CHECK(d.problem == Problem::resin_lighter_than_wood);
      CHECK(d.severity == Severity::note);
    }
    return said.all().size() == 1;
  };
  CHECK_FALSE(noted(1.03));
  CHECK(noted(1.05));
}

TEST_CASE("activated resin is counted by resin and dye, until its storage life is over") {
  const auto left = [](const char* resin, const char* dye, const char* amount, const char* on) {
    return std::string{"\n[[activated]]\nresin = \""} + resin + "\"\n" +
           (*dye ? "dye = \"" + std::string{dye} + "\"\n" : "") + "amount = \"" + amount + "\"\non = " + on + "\n";
  };
  const Shop shop = shop_and(usual_vessel + usual_resin + left("Clear Creek", "", "1 l", "2027-01-05") +
                             left("Clear Creek", "soot", "2 l", "2027-01-05") +
                             left("Clear Creek", "", "4 l", "2027-02-01") + left("Thick", "", "8 l", "2020-01-01"));
  const auto litres = [&](std::size_t resin, std::optional<std::string> dye, const char* today, int warned) {
    Diagnostics said;
    const ActivatedResin there = usable_on_hand(shop, shop.resins.at(resin), dye, parse_date(today).value(), said);
    CHECK(said.errors() == 0);
    CHECK(said.warnings() == warned);
    for (const Diagnostic& d : said.all()) CHECK(d.problem == Problem::activated_too_old);
    return there.amount / litre;
  };
  CHECK(litres(0, std::nullopt, "2027-02-04", 0) == doctest::Approx(5));  // 30 days, 720 h: still good
  CHECK(litres(0, std::nullopt, "2027-02-05", 1) == doctest::Approx(4));
  CHECK(litres(0, "soot", "2027-02-04", 0) == doctest::Approx(2));
  CHECK(litres(0, "honey", "2027-02-04", 0) == doctest::Approx(0));
  Diagnostics ignored;
  const auto oldest = [&](const char* today) {
    return usable_on_hand(shop, shop.resins.at(0), std::nullopt, parse_date(today).value(), ignored).oldest;
  };
  CHECK(oldest("2027-02-04") == parse_date("2027-01-05").value());
  CHECK(oldest("2027-02-05") == parse_date("2027-02-01").value());
  CHECK(litres(1, std::nullopt, "2027-02-04", 0) == doctest::Approx(8));  // its data sheet names no limit
}
