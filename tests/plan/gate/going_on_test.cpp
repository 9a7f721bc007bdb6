#include "plan/gate/going_on.h"

#include <doctest/doctest.h>

#include "diagnose/says_common.h"

using namespace blankwright;

namespace {

BlankState at_stage(Stage stage) {
  BlankState blank;
  blank.id = BlankId::nth(0);
  blank.stage = stage;
  return blank;
}

bool goes_on(Stage stage, EntryKind kind) {
  Entry entry;
  entry.kind = kind;
  return passes_gates(at_stage(stage), entry);
}

Judged judged(Gate gate, Verdict verdict, const std::string& reason, std::optional<Instant> from = {}) {
  return {gate, verdict, say(says::as_it_is, reason), {}, from};
}

using Blanks = std::vector<std::vector<Judged>>;

constexpr Instant noon{std::chrono::seconds{1'800'000'000}};
using std::chrono::hours;

}  // namespace

TEST_CASE("what cannot be undone passes a gate, what is only measured or told does not") {
  CHECK(goes_on(Stage::begun, EntryKind::into_bath));
  CHECK(goes_on(Stage::wet, EntryKind::into_oven));
  CHECK(goes_on(Stage::in_oven, EntryKind::out_of_oven));
  CHECK(goes_on(Stage::cured, EntryKind::squared));
  CHECK(goes_on(Stage::squared, EntryKind::bored));
  CHECK(goes_on(Stage::stud_set, EntryKind::turned));
  CHECK(goes_on(Stage::inspected, EntryKind::sent));
  for (const EntryKind kind : {EntryKind::weighed, EntryKind::measured, EntryKind::sealed, EntryKind::graded,
                               EntryKind::promised, EntryKind::scrapped}) {
    CHECK_FALSE(goes_on(Stage::cured, kind));
  }
}

TEST_CASE("soaked again, and measured again, a blank does what its gate asks for") {
  CHECK_FALSE(goes_on(Stage::wet, EntryKind::into_bath));
  CHECK_FALSE(goes_on(Stage::bored, EntryKind::bored));
  CHECK_FALSE(goes_on(Stage::stud_set, EntryKind::stud_measured));
  CHECK_FALSE(goes_on(Stage::inspected, EntryKind::inspected));
  CHECK(goes_on(Stage::bored, EntryKind::stud_measured));  // that is a step, and not the bore again
}

TEST_CASE("each gate that held is named with what it said") {
  CHECK_FALSE(went_against({}).has_value());
  const std::vector<Judged> gates{judged(Gate::dry, Verdict::waits, "not weighed yet"),
                                  judged(Gate::graded, Verdict::goes_on, "go on"),
                                  judged(Gate::axis, Verdict::held, "the form lies outside")};
  const auto objection = went_against(gates);
  CHECK(objection->words ==
        "went on against its check (dry): not weighed yet; went on against its check (axis): HOLD: the form lies "
        "outside");
  CHECK(objection->verdict == Verdict::held);
  CHECK(went_against(std::span{gates}.first(2))->verdict == Verdict::waits);
}

TEST_CASE("what went against a gate stands as long as that gate says nothing else") {
  const std::vector<Judged> then{judged(Gate::cure, Verdict::held, "nothing shows it"),
                                 judged(Gate::axis, Verdict::held, "the form lies outside")};
  CHECK(stands_against(then, {})->words == went_against(then)->words);
  const std::vector<Judged> cut{judged(Gate::cure, Verdict::goes_on, "cured: one was cut open")};
  CHECK(stands_against(then, cut)->words == "went on against its check (axis): HOLD: the form lies outside");
  CHECK_FALSE(stands_against(then, then).has_value());  // both tell it themselves
}

TEST_CASE("a load comes out by the blank that needs longest") {
  CHECK_FALSE(judge_load({}).has_value());
  const std::vector<Judged> cured{judged(Gate::resin, Verdict::waits, "weigh it"),
                                  judged(Gate::cure, Verdict::goes_on, "cured")};
  const std::vector<Judged> early{judged(Gate::cure, Verdict::waits, "early", noon)};
  const std::vector<Judged> late{judged(Gate::cure, Verdict::waits, "late", noon + hours{1})};
  CHECK(text(judge_load(Blanks{cured})->reason) == "cured");
  CHECK(text(judge_load(Blanks{cured, early})->reason) == "early");
  CHECK(text(judge_load(Blanks{late, cured, early})->reason) == "late");
  CHECK(text(judge_load(Blanks{early, late})->reason) == "late");
  const std::vector<Judged> unknown{judged(Gate::cure, Verdict::waits, "nobody knows when")};
  CHECK(text(judge_load(Blanks{unknown, late, cured})->reason) == "nobody knows when");
  CHECK(text(judge_load(Blanks{late, unknown})->reason) == "nobody knows when");
}
