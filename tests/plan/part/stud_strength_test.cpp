#include "plan/part/stud_strength.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "planning.h"

using namespace blankwright;
using std::numbers::pi;

namespace {

/// An order's stud with 36 mm in the wood and a bore of 8.5 mm, unless the test says otherwise.
struct StudCase {
  StudFacts facts;
  GlueFacts glue;
  bool glued = true;
  Length bore = 8.5 * mm;
  std::optional<Force> preload;

  explicit StudCase(std::string_view thread, Length enters = 14 * mm) {
    facts.thread = given(thread_of(thread));
    facts.enters = given(enters);
  }
  Worked<StudStrength> worked() const {
    return stud_strength({.thread = facts.thread.value,
                          .glued = glued,
                          .bore = bore,
                          .embedded = 36 * mm,
                          .facts = facts,
                          .glue = glue,
                          .preload = preload});
  }
  StudStrength strength() const { return worked().value; }
};

}  // namespace

TEST_CASE("without loads only what the bond bears is known") {
  const StudStrength s = StudCase{"M8"}.strength();
  // A ring of shear at the radius d/2: force π d L τ times d/2, 2 MPa on 8 mm and 36 mm: 7.24 N m.
  CHECK(*s.bond_torque / newton_metre == doctest::Approx(pi * 8 * 36 * 2 * 4 / 1000).epsilon(1e-12));
  CHECK_FALSE(s.bond_safety.has_value());
  CHECK_FALSE(s.torque_safety.has_value());
  CHECK_FALSE(s.bending.has_value());
  CHECK_FALSE(s.yield_strength.has_value());
  CHECK_FALSE(s.head_strip.has_value());
  CHECK_FALSE(s.tightening.has_value());
}

TEST_CASE("torque twists the bond where it is weaker") {
  StudCase c{"M8"};
  c.glue.wood_shear_strength = given(1 * megapascal);
  // At the bore: 8.5²/8² × 1 MPa is less than 2 MPa.
  CHECK(*c.strength().bond_torque / newton_metre == doctest::Approx(pi * 8.5 * 8.5 * 36 / 2 / 1000).epsilon(1e-12));
  c.glue.wood_shear_strength = given(1.8 * megapascal);  // 8.5² × 1.8 = 130.05 > 8² × 2 = 128
  CHECK(*c.strength().bond_torque / newton_metre == doctest::Approx(pi * 64 * 36 * 2 / 2 / 1000).epsilon(1e-12));
  c.facts.torque = given(2 * newton_metre);
  CHECK(*c.strength().torque_safety == doctest::Approx(pi * 64 * 36 / 2000).epsilon(1e-12));
  c.glued = false;
  CHECK_FALSE(c.strength().bond_torque.has_value());
  CHECK_FALSE(c.strength().torque_safety.has_value());
}

TEST_CASE("a load of nothing has no safety") {
  StudCase c{"M8"};
  c.facts.pull = given(0 * newton);
  c.facts.torque = given(0 * newton_metre);
  c.facts.side_load = given(0 * newton);
  c.facts.lever = given(80 * mm);
  c.facts.grade = given(std::string{"8.8"});
  c.facts.part_shear_strength = given(200 * megapascal);
  const StudStrength s = c.strength();
  CHECK_FALSE(s.bond_safety.has_value());
  CHECK_FALSE(s.torque_safety.has_value());
  CHECK_FALSE(s.bending_safety.has_value());
  CHECK_FALSE(s.head_strip_safety.has_value());
}

TEST_CASE("a side load bends the stud at the seat as a round bar of its minor diameter") {
  // Stress = M r/I, and I summed up in strips of the circle: no formula for it. d3 of M8 is 6.466 mm (ISO 898-1, by
  // its formula); 100 N at 80 mm.
  const double r = 6.466 / 2;
  const int strips = 20000;
  double second_moment = 0;
  for (int i = 0; i < strips; ++i) {
    const double y = r * ((2.0 * i + 1) / strips - 1);
    second_moment += 2 * std::sqrt(r * r - y * y) * y * y * (2 * r / strips);
  }
  StudCase c{"M8"};
  c.facts.side_load = given(100 * newton);
  c.facts.lever = given(80 * mm);
  CHECK(*c.strength().bending / megapascal == doctest::Approx(8000 * r / second_moment).epsilon(5e-4));
  CHECK_FALSE(c.strength().bending_safety.has_value());
  c.facts.grade = given(std::string{"A2-70"});  // 450 MPa: ISO 3506-1, from memory
  CHECK(*c.strength().bending_safety == doctest::Approx(450 / (8000 * r / second_moment)).epsilon(5e-4));
  c.facts.yield_strength = given(300 * megapascal);
  CHECK(*c.strength().yield_strength / megapascal == doctest::Approx(300));
  c.facts.lever.reset();
  CHECK_FALSE(c.strength().bending.has_value());
}

