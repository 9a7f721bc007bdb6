#include "plan/part/judge_seat.h"
#include "diagnose/problem.h"

#include <doctest/doctest.h>

#include "judging.h"
#include "planning.h"

using namespace blankwright;

// Each judgement on both sides of its limit, and each hint pasted into the order.

namespace {

// Straight: 26 mm at the seat, 30 at 30 mm, 34 at 80 mm, 20 at 110 mm, the tail.
std::string awl_and(const std::string& lines) { return awl() + "\n" + lines + "\n"; }

Diagnostics seat_judged(const std::string& lines) {
  Diagnostics out;
  judge_seat(order_of(awl_and("[seat]\n" + lines)), shop_of(bench()), out);
  return out;
}

Diagnostics ferrule_judged(const std::string& outside, const std::string& length, bool smooth = false,
                           const std::string& more = {}) {
  const Order order =
      order_of(awl_and("[ferrule]\noutside_diameter = \"" + outside + "\"\nlength = \"" + length + "\"\n" + more));
  Diagnostics out;
  judge_ferrule(order, awl_form(smooth), 8.5 * mm, shop_of(bench()), out);
  return out;
}

/// Beech of 11.8 %, a seat of 26 mm.
Diagnostics use_judged(const std::string& order_text) {
  const Order order = order_of(order_text);
  const auto worked = size_in_use({.seat = order.handle.stations.front().diameter.value,
                                   .tolerance = order.handle.tolerance.value,
                                   .tangential = order.wood.tangential->value,
                                   .use = order.use});
  Diagnostics out;
  judge_size_in_use(worked.value, order, shop_of(bench()), out);
  return out;
}

}  // namespace

TEST_CASE("a spigot or a recess is given whole and no larger than the seat") {
  keeps_silent(seat_judged("form = \"flat\""));
  keeps_silent(seat_judged("squareness = \"0.1 mm\""));
  refused(seat_judged("diameter = \"20 mm\""), Problem::keys_disagree);
  refused(seat_judged("height = \"2 mm\""), Problem::keys_disagree);
  for (const std::string form : {"spigot", "recess"}) {
    CAPTURE(form);
    const std::string start = "form = \"" + form + "\"\n";
    refused(seat_judged(start + "diameter = \"20 mm\""), Problem::missing_key);
    refused(seat_judged(start + "height = \"2 mm\""), Problem::missing_key);
    CHECK(seat_judged(start).errors() == 2);
    keeps_silent(seat_judged(start + "height = \"2 mm\"\ndiameter = \"20 mm\""));
    keeps_silent(seat_judged(start + "height = \"2 mm\"\ndiameter = \"26 mm\""));
    refused(seat_judged(start + "height = \"2 mm\"\ndiameter = \"26.01 mm\""), Problem::keys_disagree);
  }
}

TEST_CASE("the client's face that the seat is tightened against is larger than the stud") {
  keeps_silent(seat_judged("part_diameter = \"8.1 mm\""));
  keeps_silent(seat_judged("part_diameter = \"40 mm\""));
  refused(seat_judged("part_diameter = \"8 mm\""), Problem::keys_disagree);
}

TEST_CASE("a ferrule goes on where the form under it is nowhere thicker") {
  // 28 mm at 15 mm from the seat; 34 at most under 80 mm and more, though it is thinner again at its end.
  keeps_silent(ferrule_judged("28 mm", "15 mm"));
  refused(ferrule_judged("27.99 mm", "15 mm"), Problem::ferrule_disagrees);
  keeps_silent(ferrule_judged("34 mm", "105 mm"));
  const auto thick = ferrule_judged("33.9 mm", "105 mm");
  const Diagnostic& said = refused(thick, Problem::ferrule_disagrees);
  CHECK(said.message_text().find("80.00 mm from the seat") != std::string::npos);
  CHECK(to_paste(said).front() == "\"34.0 mm\"");
  keeps_silent(ferrule_judged("34 mm", "105 mm", true));
  refused(ferrule_judged("33.9 mm", "105 mm", true), Problem::ferrule_disagrees);
}

TEST_CASE("the wood under a ferrule lies inside it, within the form and round the bore") {
  // Seat of 26 mm, bore of 8.5 mm, and the shop asks for a wall of 4 mm: 8.5 + 2 × 4 = 16.5 mm.
  const auto inside = [](const std::string& diameter) {
    return ferrule_judged("28 mm", "15 mm", false, "inside_diameter = \"" + diameter + "\"");
  };
  keeps_silent(inside("26 mm"));
  keeps_silent(inside("16.5 mm"));
  refused(inside("16.4 mm"), Problem::wall_too_thin);
  const auto loose = inside("26.1 mm");
  CHECK(to_paste(refused(loose, Problem::ferrule_disagrees)).front() == "\"26.0 mm\"");
  refused(inside("28 mm"), Problem::ferrule_disagrees);
}

TEST_CASE("a ferrule is not longer than the handle") {
  keeps_silent(ferrule_judged("40 mm", "110 mm"));
  const auto said = ferrule_judged("40 mm", "110.1 mm");
  CHECK(said.errors() == 1);
  refused(said, Problem::ferrule_disagrees);
}

TEST_CASE("a seat that outgrows its tolerance in use is noted with what to turn it to") {
  // 26 × 0.118 M/(0.3 − 0.118 × 0.3): 1.391 mm at 12 %, which is 11.59 mm a whole; 0.5 mm at 4.31 %.
  keeps_silent(use_judged(awl_and("[use]\ndriest = \"1 %\"\ndampest = \"4.3 %\"")));
  const auto grows = use_judged(awl_and("[use]\ndriest = \"1 %\"\ndampest = \"4.4 %\""));
  const Diagnostic& said = about(grows, Problem::size_in_use_grows);
  CHECK(said.severity == Severity::note);
  CHECK(said.at.line > 0);
  // At 12 %: 26/(1 + 1.391/26) − 0.5 = 24.1797 mm, rounded down.
  const auto at_12 = use_judged(awl_and("[use]\ndampest = \"12 %\""));
  const Diagnostic& damp = about(at_12, Problem::size_in_use_grows);
  CHECK(damp.hint_text().find("24.17 mm") != std::string::npos);
  CHECK(damp.message_text().find("1.40 mm") != std::string::npos);
  // Nearly every seat grows by the standard place of use: those who say nothing of theirs are not told.
  keeps_silent(use_judged(awl()));
}

TEST_CASE("the driest place of use is not damper than the dampest, and the hint mends it") {
  for (const std::string use :
       {"driest = \"14.26 %\"", "dampest = \"4.26 %\"", "driest = \"9 %\"\ndampest = \"8.99 %\""}) {
    CAPTURE(use);
    const auto said = use_judged(awl_and("[use]\n" + use));
    const std::string hint = refused(said, Problem::keys_disagree).hint_text();
    const std::string key = hint.substr(0, hint.find(' '));
    const bool replaces = use.find(key + " = ") != std::string::npos;
    const std::string mended = replaces ? "driest = \"9 %\"\n" + hint : use + "\n" + hint;
    CHECK(found(use_judged(awl_and("[use]\n" + mended)), Problem::keys_disagree) == nullptr);
  }
  CHECK(found(use_judged(awl_and("[use]\ndriest = \"9 %\"\ndampest = \"9 %\"")), Problem::keys_disagree) == nullptr);
}
