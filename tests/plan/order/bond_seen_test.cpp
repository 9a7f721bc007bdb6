#include "plan/order/bond_seen.h"

#include <doctest/doctest.h>

#include "planning.h"

using namespace blankwright;

TEST_CASE("a pulled stud tells of the bond over its own surface and over the bore's") {
  const Order order = order_of(awl());  // an M8 stud
  OrderPlan plan = plan_of(awl(), bench());
  plan.stud.embedded = 25 * mm;
  plan.bore.drill.diameter = 9 * mm;
  const BondSeen seen = bond_seen(4 * kilonewton, order, plan);
  // By hand: 4000 N over π · 8 · 25 = 628.3 mm² are 6.366 MPa, over π · 9 · 25 = 706.9 mm² 5.659 MPa.
  CHECK(seen.shear / megapascal == doctest::Approx(6.366).epsilon(1e-4));
  CHECK(seen.wood_shear / megapascal == doctest::Approx(5.659).epsilon(1e-4));
  CHECK(seen.pulled == 1);
}

TEST_CASE("of several pulled studs the weakest counts, and how many they were") {
  const BondSeen weak{1, 3 * megapascal, 2 * megapascal}, strong{1, 5 * megapascal, 4 * megapascal};
  for (const BondSeen& last : {weak, strong}) {
    const BondSeen all = with_one_more(with_one_more(with_one_more({}, strong), weak), last);
    CHECK(all.shear == 3 * megapascal);
    CHECK(all.wood_shear == 2 * megapascal);
    CHECK(all.pulled == 3);
  }
}
