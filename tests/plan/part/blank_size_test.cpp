#include "plan/part/blank_size.h"
#include "plan/figure/figure.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "planning.h"
#include "random_numbers.h"

using namespace blankwright;

namespace {

AllowanceFacts allowances() {
  AllowanceFacts a;
  a.finish = given(1.5 * mm);
  a.bow = given(0.5 * mm);
  a.section_tolerance = given(0.5 * mm);
  a.squaring = given(3 * mm);
  a.planing = given(1 * mm);
  a.saw_increment = given(1 * mm);
  a.seat_facing = given(3 * mm);
  a.end_squaring = given(4 * mm);
  a.tail_waste = given(12 * mm);
  return a;
}

BlankFacts blank_given(Length section, Length length, SectionState state) {
  return {.section = given(section), .length = given(length), .state = given(state), .place = {}};
}

}  // namespace

TEST_CASE("the blank of a handle worked out by hand is the one to saw") {
  const FinishedForm form = awl_form();
  const AllowanceFacts a = allowances();
  const BlankSize size = blank_size({.form = form,
                                     .axis = {.offset = 0.75 * mm, .tilt = 0.02},
                                     .allowances = a,
                                     .tangential = 11.8 * percent,
                                     .moisture = given(9 * percent)})
                             .value;
  // D + 2 z t: 26 at the seat, 30 + 1.2 at 30 mm, 34 + 3.2 at 80 mm, 20 + 4.4 at the tail.
  const double needed = 34 + 2 * 1.5 + 2 * 0.5 + 2 * (0.75 + 80 * 0.02) + 0.5;  // 43.2
  const double s = 1 - (1 - 0.118) / (1 - 0.118 * (30 - 9) / 30);               // 0.03859
  const double wanted = (needed + 3) / (1 - s) + 1;                             // 49.05, so 50 is sawn
  CHECK(wanted > 49);
  CHECK(wanted < 50);
  CHECK(size.shrinkage / whole == doctest::Approx(s).epsilon(1e-12));
  CHECK(*size.sawn_section / mm == doctest::Approx(50).epsilon(1e-12));
  CHECK(*size.dry_section / mm == doctest::Approx((50 - 1) * (1 - s)).epsilon(1e-12));
  CHECK(size.squared_section / mm == doctest::Approx((50 - 1) * (1 - s) - 3).epsilon(1e-12));

  // Along the grain: 110 + 3 + 12 = 125 squared; + 4; lengthwise shrinkage 0.2 % green to dry (Wood Handbook ch. 4,
  // 0.1 to 0.2 %, from memory), from 9 % on; 129.18, so 130 is sawn.
  const double lengthwise = 1 - (1 - 0.002) / (1 - 0.002 * (30 - 9) / 30);
  CHECK((110 + 3 + 12 + 4) / (1 - lengthwise) < 130);
  CHECK(*size.sawn_length / mm == doctest::Approx(130).epsilon(1e-12));
  CHECK(size.squared_length / mm == doctest::Approx(130 * (1 - lengthwise) - 4).epsilon(1e-12));
}

TEST_CASE("burl, with end grain on all faces, shrinks lengthwise as it does across") {
  // Common practice, no source: its grain has no direction. 110 + 3 + 12 squared, + 4, over 1 − 0.03859 as above:
  // 134.2, so 135 is sawn; of straight grain it is 130.
  const FinishedForm form = awl_form();
  const AllowanceFacts a = allowances();
  const BlankSizeInput in{.form = form,
                          .axis = {.offset = 0.75 * mm, .tilt = 0.02},
                          .allowances = a,
                          .tangential = 11.8 * percent,
                          .moisture = given(9 * percent),
                          .end_grain_all_round = true};
  const BlankSize size = blank_size(in).value;
  CHECK(*size.sawn_length / mm == doctest::Approx(135));
  CHECK(*size.dry_length / mm == doctest::Approx(135 * (1 - 0.03859)).epsilon(1e-5));
  const BlankSize given_sawn = given_blank_size(in, blank_given(50 * mm, 135 * mm, SectionState::sawn)).value;
  CHECK(*given_sawn.dry_length / mm == doctest::Approx(135 * (1 - 0.03859)).epsilon(1e-5));

  const std::string straight = awl(), shop = bench();
  const std::string burl = with(straight, "[wood]\n", "[wood]\ncondition = \"burl\"\n");
  CHECK(in_mm(plan_of(burl, shop), Figure::blank_sawn_length) >
        in_mm(plan_of(straight, shop), Figure::blank_sawn_length) + 1);
}

