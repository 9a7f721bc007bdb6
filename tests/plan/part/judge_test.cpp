#include "plan/part/judge.h"
#include "diagnose/problem.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "judging.h"
#include "planning.h"

using namespace blankwright;

// Each judgement on both sides of its limit, and each hint pasted into the order.

namespace {

std::string stud_key(const std::string& line) {
  return with(awl(), "enters = \"14 mm\"", "enters = \"14 mm\"\n" + line);
}

Planned tried(const std::string& order, const std::string& shop) { return planned(order_of(order), shop_of(shop)); }

/// Passed without an error, and nothing said about the problem.
void passes(const Planned& p, Problem problem) {
  CAPTURE(rendered(p.said));
  CHECK(p.plan.has_value());
  CHECK(p.about(problem) == nullptr);
}

const Diagnostic& refused(const Planned& p, Problem problem) {
  CAPTURE(rendered(p.said));
  CHECK_FALSE(p.plan.has_value());
  const Diagnostic* said = p.about(problem);
  REQUIRE(said != nullptr);
  CHECK(said->severity == Severity::error);
  return *said;
}

const Diagnostic& warned(const Planned& p, Problem problem) {
  CAPTURE(rendered(p.said));
  CHECK(p.plan.has_value());
  const Diagnostic* said = p.about(problem);
  REQUIRE(said != nullptr);
  CHECK(said->severity == Severity::warning);
  return *said;
}

std::string with_blank(const std::string& section, const std::string& length, const std::string& state) {
  return awl() + "\n[blank]\nsection = \"" + section + "\"\nlength = \"" + length + "\"\nstate = \"" + state + "\"\n";
}

}  // namespace

TEST_CASE("too little wood behind the bore is refused, and the length in the hint is enough") {
  // 60 mm embedded + 6 mm + 4.25/tan 59° = 68.554 mm to the point: 41.446 mm of 110 are left.
  const std::string deep = stud_key("embedded = \"60 mm\"");
  passes(tried(deep, with(bench(), "least_web = \"5 mm\"", "least_web = \"41.4 mm\"")), Problem::web_too_thin);
  for (const std::string units : {"metric", "inch"}) {
    for (const std::string least : {"41.5 mm", "44.9 mm", "47.13 mm"}) {
      CAPTURE(units);
      CAPTURE(least);
      const std::string shop = with(with(bench(), "least_web = \"5 mm\"", "least_web = \"" + least + "\""),
                                    "units = \"metric\"", "units = \"" + units + "\"");
      const Planned p = tried(deep, shop);
      const Diagnostic& said = refused(p, Problem::web_too_thin);
      CHECK(marked(said) == "\"110 mm\"");
      passes(tried(with(deep, "\"110 mm\"", to_paste(said).front()), shop), Problem::web_too_thin);
    }
  }
}

TEST_CASE("a bore deeper than the handle is refused before its web is spoken of") {
  // Point at embedded + 6 + 2.554 mm: 109.95 and 110.05 mm.
  const Planned short_of = tried(stud_key("embedded = \"101.4 mm\""), bench());
  refused(short_of, Problem::web_too_thin);
  CHECK(short_of.about(Problem::handle_too_short_for_stud) == nullptr);
  const Planned through = tried(stud_key("embedded = \"101.5 mm\""), bench());
  refused(through, Problem::handle_too_short_for_stud);
  CHECK(through.about(Problem::web_too_thin) == nullptr);
}

TEST_CASE("a wall thinner than the shop asks for is refused") {
  // (26 − 8.5)/2 − 0.25 = 8.5 mm at the seat.
  passes(tried(awl(), with(bench(), "least_wall = \"4 mm\"", "least_wall = \"8.5 mm\"")), Problem::wall_too_thin);
  const Planned p = tried(awl(), with(bench(), "least_wall = \"4 mm\"", "least_wall = \"8.51 mm\""));
  CHECK(marked(refused(p, Problem::wall_too_thin)) == "\"26 mm\"");
}

