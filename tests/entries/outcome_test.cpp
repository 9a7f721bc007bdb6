#include "entries/outcome.h"

#include <doctest/doctest.h>

#include "entries/field.h"

using namespace blankwright;

TEST_CASE("what grading, inspection and gauge say stands in the register by the texts that it always had") {
  // The texts of format 1 of the register and of its export: a file that holds them is still read.
  CHECK(name_of(Graded::go_on) == "go-on");
  CHECK(name_of(Graded::fill) == "fill");
  CHECK(name_of(Graded::scrap) == "scrap");
  CHECK(name_of(Outcome::pass) == "pass");
  CHECK(name_of(Outcome::fail) == "fail");
  CHECK(graded_named("scrap") == Graded::scrap);
  CHECK(outcome_named("fail") == Outcome::fail);
  CHECK_FALSE(graded_named("").has_value());
  CHECK_FALSE(outcome_named("Fail").has_value());
  CHECK(facts_of(Field::verdict).words.size() == graded_names.size());
  for (const Field field : {Field::result, Field::thread}) {
    CHECK(facts_of(field).words.size() == outcome_names.size());
  }
}