TEST_CASE("the client's thread strips at its shear area times its metal's strength") {
  // FED-STD-H28/2B: 3/8-16, 0.828 in² per inch; C36000 rod, typical shear strength 32 ksi: 0.5 in bear 13250 lbf.
  StudCase c{"3/8-16", 0.5 * inch};
  c.facts.part_shear_strength = given(32000 * psi);
  CHECK(*c.strength().head_strip / pound_force == doctest::Approx(0.828 * 0.5 * 32000).epsilon(0.003 / 0.828));
  c.facts.pull = given(1000 * pound_force);
  CHECK(*c.strength().head_strip_safety == doctest::Approx(0.828 * 0.5 * 32).epsilon(0.003 / 0.828));
  // No more than 1.5 diameters are counted: 0.5625 in.
  c.facts.enters = given(3 * inch);
  CHECK(*c.strength().head_strip / pound_force == doctest::Approx(0.828 * 0.5625 * 32000).epsilon(0.003 / 0.828));
}

TEST_CASE("a soft stud strips before the client's hard part") {
  // 3/8-16: 0.576 in² per inch on the stud; C36000 O60, 48 ksi (ASTM B16), sheared at 1/√3 of it.
  StudCase c{"3/8-16", 0.5 * inch};
  c.facts.part_shear_strength = given(60000 * psi);
  c.facts.grade = given(std::string{"brass"});
  CHECK(*c.strength().head_strip / pound_force ==
        doctest::Approx(0.576 * 0.5 * 48000 / std::sqrt(3)).epsilon(0.004 / 0.576));
  c.facts.grade = given(std::string{"12.9"});
  CHECK(*c.strength().head_strip / pound_force == doctest::Approx(0.828 * 0.5 * 60000).epsilon(0.003 / 0.828));
}

TEST_CASE("the pull of tightening stresses the stud, and the client's thread where it is the larger") {
  // 6250 N on 36.6 mm² (ISO 898-1): 170.8 MPa.
  StudCase c{"M8"};
  c.preload = 6250 * newton;
  c.facts.pull = given(600 * newton);
  c.facts.part_shear_strength = given(100 * megapascal);
  const StudStrength s = c.strength();
  CHECK(*s.tightening / megapascal == doctest::Approx(6250 / 36.6).epsilon(0.05 / 36.6));
  CHECK(*s.head_strip / newton / *s.head_strip_safety == doctest::Approx(6250));
  c.preload = 60 * newton;
  const StudStrength pulled = c.strength();
  CHECK(*pulled.head_strip / newton / *pulled.head_strip_safety == doctest::Approx(600));
  CHECK(*pulled.bond_safety == doctest::Approx(pi * 8 * 36 * 2 / 600));
}

TEST_CASE("the working shows each figure once, as it was computed") {
  StudCase c{"M8"};
  c.facts.pull = given(600 * newton);
  c.facts.torque = given(2 * newton_metre);
  c.preload = 625 * newton;
  c.facts.side_load = given(100 * newton);
  c.facts.lever = given(80 * mm);
  c.facts.grade = given(std::string{"8.8"});
  c.facts.part_shear_strength = given(200 * megapascal);
  const auto worked = c.worked();
  const Figure in_order[] = {Figure::stud_bond_torque,       Figure::stud_bond_safety,
                             Figure::stud_torque_safety,     Figure::stud_bending_stress,
                             Figure::stud_bending_safety,    Figure::stud_head_strip,
                             Figure::stud_head_strip_safety, Figure::stud_tightening_stress};
  REQUIRE(worked.steps.size() == std::size(in_order));
  for (std::size_t i = 0; i < worked.steps.size(); ++i) CHECK(worked.steps.at(i).figure == in_order[i]);
  CHECK(symbolic(*worked.steps.at(3).expression) == "32 × side load × lever / (π × d3 × d3 × d3)");
}