TEST_CASE("a stud nearer to the surface than the rule of thumb is warned of") {
  // 26/2/8 = 1.625 diameters.
  passes(tried(awl(), with(bench(), "least_edge = \"150 %\"", "least_edge = \"162 %\"")),
         Problem::edge_distance_small);
  const Planned p = tried(awl(), with(bench(), "least_edge = \"150 %\"", "least_edge = \"163 %\""));
  warned(p, Problem::edge_distance_small);
  // 2 · 1.63 · 8 = 26.08 mm.
  CHECK(p.about(Problem::edge_distance_small)->hint_text().find("Ø 26.08 mm") != std::string::npos);
}

TEST_CASE("common studs in common handles keep far enough from the surface by the usual rule, thin handles do not") {
  // Sizes of handles and studs as they are sold; common practice, no source. On the thread's diameter: 1.67, 1.56,
  // 1.6 and 1.75 against 1.38 and 1.25.
  const std::string usual = with(with(bench(), "least_edge = \"150 %\"\n", ""), "\"10 mm\", \"12 mm\"",
                                 "\"10 mm\", \"10.5 mm\", \"12 mm\"");
  const auto handle = [](std::string_view thread, std::string_view seat) {
    return with(with(awl(), "thread = \"M8\"", fmt::format("thread = \"{}\"", thread)), "diameter = \"26 mm\"",
                fmt::format("diameter = \"{}\"", seat));
  };
  for (const auto& [thread, seat] : {std::pair{"M6", "20 mm"}, {"M8", "25 mm"}, {"M10", "32 mm"}, {"M8", "28 mm"}}) {
    CAPTURE(seat);
    passes(tried(handle(thread, seat), usual), Problem::edge_distance_small);
  }
  for (const auto& [thread, seat] : {std::pair{"M8", "22 mm"}, {"M10", "25 mm"}}) {
    CAPTURE(seat);
    warned(tried(handle(thread, seat), usual), Problem::edge_distance_small);
  }
}

TEST_CASE("a stud that would bottom in the client's hole is refused") {
  passes(tried(with(awl(), "hole_depth = \"17 mm\"", "hole_depth = \"14.1 mm\""), bench()),
         Problem::head_hole_too_shallow);
  refused(tried(with(awl(), "hole_depth = \"17 mm\"", "hole_depth = \"14 mm\""), bench()),
          Problem::head_hole_too_shallow);
  passes(tried(with(awl(), "hole_depth = \"17 mm\"\n", ""), bench()), Problem::head_hole_too_shallow);
}

TEST_CASE("a pull that the ordered length does not bear is refused, and leaving the length out mends it") {
  // π 8 × 36 × 2/3 = 603.2 N.
  const std::string order = stud_key("embedded = \"36 mm\"");
  const Planned bears = tried(with(order, "600 N", "603 N"), bench());
  passes(bears, Problem::stud_pulls_out);
  warned(bears, Problem::bond_untested);
  const std::string too_much = with(order, "600 N", "604 N");
  const Diagnostic said = refused(tried(too_much, bench()), Problem::stud_pulls_out);
  CHECK(marked(said) == "\"604 N\"");
  CHECK(said.hint_text().find("leave `embedded` out") != std::string::npos);
  passes(tried(with(too_much, "\nembedded = \"36 mm\"", ""), bench()), Problem::stud_pulls_out);
}

TEST_CASE("a length that is worked out always bears the pull") {
  for (int pull = 100; pull < 1400; pull += 7) {
    CAPTURE(pull);
    passes(tried(with(awl(), "600 N", std::to_string(pull) + " N"), bench()), Problem::stud_pulls_out);
  }
}

TEST_CASE("a drill that leaves less than the glue line is refused, and one the shop lacks is asked for") {
  const auto bore = [](const std::string& drill) {
    return with(awl(), "fit = \"glued\"", "drill = \"" + drill + "\"");
  };
  passes(tried(bore("8.5 mm"), bench()), Problem::drill_too_small);
  const Planned thin = tried(bore("8.49 mm"), bench());
  CHECK(marked(refused(thin, Problem::drill_too_small)) == "\"8.49 mm\"");
  const std::string few = with(bench(), "\"8.5 mm\", \"9 mm\", \"10 mm\", \"12 mm\"]", "\"8.4 mm\"]");
  CHECK(refused(tried(awl(), few), Problem::drill_missing).message_text().find("8.50 mm") != std::string::npos);
  passes(tried(awl(), with(few, "\"8.4 mm\"]", "\"8.4 mm\", \"8.5 mm\"]")), Problem::drill_missing);
}

