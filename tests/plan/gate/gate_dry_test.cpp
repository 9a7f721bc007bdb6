#include <doctest/doctest.h>

#include <chrono>
#include <initializer_list>
#include <utility>

#include "gated_blank.h"
#include "plan/gate/gate_dry.h"

using namespace blankwright;

namespace {

using std::chrono::hours;

Drying planned_drying() {
  Drying planned;
  planned.regain = 10 * hour;
  planned.room_moisture = 9 * percent;
  return planned;
}

Dryness dry_of(std::initializer_list<std::pair<int, double>> weighings, int now_h) {
  BlankState blank = begun();
  for (const auto& [at_h, grams] : weighings) {
    blank.dry.push_back({monday + hours{at_h}, grams * gram});
    blank.open_since = blank.dry.back().at;
  }
  const auto gate = dryness(blank, 240 * cm3, planned_drying(), DryingFacts{}, monday + hours{now_h});
  REQUIRE(gate.has_value());
  return *gate;
}

}  // namespace

TEST_CASE("a blank is dry when two weighings at least two hours apart differ by a tenth of a percent at most") {
  // EN 13183-1 clause 6: successive weighings separated by at least 2 h differ by 0.1 % or less (from memory).
  CHECK(dry_of({}, 0).answer == DryAnswer::weigh);
  CHECK(dry_of({{0, 128.00}}, 1).answer == DryAnswer::weigh_again);
  CHECK(dry_of({{0, 128.00}}, 1).weigh_from == monday + hours{2});
  CHECK(dry_of({{0, 128.00}, {1, 128.00}}, 1).answer == DryAnswer::weigh_again);  // too soon to tell
  CHECK(dry_of({{0, 128.20}, {2, 128.00}}, 2).answer == DryAnswer::dry_longer);   // 0.16 %
  CHECK(dry_of({{0, 128.12}, {2, 128.00}}, 2).answer == DryAnswer::dry);          // 0.094 %
  CHECK(dry_of({{0, 128.00}, {2, 128.20}}, 2).answer == DryAnswer::dry_longer);   // it gained: not stable either
  CHECK(dry_of({{0, 128.00}, {2, 128.12}}, 2).answer == DryAnswer::dry);
  CHECK(dry_of({{0, 140.0}, {1, 128.05}, {3, 128.00}}, 3).answer == DryAnswer::dry);
  CHECK_FALSE(dry_of({{0, 128.00}, {2, 128.00}}, 2).holds());
  // 240 cm³ of cell wall, 1530 kg/m³, weigh 367 g (Siau 1984).
  CHECK(dry_of({{0, 366.0}, {2, 366.0}}, 2).answer == DryAnswer::dry);
  CHECK(dry_of({{0, 128.00}, {2, 368.0}}, 2).answer == DryAnswer::too_dense);
  CHECK(dry_of({{0, 128.00}, {2, 368.0}}, 2).holds());
  // Moisture on the dry mass: (140 - 128)/128 = 9.375 %.
  CHECK(*dry_of({{0, 140.0}, {1, 128.05}, {3, 128.00}}, 3).moisture_gone / percent == doctest::Approx(9.375));
}

