#include "plan/wood/judge_cutting.h"
#include "diagnose/problem.h"

#include <doctest/doctest.h>

#include <cmath>

#include "judging.h"
#include "planning.h"

using namespace blankwright;

namespace {

/// The awl handle with boards; three blanks of 30 × 30 × 200 mm wanted unless said.
struct CutJudged {
  Order order;
  Shop shop;
  Diagnostics said;
  bool sense = false;
  CuttingPlan plan;
};

CutJudged cut_judged(const std::string& boards, int count = 3, bool witness = false) {
  const std::string job = awl() + "boards = [" + boards + "]\n";
  CutJudged out{order_of(job),
                shop_of(with(bench(), "saw_increment", "kerf = \"3 mm\"\nend_trim = \"20 mm\"\nsaw_increment")),
                {},
                false,
                {}};
  out.sense = boards_make_sense(out.order, out.said);
  if (!out.sense) return out;
  out.plan = cutting_plan(cutting_input(out.order, out.shop, 30 * mm, 200 * mm, count, witness));
  judge_cutting(out.plan, out.order, out.shop, out.said);
  return out;
}

std::string board(const std::string& name, const std::string& length, const std::string& defects = "",
                  const std::string& width = "100 mm", const std::string& thickness = "30 mm") {
  return "{name = \"" + name + "\", length = \"" + length + "\", width = \"" + width + "\", thickness = \"" +
         thickness + "\", defects = [" + defects + "]},";
}

std::string defect(const std::string& from, const std::string& to) {
  return "{from = \"" + from + "\", to = \"" + to + "\"}";
}

void boards_refused(const std::string& boards, Problem problem, const std::string& mark, const std::string& message) {
  CAPTURE(boards);
  const CutJudged j = cut_judged(boards);
  CAPTURE(rendered(j.said));
  CHECK_FALSE(j.sense);
  REQUIRE(j.said.all().size() == 1);
  const Diagnostic& said = j.said.all().front();
  CHECK(said.severity == Severity::error);
  CHECK(said.problem == problem);
  CHECK(marked(said.at) == mark);
  CHECK(said.message_text() == message);
}

}  // namespace

TEST_CASE("a defect that ends before it begins or lies beside its board is refused") {
  const auto in_board = [](const std::string& rectangle) { return board("B1", "400 mm", rectangle); };
  CHECK(cut_judged(in_board(defect("0 mm", "400 mm"))).sense);
  CHECK(cut_judged(in_board("{from = \"10 mm\", to = \"20 mm\", near = \"0 mm\", far = \"100 mm\"}")).sense);
  boards_refused(in_board(defect("50 mm", "50 mm")), Problem::not_a_defect, "\"50 mm\"",
                 "defect ends where it begins or before: `to` has to be more than `from`");
  boards_refused(in_board(defect("390 mm", "401 mm")), Problem::not_a_defect, "\"401 mm\"",
                 "defect reaches beyond its board: `to` is more than the board's length");
  boards_refused(in_board("{from = \"10 mm\", to = \"20 mm\", near = \"60 mm\", far = \"59 mm\"}"),
                 Problem::not_a_defect, "\"59 mm\"",
                 "defect ends where it begins or before: `far` has to be more than `near`");
  boards_refused(in_board("{from = \"10 mm\", to = \"20 mm\", near = \"60 mm\", far = \"101 mm\"}"),
                 Problem::not_a_defect, "\"101 mm\"",
                 "defect reaches beyond its board: `far` is more than the board's width");
  boards_refused(in_board("{from = \"10 mm\", to = \"20 mm\", near = \"60 mm\"}"), Problem::not_a_defect, "\"60 mm\"",
                 "defect has `near` without `far`");
  boards_refused(in_board("{from = \"10 mm\", to = \"20 mm\", far = \"60 mm\"}"), Problem::not_a_defect, "\"60 mm\"",
                 "defect has `far` without `near`");
}

TEST_CASE("two boards with one name are refused") {
  boards_refused(board("B1", "400 mm") + board("B2", "400 mm") + board("B1", "500 mm"), Problem::keys_disagree,
                 "\"B1\"", "two boards are called \"B1\"; a blank could not be traced to its board");
}

