#include "plan/part/judge_stud.h"
#include "diagnose/problem.h"

#include <doctest/doctest.h>

#include "judging.h"
#include "plan/order/judge_cost.h"
#include "plan/part/judge_seat.h"
#include "plan/part/stud.h"
#include "planning.h"

using namespace blankwright;

// Each judgement on both sides of its limit, and each hint pasted into the order.

namespace {

// M8 in a bore of 8.5 mm; the shop's bond bears 2 MPa, its safety factor is 3.
std::string awl_with(const std::string& stud_lines) { return with(awl(), "pull = \"600 N\"", stud_lines); }
std::string in_inches(const std::string& shop) { return with(shop, "units = \"metric\"", "units = \"inch\""); }

struct StudJudged {
  Diagnostics said;

  const Diagnostic* about(Problem problem) const { return found(said, problem); }
  const Diagnostic& says(Problem problem, Severity severity) const {
    const Diagnostic& d = blankwright::about(said, problem);
    CHECK(d.severity == severity);
    return d;
  }
  const Diagnostic& refuses(Problem problem) const { return says(problem, Severity::error); }
  const Diagnostic& warns(Problem problem) const { return says(problem, Severity::warning); }
  const Diagnostic& notes(Problem problem) const { return says(problem, Severity::note); }
  void keeps_silent() const { blankwright::keeps_silent(said); }
};

Stud stud_of(const Order& order, const Shop& shop, Length bore) {
  const StudFacts& s = order.stud;
  return stud({.thread = s.thread.value,
               .glued = order.bore.fit.value == BoreFit::glued,
               .enters = s.enters,
               .hole_depth = s.hole_depth,
               .embedded = s.embedded,
               .pull = s.pull,
               .torque = s.torque,
               .bore = bore,
               .shear_strength = shop.glue.shear_strength,
               .wood_shear_strength = shop.glue.wood_shear_strength,
               .strength_measured = shop.glue.shear_measured.value,
               .safety_factor = shop.glue.safety_factor,
               .least_embedded = shop.glue.least_embedded,
               .step = shop.units.value == UnitSystem::metric ? 1 * mm : inch / 16})
      .value;
}

StudJudged strength(const std::string& order_text, const std::string& shop_text = bench()) {
  const Order order = order_of(order_text);
  const Shop shop = shop_of(shop_text);
  const Length bore = 8.5 * mm;
  const Stud set = stud_of(order, shop, bore);
  const bool glued = order.bore.fit.value == BoreFit::glued;
  const Preload pulls =
      preload({.thread = order.stud.thread.value, .ring = contact_ring(order), .tightening = order.stud.tightening})
          .value;
  const StudStrength worked = stud_strength({.thread = order.stud.thread.value,
                                             .glued = glued,
                                             .bore = bore,
                                             .embedded = set.embedded,
                                             .facts = order.stud,
                                             .glue = shop.glue,
                                             .preload = pulls.most})
                                  .value;
  const Tightened tight = tightened({.thread = order.stud.thread.value,
                                     .glued = glued,
                                     .bore = bore,
                                     .embedded = set.embedded,
                                     .pull = order.stud.pull,
                                     .glue = shop.glue,
                                     .preload = pulls,
                                     .yield_strength = worked.yield_strength,
                                     .head_strip = worked.head_strip})
                              .value;
  StudJudged out;
  judge_stud_strength(worked, order, shop, out.said);
  judge_tightening(pulls, tight, set, order, shop, out.said);
  return out;
}

/// What stands in a hint from `key` to the end of its value.
std::string line_to_paste(const Diagnostic& said, const std::string& key) {
  const auto from = said.hint_text().find(key + " = \"");
  REQUIRE_MESSAGE(from != std::string::npos, said.hint_text());
  const auto to = said.hint_text().find('"', from + key.size() + 4);
  REQUIRE(to != std::string::npos);
  return said.hint_text().substr(from, to - from + 1);
}

StudJudged stock(int pieces, const std::string& studs,
                 const std::string& order_text = awl_with("embedded = \"25 mm\"")) {
  const Order order = order_of(order_text);
  const Shop shop = shop_of(bench() + studs);
  StudJudged out;
  judge_stud_stock(stud_of(order, shop, 8.5 * mm), order, shop, pieces, out.said);
  return out;
}

std::string studs(const std::string& thread, const std::string& length, int count) {
  return "\n[[studs]]\nthread = \"" + thread + "\"\nlength = \"" + length + "\"\ncount = " + std::to_string(count) +
         "\n";
}

}  // namespace