TEST_CASE("a tapped bore outside the limits of its thread is refused on either side") {
  // ISO 965-1, M8 6H: minor diameter 6.647 to 6.912 mm.
  const auto bore = [](const std::string& drill) {
    return with(awl(), "fit = \"glued\"", "fit = \"tapped\"\ndrill = \"" + drill + "\"");
  };
  for (const std::string good : {"6.65 mm", "6.8 mm", "6.91 mm"}) {
    passes(tried(bore(good), bench()), Problem::hole_outside_thread_limits);
  }
  for (const std::string bad : {"6.64 mm", "6.92 mm"}) {
    refused(tried(bore(bad), bench()), Problem::hole_outside_thread_limits);
  }
  const std::string tapped = with(awl(), "fit = \"glued\"", "fit = \"tapped\"");
  refused(tried(tapped, bench()), Problem::drill_missing);  // the shop owns 6.5 mm and then 8 mm
  passes(tried(tapped, with(bench(), "\"6.5 mm\"", "\"6.8 mm\"")), Problem::drill_missing);
}

TEST_CASE("a blank in which no bore would do is refused, one that asks for a truer bore is warned of") {
  // Squared: 34 + 3 + 1 + 0.6 + 2 × 80 t = 42.102 mm for a true axis, and 1.5 mm more for what the shop holds.
  const auto squared = [](const std::string& section) {
    return tried(with_blank(section, "124.5 mm", "squared"), bench());
  };
  refused(squared("42.1 mm"), Problem::blank_too_small);
  warned(squared("42.11 mm"), Problem::bore_must_be_truer);
  warned(squared("43.6 mm"), Problem::bore_must_be_truer);
  for (const std::string enough : {"43.61 mm", "44 mm", "46.7 mm", "50 mm", "61.3 mm", "80 mm"}) {
    CAPTURE(enough);
    passes(squared(enough), Problem::bore_must_be_truer);
    passes(squared(enough), Problem::blank_too_small);
  }
}

TEST_CASE("the blank in the hint is enough for what the shop holds, whichever state it is measured in") {
  for (const std::string units : {"metric", "inch"}) {
    const std::string shop = with(bench(), "units = \"metric\"", "units = \"" + units + "\"");
    for (const std::string state : {"sawn", "dry", "squared"}) {
      for (const std::string section : {"12 mm", "30 mm", "41 mm"}) {
        CAPTURE(state);
        CAPTURE(section);
        const std::string order = with_blank(section, "140 mm", state);
        const Planned p = tried(order, shop);
        const Diagnostic& said = refused(p, Problem::blank_too_small);
        const Planned mended =
            tried(with(order, "section = \"" + section + "\"", "section = " + to_paste(said).front()), shop);
        passes(mended, Problem::blank_too_small);
        passes(mended, Problem::bore_must_be_truer);
      }
    }
  }
}

TEST_CASE("a blank too short for handle, facing and waste is refused") {
  // 110 + 2.5 + 12 = 124.5 mm squared.
  passes(tried(with_blank("50 mm", "124.5 mm", "squared"), bench()), Problem::blank_too_short);
  refused(tried(with_blank("50 mm", "124.4 mm", "squared"), bench()), Problem::blank_too_short);
  passes(tried(with_blank("50 mm", "128.5 mm", "dry"), bench()), Problem::blank_too_short);
  refused(tried(with_blank("50 mm", "128.4 mm", "dry"), bench()), Problem::blank_too_short);
}

TEST_CASE("on the lathe a blank that leaves nothing for the stud asks for truer centres or a larger blank") {
  // True axis: 34 + 3 + 1 + 0.6 + 2 × 80 (2 × 0.25/36 + 0.002) = 41.142 mm. Of 42 mm e* is 0.4289 mm, no more than
  // the 0.5 mm that the shop holds: half of it for the centres. Of 42.3 mm it is 0.5789 mm.
  const std::string lathe = with(bench(), "method = \"press\"", "method = \"lathe\"");
  const auto said = [&](const std::string& section) {
    return warned(tried(with_blank(section, "124.5 mm", "squared"), lathe), Problem::bore_must_be_truer);
  };
  const Diagnostic marking = said("42 mm");
  CHECK(marking.hint_text().find("mark the centres within 0.21 mm of the middle") != std::string::npos);
  passes(tried(with(with_blank("42 mm", "124.5 mm", "squared"), "\"42 mm\"", to_paste(marking).front()), lathe),
         Problem::bore_must_be_truer);
  CHECK(said("42.3 mm").hint_text().find("mark the centres") == std::string::npos);
}

