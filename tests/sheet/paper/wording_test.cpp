#include "sheet/paper/wording.h"

#include <doctest/doctest.h>

#include "diagnose/says_gate.h"
#include "measure/instant.h"
#include "measure/quantity_text.h"
#include "template_for_test.h"

using namespace blankwright;

TEST_CASE("what gates say is put into the template's words, figures and moments") {
  Template t = template_for_test("A4");
  const Zone vienna = *find_zone("Europe/Vienna");
  const Instant when{std::chrono::seconds{1'809'324'000}};  // 2027-05-03 08:00 in Vienna
  t.gates.texts["resin_masses"] = "{1} wären nötig; {0}, Poren zu {2} voll";
  t.gates.texts["resin_cure"] = "härten: {}";
  t.spelling.decimal_sign = ",";
  const Saying masses =
      say(says::resin_cure, say(says::resin_masses, printed(182.5 * gram, UnitSystem::metric),
                                printed(181.9 * gram, UnitSystem::metric), printed(50.6 * percent)));
  CHECK(text(masses, wording_of(t)) == "härten: 181,9 g wären nötig; 182,5 g, Poren zu 50,6 % voll");
  CHECK(text(masses) == "cure it: 182.5 g, at least 181.9 g; its pores are 50.6 % full");
  const Saying hot = say(says::glue_sets, Moment{vienna, when});
  CHECK(text(hot, wording_of(t)) == "its glue sets until Mon 3 May 08:00");
}