TEST_CASE("an order without loads has nothing to be judged by") { strength(awl_with("")).keeps_silent(); }

TEST_CASE("a side load and its lever come together") {
  CHECK(marked(strength(awl_with("side_load = \"50 N\"")).refuses(Problem::keys_disagree)) == "\"50 N\"");
  const StudJudged lonely = strength(awl_with("lever = \"80 mm\""));
  CHECK(marked(lonely.refuses(Problem::keys_disagree)) == "\"80 mm\"");
  const std::string both = awl_with("lever = \"80 mm\"\nside_load = \"50 N\"\ngrade = \"A2-70\"");
  CHECK(strength(both).about(Problem::keys_disagree) == nullptr);
  CHECK(strength(awl_with("lever = \"80 mm\"\n" + line_to_paste(lonely.refuses(Problem::keys_disagree), "side_load")))
            .about(Problem::keys_disagree) == nullptr);
}

TEST_CASE("a side load that bends the stud is refused, and the one in the hint is borne") {
  // 32 F l/(π 6.466³) at 80 mm: 3.0142 MPa a newton. A third of 450 MPa (A2-70: ISO 3506-1, from memory): 49.76 N.
  const auto loaded = [](const std::string& force) {
    return awl_with("lever = \"80 mm\"\ngrade = \"A2-70\"\nside_load = \"" + force + "\"");
  };
  strength(loaded("49.7 N")).keeps_silent();
  const StudJudged bent = strength(loaded("49.8 N"));
  CHECK(marked(bent.refuses(Problem::stud_bends)) == "\"49.8 N\"");
  for (const std::string force : {"50 N", "321 N", "9 kN"}) {
    for (const std::string& shop : {bench(), in_inches(bench())}) {
      const StudJudged refused = strength(loaded(force), shop);
      const std::string less = line_to_paste(refused.refuses(Problem::stud_bends), "side_load");
      strength(with(loaded(force), "side_load = \"" + force + "\"", less), shop).keeps_silent();
    }
  }
}

TEST_CASE("a stud of unknown strength under a side load is said, not passed over") {
  const std::string load = "lever = \"80 mm\"\nside_load = \"500 N\"\n";
  const StudJudged unknown = strength(awl_with(load));
  CHECK(marked(unknown.notes(Problem::strength_unknown)) == "\"500 N\"");
  CHECK(marked(strength(awl_with(load + "grade = \"from the drawer\"")).notes(Problem::strength_unknown)) ==
        "\"from the drawer\"");
  // A307 promises a tensile strength only.
  strength(awl_with(load + "grade = \"A307\"")).notes(Problem::strength_unknown);
  for (const char* key : {"grade", "yield_strength"}) {
    const std::string known = line_to_paste(unknown.notes(Problem::strength_unknown), key);
    const StudJudged judged = strength(awl_with(load + known));
    CHECK(judged.about(Problem::strength_unknown) == nullptr);
    judged.refuses(Problem::stud_bends);
  }
}

TEST_CASE("a torque that the ordered length does not bear is refused, and leaving the length out mends it") {
  // π 8² × 36 × 2/2/3 = 2412.7 N mm.
  const auto twisted = [](const std::string& torque) { return awl_with("embedded = \"36 mm\"\n" + torque); };
  CHECK(strength(twisted("torque = \"2.412 N m\"")).about(Problem::bond_twists) == nullptr);
  const StudJudged refused = strength(twisted("torque = \"2.413 N m\""));
  CHECK(marked(refused.refuses(Problem::bond_twists)) == "\"2.413 N m\"");
  CHECK(refused.about(Problem::bond_twists)->hint_text().find("leave `embedded` out") != std::string::npos);
  for (const std::string& shop : {bench(), in_inches(bench())}) {
    for (const std::string torque : {"2.413 N m", "5 N m", "7.77 N m", "30 lbf in"}) {
      CHECK(strength(awl_with("torque = \"" + torque + "\""), shop).about(Problem::bond_twists) == nullptr);
    }
  }
}

