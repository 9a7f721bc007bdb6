#include "plan/part/thread_shear.h"
#include "plan/figure/working.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "plan/tables/threads.h"
#include "planning.h"

using namespace blankwright;

namespace {

/// In square inches per inch of engagement.
double internal(std::string_view written) {
  return internal_shear_area(thread_of(written), term(Term::enters, 1 * inch)).value() / inch2;
}
double external(std::string_view written) {
  return external_shear_area(thread_of(written), term(Term::enters, 1 * inch)).value() / inch2;
}

}  // namespace

// The limits printed in ASME B1.1 are rounded, the largest minor diameter of the hole to 0.001 in. Half of that moves
// the external shear area of 1/4-20 by 0.003 in² per inch: hence the tolerances. The formulas' unrounded limits lie
// on the safe side here.

TEST_CASE("shear areas of unified threads are those of the federal standard") {
  // FED-STD-H28/2B, in² per inch of engagement, 2A in 2B: 1/4-20 as tabled, from memory; 3/8-16 by its formula from
  // the printed limits.
  struct Row {
    std::string_view thread;
    double on_stud, in_hole;
  };
  for (const Row& row : {Row{"1/4-20", 0.368, 0.539}, Row{"3/8-16", 0.576, 0.828}}) {
    CAPTURE(row.thread);
    CHECK(std::abs(external(row.thread) - row.on_stud) <= 0.003);
    CHECK(std::abs(internal(row.thread) - row.in_hole) <= 0.003);
    CHECK(external(row.thread) <= row.on_stud + 6e-4);
    CHECK(internal(row.thread) <= row.in_hole + 6e-4);
  }
}

TEST_CASE("a stud breaks before threads of its own strength strip over the published length") {
  // Machinery's Handbook, formula 1: Le = 2 At/(π Kn (1/2 + 0.57735 n (Es − Kn))), that is 2 At over the external
  // shear area per inch. 1/4-20: 0.173 in; 3/8-16: 0.269 in.
  CHECK(std::abs(2 * 0.0318 / external("1/4-20") - 0.173) <= 0.0015);
  CHECK(std::abs(2 * 0.0775 / external("3/8-16") - 0.269) <= 0.0015);
}

TEST_CASE("a cold-worked stainless stud strips free-cutting brass") {
  // Machinery's Handbook, J = (ASs × strength of the stud)/(ASn × strength of the hole): 3/8-16, 100 ksi in 55 ksi of
  // C36000: 1.265, by the printed limits.
  CHECK(std::abs(external("3/8-16") * 100 / (internal("3/8-16") * 55) - 1.265) <= 1.265 * 0.003 / 0.576);
}

TEST_CASE("metric shear areas are what is left of the cylinder between the gaps") {
  // Counted without the formula: over one pitch, the thread fills the cylinder at a diameter by P/2 at the pitch
  // diameter, and by 2 tan 30° a radius more below it. M8 6g/6H, limits of ISO 965-1 (from memory): Ds 7.760,
  // En 7.348, Kn 6.912, Es 7.042 mm. The gap between the worst stud and hole is taken off the flank of each.
  struct Sizes {
    double ds, en, kn, es;
  };
  const Sizes m8{7.760, 7.348, 6.912, 7.042};
  const double filled_in_hole = 1.25 / 2 + 2 * std::tan(std::numbers::pi / 6) * (m8.ds - m8.en) / 2;
  const double filled_on_stud = 1.25 / 2 + 2 * std::tan(std::numbers::pi / 6) * (m8.es - m8.kn) / 2;
  const Length engaged = 10 * mm;
  const double turns = 10 / 1.25;
  CHECK(internal_shear_area(thread_of("M8"), term(Term::enters, engaged)).value() / mm2 ==
        doctest::Approx(turns * std::numbers::pi * m8.ds * filled_in_hole).epsilon(0.003));
  CHECK(external_shear_area(thread_of("M8"), term(Term::enters, engaged)).value() / mm2 ==
        doctest::Approx(turns * std::numbers::pi * m8.kn * filled_on_stud).epsilon(0.003));
}

TEST_CASE("twice the engagement shears over twice the area") {
  for (const char* written : {"M4", "M12x1.25", "#10-24", "1/2-20"}) {
    const Thread t = thread_of(written);
    CHECK(internal_shear_area(t, term(Term::enters, 12 * mm)).value() /
              internal_shear_area(t, term(Term::enters, 6 * mm)).value() ==
          doctest::Approx(2));
    CHECK(internal_shear_area(t, term(Term::enters, 6 * mm)).value() >
          external_shear_area(t, term(Term::enters, 6 * mm)).value());
  }
}
