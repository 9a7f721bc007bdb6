// What open orders still need, and what there is of it.

#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>

#include "shop_at_work.h"

using namespace blankwright;
using Json = nlohmann::json;

namespace {

/// The row of a material; null where nothing of it is needed.
Json row(Workshop& shop, const std::string& material) {
  const ProgramRun ran = shop.run({"ask", "material", "--as", "json"});
  REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
  const Json answer = Json::parse(ran.out);
  const auto found =
      std::ranges::find_if(answer.at("rows"), [&](const Json& one) { return one.at("material") == material; });
  return found == answer.at("rows").end() ? Json{} : *found;
}

double litres(const Json& cell) { return std::stod(cell.get<std::string>()); }

Json plan_of_order(const Work& work) { return Json::parse(bytes_of(work.jobs.out() + "/TA-0147/plan.json")); }

}  // namespace

TEST_CASE("what an order needs is what its plan says, against boards, studs and resin in stock") {
  Work work;
  const Json plan = plan_of_order(work);
  Json wood = row(work, "wood");
  CHECK(wood.at("needed") == std::to_string(work.blanks.size()));
  CHECK(wood.at("there") == wood.at("needed"));  // its two boards give them all
  CHECK(wood.at("missing") == "");
  CHECK(wood.at("orders") == "TA-0147");
  CHECK(wood.at("which").get<std::string>().starts_with("European beech, spalted, "));
  const Json studs = row(work, "studs");
  CHECK(studs.at("needed") == "9");  // its witness gets none
  CHECK(studs.at("there") == "9");   // of forty, which are long enough
  double fresh_ml = 0, activator_g = 0;
  for (const Json& bath : plan.at("baths")) {
    fresh_ml += bath.at("fresh_resin_ml").get<double>();
    activator_g += bath.at("activator_g").get<double>();
  }
  Json resin = row(work, "resin");
  CHECK(litres(resin.at("needed")) == doctest::Approx(fresh_ml / 1000).epsilon(0.01));
  CHECK(litres(row(work, "activator").at("needed")) == doctest::Approx(activator_g).epsilon(0.01));
  // Nobody said how much there is: all of it is told as missing, from its bath on.
  CHECK(resin.at("there") == "");
  CHECK(resin.at("missing") == resin.at("needed"));
  CHECK(resin.at("wanted from") != "");

  change(work.shop, "price_for = \"1 l\"\n",
         "price_for = \"1 l\"\nin_stock = \"1 l\"\nactivator_in_stock = \"1 kg\"\n");
  resin = row(work, "resin");
  CHECK(resin.at("there") == "1.00 l");
  CHECK(litres(resin.at("missing")) == doctest::Approx(fresh_ml / 1000 - 1).epsilon(0.02));
  CHECK(row(work, "activator").at("missing") == "");
  change(work.shop, "in_stock = \"1 l\"", "in_stock = \"100 l\"");
  CHECK(row(work, "resin").at("missing") == "");
  CHECK(row(work, "resin").at("wanted from") == "");
}

TEST_CASE("what is sawn, bathed or set needs no more of it") {
  Work work;
  const int all = static_cast<int>(work.blanks.size());
  work.enter(0, "board", 0, {"board=A1"});
  work.enter(1, "sawn", 3, {"board=A1"});
  CHECK(row(work, "wood").at("needed") == std::to_string(all - 3));
  work.enter(0, "scrapped", 1, {"reason=cracked"});
  CHECK(row(work, "studs").at("needed") == "9");  // another one is started for it
  CHECK(row(work, "wood").at("needed") == std::to_string(all - 2));

  Work bathed;
  bathed.into_bath(bathed.blanks.size());
  CHECK(row(bathed, "wood").is_null());
  CHECK(row(bathed, "resin").is_null());
  CHECK(row(bathed, "activator").is_null());
  CHECK(row(bathed, "studs").at("needed") == "9");
}

TEST_CASE("resin that is poured already is needed no more, though the bath is not under vacuum") {
  Work work;
  const double before = litres(row(work, "resin").at("needed"));
  work.weigh_dry();
  work.enter(0, "resin-opened", 0, {"resin=R-1"});
  work.enter(0, "into-bath", work.blanks.size(), {"bath=B1", "vessel=trough"});
  const double then = litres(row(work, "resin").at("needed"));
  work.enter(0, "poured", 0, {"resin=R-1", "bath=B1", "volume=0.5 l"});
  CHECK(before > 0.5);
  CHECK(then - litres(row(work, "resin").at("needed")) == doctest::Approx(0.5).epsilon(0.05));
  work.enter(0, "poured", 0, {"resin=R-1", "bath=B1", "volume=9 l"});
  CHECK(row(work, "resin").is_null());
}

TEST_CASE("orders that need the same thing need it together, and each is named") {
  Work work;
  std::string job = bytes_of(work.jobs / "metric/burnisher.toml");
  job.replace(job.find("TA-0147"), 7, "TA-0148");
  const std::string file = work.jobs / "metric/second.toml";
  std::ofstream{file} << job;
  const int before = std::stoi(row(work, "studs").at("needed").get<std::string>());
  REQUIRE(work.run({"compile", "--quiet", "--only", "plan", "--out", work.jobs.out(), file}).exit == Exit::done);
  const Json studs = row(work, "studs");
  CHECK(studs.at("needed") == std::to_string(2 * before));
  CHECK(studs.at("orders") == "TA-0147, TA-0148");
  change(work.shop, "count = 40", "count = 10");
  CHECK(row(work, "studs").at("missing") == std::to_string(2 * before - 10));
}