TEST_CASE("tightening is judged in assembly and in use, and what the hint says mends it") {
  // 36 mm in the wood, seat of 26 mm: R = 13, r = 4: 2 (2197 − 64)/(3 (169 − 16)) = 9.29412 mm, lever 0.53094 +
  // 0.92941 = 1.46035 mm. Assembly: 1793.8/1.5 × 1.46035 = 1746.4 N mm (see tightening_test.cpp). In use, with 400 N:
  // 2 (1809.56 − 1200) × 1.46035 = 1780.3, with 450 N: 2 (1809.56 − 1350) × 1.46035 = 1342.2.
  const auto tight = [](const std::string& torque, const std::string& pull, const std::string& in_wood = "36 mm") {
    return awl_with("grade = \"A2-70\"\nembedded = \"" + in_wood + "\"\ntightening = \"" + torque + "\"" +
                    (pull.empty() ? "" : "\npull = \"" + pull + "\"\npart_shear_strength = \"190 MPa\""));
  };
  CHECK(strength(tight("1.746 N m", "")).about(Problem::overtightened) == nullptr);
  CHECK(marked(strength(tight("1.747 N m", "")).warns(Problem::overtightened)) == "\"1.747 N m\"");
  CHECK(strength(tight("1.746 N m", "400 N")).about(Problem::overtightened) == nullptr);
  CHECK(strength(tight("1.342 N m", "450 N")).about(Problem::overtightened) == nullptr);
  CHECK(strength(tight("1.343 N m", "450 N")).warns(Problem::overtightened).message_text().find("half of it") !=
        std::string::npos);
  for (const std::string& shop : {bench(), in_inches(bench())}) {
    for (const std::string pull : {"", "200 N", "450 N", "550 N"}) {
      for (const std::string torque : {"2 N m", "5 N m", "60 lbf in"}) {
        CAPTURE(pull);
        CAPTURE(torque);
        const Diagnostic said = strength(tight(torque, pull), shop).warns(Problem::overtightened);
        const std::string gently =
            with(tight(torque, pull), "tightening = \"" + torque + "\"", line_to_paste(said, "tightening"));
        CHECK(strength(gently, shop).about(Problem::overtightened) == nullptr);
        const std::string longer = with(tight(torque, pull), "embedded = \"36 mm\"", line_to_paste(said, "embedded"));
        CHECK(strength(longer, shop).about(Problem::overtightened) == nullptr);
      }
    }
  }
  // A pull that takes all of the bond leaves nothing worth naming; one that is refused is not told of again.
  CHECK(strength(tight("2 N m", "602 N"))
            .warns(Problem::overtightened)
            .hint_text()
            .starts_with("leave `tightening` out"));
  CHECK(strength(tight("2 N m", "700 N")).about(Problem::overtightened) == nullptr);
}

TEST_CASE("the bond that tightening twists before the seat closes is judged too") {
  // A seat so wide that only the twist counts: 7238.2/1.5 = 4825.5 N mm with 36 mm in the wood.
  const auto wide = [](const std::string& torque) {
    return with(awl_with("grade = \"A2-70\"\nembedded = \"36 mm\"\ntightening = \"" + torque +
                         "\"\n[seat]\n"
                         "part_diameter = \"300 mm\""),
                "{at = \"0 mm\", diameter = \"26 mm\"}", "{at = \"0 mm\", diameter = \"300 mm\"}");
  };
  CHECK(strength(wide("4.825 N m")).about(Problem::overtightened) == nullptr);
  CHECK(strength(wide("4.826 N m")).warns(Problem::overtightened).message_text().find("until the seat closes") !=
        std::string::npos);
}

