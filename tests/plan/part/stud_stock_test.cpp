// What studs and rods in stock give; worked out by hand.

#include <doctest/doctest.h>

#include "plan/part/stud_stock.h"
#include "planning.h"

using namespace blankwright;

namespace {

StudStock row(const char* thread, double length_mm, int count) {
  return {given(thread_of(thread)), given(length_mm * mm), given(count)};
}

}  // namespace

TEST_CASE("a rod gives as many studs as fit with a kerf between each two") {
  const std::vector<StudStock> rod{row("M8", 1000, 1)};
  const StudsWanted wanted{thread_of("M8"), 70 * mm, 99};
  // 13 × 70 + 12 × 3 = 946, 14 × 70 + 13 × 3 = 1019
  CHECK(studs_from_stock({&wanted, 1}, rod, 3 * mm) == std::vector{13});
  const StudsWanted few{thread_of("M8"), 70 * mm, 5};
  CHECK(studs_from_stock({&few, 1}, rod, 3 * mm) == std::vector{5});
  const StudsWanted exact{thread_of("M8"), 1000 * mm, 2};
  CHECK(studs_from_stock({&exact, 1}, rod, 3 * mm) == std::vector{1});
  const StudsWanted left_hand{thread_of("M8-LH"), 70 * mm, 5};
  CHECK(studs_from_stock({&left_hand, 1}, rod, 3 * mm) == std::vector{0});
}

TEST_CASE("orders share the stock, and long studs are cut first, each from the shortest piece that does") {
  const std::vector<StudStock> stock{row("M8", 200, 1), row("M8", 100, 2), row("M10", 60, 1)};
  const std::vector<StudsWanted> wanted{
      {thread_of("M8"), 60 * mm, 3}, {thread_of("M10"), 60 * mm, 2}, {thread_of("M8"), 95 * mm, 2}};
  // The two of 95 take the two pieces of 100; 200 gives three of 60 with two kerfs: 186.
  CHECK(studs_from_stock(wanted, stock, 3 * mm) == std::vector{3, 1, 2});
}