TEST_CASE("a spigot stands before the seat, so a given blank needs its height too") {
  // 110 + 4 + 2.5 + 12 = 128.5 mm squared.
  const auto with_spigot = [](const std::string& length) {
    return tried(with_blank("50 mm", length, "squared") + "[seat]\nform = \"spigot\"\ndiameter = \"20 mm\"\n" +
                     "height = \"4 mm\"\n",
                 bench());
  };
  passes(with_spigot("128.5 mm"), Problem::blank_too_short);
  refused(with_spigot("128.4 mm"), Problem::blank_too_short);
}

TEST_CASE("a wood of several kinds is asked for by its whole name, and each name offered will do") {
  const auto wood = [](const std::string& name) {
    return with(with(awl(), "\"European beech\"", name), "tangential = \"11.8 %\"\n", "");
  };
  const Planned p = tried(wood("\"walnut\""), bench());
  const auto offered = to_paste(refused(p, Problem::species_ambiguous));
  CHECK(offered.size() >= 2);
  for (const std::string& name : offered) passes(tried(wood(name), bench()), Problem::species_ambiguous);
  const Planned misspelt = tried(wood("\"black walnt\""), bench());
  for (const std::string& name : to_paste(refused(misspelt, Problem::species_unknown))) {
    passes(tried(wood(name), bench()), Problem::species_unknown);
  }
}

TEST_CASE("a wood without a tabled shrinkage needs one, and the line in the hint gives it") {
  const std::string boxwood = with(with(awl(), "European beech", "boxwood"), "tangential = \"11.8 %\"\n", "");
  const Diagnostic said = refused(tried(boxwood, bench()), Problem::shrinkage_unknown);
  CHECK(said.hint_text().find("tangential = \"8 %\"") != std::string::npos);
  passes(tried(boxwood + "tangential = \"8 %\"\n", bench()), Problem::shrinkage_unknown);
  const std::string nowhere = with(with(awl(), "European beech", "Qwrtzpq"), "tangential = \"11.8 %\"\n", "");
  const Diagnostic unknown = refused(tried(nowhere, bench()), Problem::species_unknown);
  CHECK(unknown.hint_text().find("tangential = \"8 %\"") != std::string::npos);
  passes(tried(nowhere + "tangential = \"8 %\"\n", bench()), Problem::species_unknown);
}

TEST_CASE("a yield that nobody counted is warned of, a counted one is called a guess") {
  const std::string uncounted = with(bench(), "expected = \"18 of 20\"\n", "");
  const Diagnostic said = warned(tried(awl(), uncounted), Problem::no_yield_known);
  CHECK(said.hint_text().find("expected = \"8 of 10\"") != std::string::npos);
  const Planned counted = tried(awl(), with(uncounted, "[yield]", "[yield]\nexpected = \"8 of 10\""));
  passes(counted, Problem::no_yield_known);
  REQUIRE(counted.about(Problem::yield_is_a_guess) != nullptr);
  CHECK(counted.about(Problem::yield_is_a_guess)->severity == Severity::note);
  // It is the shop's, in the same words for an order of any size.
  const Planned more = tried(with(awl(), "quantity = 6", "quantity = 9"),
                             with(uncounted, "[yield]", "[yield]\nexpected = \"8 of 10\""));
  CHECK(more.about(Problem::yield_is_a_guess)->message_text() ==
        counted.about(Problem::yield_is_a_guess)->message_text());
}

TEST_CASE("an order that no number of blanks would fill is refused") {
  const std::string rare = with(bench(), "\"18 of 20\"", "\"1 of 50\"");
  const Diagnostic said =
      refused(tried(with(awl(), "quantity = 6", "quantity = 5000"), rare), Problem::too_many_to_start);
  CHECK(marked(said) == "5000");
  passes(tried(with(awl(), "quantity = 6", "quantity = 2"), rare), Problem::too_many_to_start);
}