TEST_CASE("a thin or soft stud is judged by its own yield when it is tightened") {
  // M4 of class 4.8 bears 2213.8 N (see tightening_test.cpp); 3 N m pull with 3750 N, 427 MPa on 8.78 mm², and that
  // is past its tensile strength of 420 MPa (ISO 898-1). The largest is 2213.8 × 0.8 = 1771 N mm.
  const std::string strong = with(bench(), "shear_strength = \"2 MPa\"",
                                  "shear_measured = true\nshear_strength = \"30 MPa\"\n"
                                  "wood_shear_strength = \"30 MPa\"");
  const std::string thin =
      with(awl_with("grade = \"4.8\"\nembedded = \"20 mm\"\ntightening = \"3 N m\""), "\"M8\"", "\"M4\"");
  const StudJudged judged = strength(thin, strong);
  const Diagnostic& said = judged.warns(Problem::overtightened);
  CHECK(said.message_text().find("3750 N") != std::string::npos);
  CHECK(said.message_text().find("90 % of its yield strength") != std::string::npos);
  CHECK(line_to_paste(said, "tightening") == "tightening = \"1.77 N m\"");
  CHECK(said.hint_text().find("embedded") == std::string::npos);
  strength(with(thin, "3 N m", "1.77 N m"), strong).keeps_silent();
  // In tapped wood nothing is known of the bond; the stud is judged all the same.
  const std::string tapped = with(thin, "fit = \"glued\"", "fit = \"tapped\"");
  CHECK(line_to_paste(strength(tapped, strong).warns(Problem::overtightened), "tightening") ==
        "tightening = \"1.77 N m\"");
  CHECK(marked(strength(tapped, strong).notes(Problem::strength_unknown)) == "\"3 N m\"");
}

TEST_CASE("weak wood round the bore twists before the metal lets go") {
  // Bore 8.5 mm: π 8.5² × 36 × 1/2/3 = 1361.9 N mm in wood of 1 MPa.
  const std::string shop =
      with(bench(), "shear_strength = \"2 MPa\"", "shear_strength = \"2 MPa\"\nwood_shear_strength = \"1 MPa\"");
  const std::string order = awl_with("embedded = \"36 mm\"\ntorque = \"1.36 N m\"");
  CHECK(strength(order, shop).about(Problem::bond_twists) == nullptr);
  strength(with(order, "1.36 N m", "1.363 N m"), shop).refuses(Problem::bond_twists);
}

TEST_CASE("a bond under torque is called untested until a witness was pulled") {
  const std::string order = awl_with("torque = \"2 N m\"");
  strength(order).warns(Problem::bond_untested);
  strength(order, with(bench(), "[glue]", "[glue]\nshear_measured = true")).keeps_silent();
  // Where there is a pull it is said of that.
  CHECK(strength(awl_with("torque = \"2 N m\"\npull = \"100 N\"")).about(Problem::bond_untested) == nullptr);
  // Tightening pulls; of both it is said once.
  const std::string tight = "tightening = \"0.5 N m\"";
  CHECK(strength(awl_with(tight)).warns(Problem::bond_untested).message_text().find("pulled witness") !=
        std::string::npos);
  // It is said of the shop's figure, so that several orders say the same.
  const Diagnostic both = strength(awl_with(tight + "\ntorque = \"1 N m\"")).warns(Problem::bond_untested);
  CHECK(marked(both) == "\"2 MPa\"");
  REQUIRE(both.labels.size() == 1);
  Diagnostic load = both;
  load.at = both.labels.front().at;
  CHECK(marked(load) == "\"0.5 N m\"");
  CHECK(both.message_text() == strength(order).warns(Problem::bond_untested).message_text());
  CHECK(both.hint_text().find("shear_measured = true") != std::string::npos);
  strength(awl_with(tight), with(bench(), "[glue]", "[glue]\nshear_measured = true")).keeps_silent();
}

TEST_CASE("what torque a tapped bore bears is not known, and that is said") {
  const std::string tapped = with(awl_with("torque = \"2 N m\""), "fit = \"glued\"", "fit = \"tapped\"");
  CHECK(marked(strength(tapped).notes(Problem::strength_unknown)) == "\"2 N m\"");
}

TEST_CASE("a pull on a client's metal of unknown strength is said") {
  const StudJudged unknown = strength(awl_with("pull = \"600 N\"\ngrade = \"A2-70\""));
  CHECK(marked(unknown.notes(Problem::strength_unknown)) == "\"600 N\"");
  strength(awl_with("pull = \"600 N\"\ngrade = \"A2-70\"\n" +
                    line_to_paste(unknown.notes(Problem::strength_unknown), "part_shear_strength")))
      .keeps_silent();
  // Nor is the stud's own thread judged without its grade.
  CHECK(marked(strength(awl_with("pull = \"600 N\"\npart_shear_strength = \"190 MPa\""))
                   .notes(Problem::strength_unknown)) == "\"190 MPa\"");
}