TEST_CASE("boards that give too few are warned of, with the board that is missing") {
  // 240 long less two trims of 20 is one length, 100 wide are three strips.
  CHECK(cut_judged(board("B1", "240 mm")).said.all().empty());
  const CutJudged j = cut_judged(board("B1", "240 mm") + board("B2", "900 mm", "", "100 mm", "29 mm") +
                                     board("B3", "239 mm") + board("B4", "900 mm", "", "29 mm"),
                                 7);
  REQUIRE(j.said.all().size() == 1);
  const Diagnostic& said = j.said.all().front();
  CHECK(said.problem == Problem::boards_too_few);
  CHECK(said.severity == Severity::warning);
  CHECK(marked(said.at) == "\"B1\"");
  // 4·200 + 3·3 + 2·20 = 849
  CHECK(said.message_text() ==
        "boards give 3 of 7 blanks; for the 4 missing it takes a clear board 30.0 mm wide and thick, 849.0 mm long");
  REQUIRE(said.labels.size() == 3);
  CHECK(marked(said.labels[0].at) == "\"29 mm\"");
  CHECK(text(said.labels[0].says) == "too thin for a blank of 30.0 mm × 200.0 mm");
  CHECK(marked(said.labels[1].at) == "\"239 mm\"");
  CHECK(text(said.labels[1].says) == "too short for a blank of 30.0 mm × 200.0 mm");
  CHECK(text(said.labels[2].says) == "too narrow for a blank of 30.0 mm × 200.0 mm");
}

TEST_CASE("the board that is said to be missing is enough") {
  const std::string there = board("B1", "240 mm");
  CHECK(cut_judged(there + board("B2", "849 mm", "", "30 mm"), 7).said.all().empty());
  CHECK_FALSE(cut_judged(there + board("B2", "848 mm", "", "30 mm"), 7).said.all().empty());
}

TEST_CASE("a witness counts as a blank that is wanted") {
  const CutJudged j = cut_judged(board("B1", "240 mm"), 3, true);
  REQUIRE(j.said.all().size() == 1);
  CHECK(j.said.all().front().message_text() ==
        "boards give 3 of 4 blanks, one of them the witness; for the 1 missing it takes a clear board 30.0 mm wide "
        "and thick, 240.0 mm long");
}

TEST_CASE("an order without boards is not judged") { CHECK(cut_judged("").said.all().empty()); }

TEST_CASE("kerf, trim, boards and whole-width defects reach the saw as the files have them") {
  const CutJudged j = cut_judged(board("B1", "400 mm", defect("50 mm", "60 mm")));
  const CuttingInput in = cutting_input(j.order, j.shop, 30 * mm, 200 * mm, 5, true);
  CHECK(in.kerf / mm == doctest::Approx(3));
  CHECK(in.end_trim / mm == doctest::Approx(20));
  CHECK(in.count == 5);
  CHECK(in.witness);
  CHECK_FALSE(in.matched);
  REQUIRE(in.boards.size() == 1);
  CHECK(in.boards.front().name == "B1");
  REQUIRE(in.boards.front().defects.size() == 1);
  const BoardArea& d = in.boards.front().defects.front();
  CHECK(d.near / mm == doctest::Approx(0));
  CHECK(d.far / mm == doctest::Approx(100));
  CHECK(d.from / mm == doctest::Approx(50));
  CHECK(d.to / mm == doctest::Approx(60));
}

TEST_CASE("an inch shop's saw is set in fractions where its file does not say") {
  // A fence's rule has thirty-seconds; common practice, no source.
  const Shop inches = shop_of(order_file("shop-lathe.toml")), metric = shop_of(bench());
  for (const Length set : {inches.allowances.kerf.value, inches.allowances.end_trim.value}) {
    CHECK(set / inch * 32 == doctest::Approx(std::round(set / inch * 32)).epsilon(1e-12));
  }
  CHECK(metric.allowances.kerf.value / mm == doctest::Approx(3));
}