TEST_CASE("what is left when a sawn blank is carried down is never less than what was needed") {
  RandomNumbers random{2};
  for (int trial = 0; trial < 600; ++trial) {
    CAPTURE(trial);
    const double length = random.between(20, 250);
    const FinishedForm form{{{0 * mm, random.between(8, 60) * mm},
                             {0.3 * length * mm, random.between(8, 60) * mm},
                             {0.7 * length * mm, random.between(8, 60) * mm},
                             {length * mm, random.between(8, 60) * mm}},
                            random.yes()};
    AllowanceFacts a = allowances();
    a.planing = given(random.between(0, 5) * mm);
    a.squaring = given(random.between(0, 6) * mm);
    a.saw_increment = given(random.yes() ? inch / 16 : random.between(0.1, 12) * mm);
    const double e = random.between(0, 2);
    const double t = random.between(0, 0.04);
    const BlankSize size = blank_size({.form = form,
                                       .axis = {.offset = e * mm, .tilt = t},
                                       .allowances = a,
                                       .tangential = random.between(0, 14) * percent,
                                       .moisture = given(random.between(0, 80) * percent)})
                               .value;
    double needed = 0;
    for (int i = 0; i <= 4000; ++i) {
      const double z = length * i / 4000;
      needed = std::max(needed, form.diameter(z * mm) / mm + 2 * 1.5 + 2 * 0.5 + 2 * (e + z * t) + 0.5);
    }
    const double slack = 1e-5;  // mm: rounding up forgives a millionth of an increment
    CHECK(size.squared_section / mm >= needed - slack);
    CHECK(size.squared_length / mm >= length + 3 + 12 - slack);
    // And no increment too much: one less, carried down, would lie below what is needed.
    const double lost = 1 - size.shrinkage / whole;
    CHECK((size.squared_section - a.saw_increment.value * lost) / mm < needed + 0.01);
    const double increments = *size.sawn_section / a.saw_increment.value;
    CHECK(std::abs(increments - std::round(increments)) < 1e-9);
  }
}

TEST_CASE("wood shrinks from its moisture to oven-dry as published") {
  // Wood Handbook ch. 13, ΔD = D (MF − MI)/(30 × 100/S − 30 + MI): two published pairs of sizes of the same piece;
  // both have the same size when oven-dry. Printed to 0.01 mm; 0.02 allowed by the source.
  struct Row {
    Share tangential;
    Length first;
    Share at_first;
    Length second;
    Share at_second;
  };
  const Row rows[] = {{9.9 * percent, 50 * mm, 30 * percent, 46.37 * mm, 8 * percent},
                      {7.8 * percent, 50 * mm, 12 * percent, 49.18 * mm, 6 * percent}};
  const FinishedForm form = awl_form();
  AllowanceFacts a = allowances();
  a.planing = given(0 * mm);
  for (const Row& row : rows) {
    CAPTURE(row.first / mm);
    const auto dry = [&](Length section, Share moisture) {
      return given_blank_size({.form = form,
                               .axis = {},
                               .allowances = a,
                               .tangential = row.tangential,
                               .moisture = given(moisture)},
                              blank_given(section, 140 * mm, SectionState::sawn))
                 .value.dry_section.value() /
             mm;
    };
    CHECK(std::abs(dry(row.first, row.at_first) - dry(row.second, row.at_second)) <= 0.02);
    // Above the fibre saturation point of 30 % nothing shrinks: as wet as it may be, the dry size is the same.
    CHECK(dry(50 * mm, 30 * percent) == doctest::Approx(dry(50 * mm, 120 * percent)).epsilon(1e-12));
    CHECK(dry(50 * mm, 30 * percent) == doctest::Approx(50 * (1 - row.tangential / whole)).epsilon(1e-12));
  }
}

TEST_CASE("a blank that is there already is carried on from the state that it was measured in") {
  const FinishedForm form = awl_form();
  const AllowanceFacts a = allowances();
  const BlankSizeInput in{.form = form,
                          .axis = {.offset = 0.75 * mm, .tilt = 0.02},
                          .allowances = a,
                          .tangential = 8 * percent,
                          .moisture = given(40 * percent)};
  const BlankSize sawn = given_blank_size(in, blank_given(50 * mm, 140 * mm, SectionState::sawn)).value;
  CHECK(*sawn.sawn_section / mm == doctest::Approx(50));
  CHECK(*sawn.dry_section / mm == doctest::Approx((50 - 1) * 0.92).epsilon(1e-12));
  CHECK(sawn.squared_section / mm == doctest::Approx((50 - 1) * 0.92 - 3).epsilon(1e-12));
  CHECK(sawn.squared_length / mm == doctest::Approx(140 * 0.998 - 4).epsilon(1e-12));

  const BlankSize dry = given_blank_size(in, blank_given(45 * mm, 135 * mm, SectionState::dry)).value;
  CHECK_FALSE(dry.sawn_section.has_value());
  CHECK_FALSE(dry.sawn_length.has_value());
  CHECK(*dry.dry_section / mm == doctest::Approx(45));
  CHECK(dry.squared_section / mm == doctest::Approx(42).epsilon(1e-12));
  CHECK(dry.squared_length / mm == doctest::Approx(131).epsilon(1e-12));

  const BlankSize squared = given_blank_size(in, blank_given(40 * mm, 128 * mm, SectionState::squared)).value;
  CHECK_FALSE(squared.sawn_section.has_value());
  CHECK_FALSE(squared.dry_section.has_value());
  CHECK(squared.squared_section / mm == doctest::Approx(40));
  CHECK(squared.squared_length / mm == doctest::Approx(128));
}