TEST_CASE("a thread that strips is refused, and what the hint says mends it") {
  // M8: Ds 7.760, En 7.348 mm (ISO 965-1, from memory): π 7.760 (0.5 + 0.57735 × 0.412/1.25) = 16.83 mm² a mm. In
  // metal of 10 MPa, 3 mm bear 504.8 N, a third of it 168.3 N.
  const auto pulled = [](const std::string& enters, const std::string& load, const std::string& strength = "10 MPa") {
    return with(awl_with(load + "\ngrade = \"8.8\"\npart_shear_strength = \"" + strength + "\""), "\"14 mm\"",
                "\"" + enters + "\"");
  };
  strength(pulled("3 mm", "pull = \"167 N\"")).keeps_silent();
  const StudJudged strips = strength(pulled("3 mm", "pull = \"170 N\""));
  CHECK(marked(strips.refuses(Problem::thread_strips)) == "\"170 N\"");
  for (const std::string& shop : {bench(), in_inches(bench())}) {
    // More engagement up to 1.5 d = 12 mm, as deep as the client's hole allows.
    for (const std::string pull : {"170 N", "300 N", "660 N"}) {
      CAPTURE(pull);
      const StudJudged refused = strength(pulled("3 mm", "pull = \"" + pull + "\""), shop);
      const std::string longer = line_to_paste(refused.refuses(Problem::thread_strips), "enters");
      const std::string mended = with(pulled("3 mm", "pull = \"" + pull + "\""), "enters = \"3 mm\"", longer);
      strength(mended, shop).keeps_silent();
    }
    // Past that, only less pull helps.
    for (const std::string pull : {"700 N", "20 kN"}) {
      const std::string order = pulled("3 mm", "pull = \"" + pull + "\"");
      const std::string less = line_to_paste(strength(order, shop).refuses(Problem::thread_strips), "pull");
      strength(with(order, "pull = \"" + pull + "\"", less), shop).keeps_silent();
    }
    const std::string shallow = with(pulled("3 mm", "pull = \"300 N\""), "\"17 mm\"", "\"5 mm\"");
    CHECK(strength(shallow, shop).refuses(Problem::thread_strips).hint_text().find("pull = ") == 0);
    // What tightening pulls with: 2 N m/1.46035 mm = 1369.5 N.
    const std::string tight = pulled("3 mm", "tightening = \"2 N m\"", "20 MPa");
    const StudJudged by_tightening = strength(with(tight, "\"17 mm\"", "\"4 mm\""), shop);
    CHECK(marked(by_tightening.refuses(Problem::thread_strips)) == "\"2 N m\"");
    const std::string gently = line_to_paste(*by_tightening.about(Problem::thread_strips), "tightening");
    CHECK(strength(with(tight, "tightening = \"2 N m\"", gently), shop).about(Problem::thread_strips) == nullptr);
  }
}

TEST_CASE("studs in stock are counted by thread, hand and length, rods cut with the saw's kerf") {
  // 25 + 14 = 39 mm; the kerf's standard is 3 mm: 500 mm give 11, for 11 × 39 + 10 × 3 = 459 and 12 take 501 mm.
  stock(8, "").keeps_silent();
  stock(8, studs("M8", "39 mm", 8)).keeps_silent();
  stock(8, studs("M8", "39 mm", 7)).warns(Problem::stud_not_in_stock);
  stock(8, studs("M8", "38.9 mm", 100)).warns(Problem::stud_not_in_stock);
  stock(8, studs("M8", "39 mm", 7) + studs("M10", "60 mm", 50)).warns(Problem::stud_not_in_stock);
  stock(8, studs("M8", "39 mm", 7) + studs("M8x1.25-6g", "45 mm", 1)).keeps_silent();
  stock(8, studs("M8-LH", "60 mm", 50)).warns(Problem::stud_not_in_stock);
  stock(8, studs("M8x1", "60 mm", 50)).warns(Problem::stud_not_in_stock);
  stock(11, studs("M8", "500 mm", 1)).keeps_silent();
  stock(12, studs("M8", "500 mm", 1)).warns(Problem::stud_not_in_stock);
  stock(12, studs("M8", "501 mm", 1)).keeps_silent();
  CHECK(marked(stock(12, studs("M8", "500 mm", 1)).warns(Problem::stud_not_in_stock)) == "\"M8\"");
}