TEST_CASE("a dry blank that lay open takes up moisture with the square root of time") {
  // 1 % in ten hours, so 0.5 % in a quarter of these, and 2 % in four times as long; Crank (1975), early times.
  const Dryness soon = dry_of({{0, 128.00}, {2, 128.00}}, 2);
  CHECK(*soon.regained / percent == doctest::Approx(0));
  BlankState blank = begun();
  blank.dry = {{monday, 128 * gram}, {monday + hours{2}, 128 * gram}};
  blank.open_since = blank.dry.back().at;
  const auto after = [&](int minutes) {
    return *dryness(blank, 240 * cm3, planned_drying(), DryingFacts{},
                    monday + hours{2} + std::chrono::minutes{minutes});
  };
  CHECK(*after(150).regained / percent == doctest::Approx(0.5));
  CHECK(after(590).answer == DryAnswer::dry);
  CHECK(after(610).answer == DryAnswer::weigh_lain);  // by its time alone, on the early side
  CHECK(*after(40 * 60).regained / percent == doctest::Approx(2));
  CHECK(after(39 * 60).answer == DryAnswer::weigh_lain);
  CHECK(after(41 * 60).answer == DryAnswer::dry_again);  // above 2 % water boils off; common practice, no source
  CHECK(*after(1'000'000).regained / percent == doctest::Approx(9));  // no more than the room gives
  blank.open_since.reset();  // sealed when it had lain open for two and a half hours
  blank.open_before = std::chrono::minutes{150};
  CHECK(*after(1'000'000).regained / percent == doctest::Approx(0.5));
  CHECK_FALSE(after(1'000'000).mostly_sealed);
  // Sealed it takes up 1 % in 200 h: a quarter of it open, so in three quarters of these; common practice, no source.
  blank.sealed_since = blank.dry.back().at + std::chrono::minutes{150};
  CHECK(after(150 + 149 * 60).answer == DryAnswer::dry);
  CHECK(after(150 + 151 * 60).answer == DryAnswer::weigh_lain);
  CHECK(after(150 + 151 * 60).mostly_sealed);
  blank.sealed_before = std::chrono::hours{150};  // and opened again
  blank.sealed_since.reset();
  CHECK(after(1'000'000).answer == DryAnswer::dry);
  blank.open_since = blank.dry.back().at + std::chrono::hours{10'000};
  CHECK(after(10'001 * 60).answer == DryAnswer::weigh_lain);
  blank.stage = Stage::in_bath;
  CHECK_FALSE(dryness(blank, 240 * cm3, planned_drying(), DryingFacts{}, monday).has_value());
}

TEST_CASE("what was taken out too early is not dry because it weighs the same outside") {
  // EN 13183-1 clause 6: between the two weighings it is dried for at least 2 h (from memory).
  BlankState blank = begun();
  blank.into_drying = monday;
  blank.is_drying = true;
  const auto seen = [&] { return *dryness(blank, 240 * cm3, planned_drying(), DryingFacts{}, monday + hours{20}); };
  blank.dry = {{monday - hours{1}, 128 * gram}};
  CHECK(seen().answer == DryAnswer::weigh_again);
  CHECK(*seen().weigh_from == monday + hours{2});
  blank.is_drying = false;
  blank.out_of_drying = monday + hours{1};
  CHECK(seen().answer == DryAnswer::left_oven);
  CHECK(seen().holds());
  blank.dry.push_back({monday + hours{9}, 128 * gram});
  blank.dry.push_back({monday + hours{12}, 128 * gram});
  CHECK(seen().answer == DryAnswer::left_oven);
  // Two hours in the oven, and weighed when it comes out or after.
  blank.out_of_drying = monday + hours{2};
  CHECK(seen().answer == DryAnswer::dry);
  blank.dry.pop_back();
  CHECK(seen().answer == DryAnswer::dry);
  // Weighed in the oven's last hour: that one tells nothing of what it lost after it.
  blank.dry = {{monday + hours{1}, 128 * gram}, {monday + hours{9}, 128 * gram}};
  CHECK(seen().answer == DryAnswer::left_oven);
}

TEST_CASE(
    "out of the drying oven a dry blank's mass tells how much water it took up, however little two weighings "
    "differ") {
  // Moisture on the dry mass, Wood Handbook (FPL-GTR-282) eq. 4-2: 100 g dry and 100.6 g now are 0.6 %.
  BlankState blank = begun();
  blank.into_drying = monday;
  blank.out_of_drying = monday + hours{27};
  blank.dry = {{monday + hours{24}, 100.04 * gram}, {monday + hours{27}, 100 * gram}};
  const auto weighed = [&](int at_h, double grams, int now_h) {
    blank.dry.push_back({monday + hours{at_h}, grams * gram});
    blank.open_since = blank.dry.back().at;
    return *dryness(blank, 240 * cm3, planned_drying(), DryingFacts{}, monday + hours{now_h});
  };
  const Dryness damp = weighed(50, 100.6, 50);
  CHECK(damp.answer == DryAnswer::dry);
  CHECK(*damp.heavier / percent == doctest::Approx(0.6));
  CHECK(*damp.regained / percent == doctest::Approx(0.6));
  // What lies on takes up the rest of 1 % sooner: (1 - 0.6²) of ten hours.
  CHECK(dryness(blank, 240 * cm3, planned_drying(), DryingFacts{}, monday + hours{56})->answer == DryAnswer::dry);
  CHECK(dryness(blank, 240 * cm3, planned_drying(), DryingFacts{}, monday + hours{57})->answer ==
        DryAnswer::weigh_lain);
  // At rest with the room's air it differs by nothing from day to day, and is wet.
  CHECK(weighed(400, 106, 400).answer == DryAnswer::dry_again);
  CHECK(weighed(403, 106, 403).answer == DryAnswer::dry_again);
  CHECK(weighed(406, 106.05, 406).answer == DryAnswer::dry_again);
  // What is lighter was not dry, or was misread.
  CHECK(weighed(407, 99.8, 407).answer == DryAnswer::dry_longer);
  CHECK(weighed(408, 99.95, 408).answer == DryAnswer::dry);
  // Back in the oven, two weighings have to tell again.
  blank.into_drying = monday + hours{410};
  blank.is_drying = true;
  CHECK(weighed(430, 103, 430).answer == DryAnswer::dry_longer);
  CHECK(weighed(433, 103, 433).answer == DryAnswer::in_oven);
}
