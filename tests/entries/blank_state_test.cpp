#include "entries/blank_state.h"

#include <doctest/doctest.h>

#include "entries/blank_summary.h"
#include "entries/fate.h"
#include "entries/readings.h"
#include "entries_for_test.h"

using namespace blankwright;

namespace {

const BlankId first_blank = BlankId::nth(0);

/// The state after the first `count` entries of a usual life.
BlankState after_first(std::size_t count) {
  EntriesForTest made;
  auto life = life_of(made, first_blank, "T-1");
  life.resize(count);
  return state_of(life);
}

std::optional<Refused> refused(const BlankState& state, EntryKind kind,
                               std::initializer_list<std::pair<Field, FieldValue>> values = {}) {
  EntriesForTest made;
  const auto why = refusal(state, made.made(kind, first_blank, values));
  return why ? std::optional{why->why} : std::nullopt;
}

std::size_t count_until(Stage stage) {
  std::size_t count = 1;
  while (after_first(count).stage != stage) ++count;
  return count;
}

constexpr double gram_si = 1e-3;

}  // namespace

TEST_CASE("a usual life goes through without a refusal and leaves everything that was measured") {
  EntriesForTest made;
  const auto life = life_of(made, first_blank, "T-1");
  BlankState state = after(BlankState{}, life.front());
  for (std::size_t i = 1; i < life.size(); ++i) {
    CAPTURE(name_of(life.at(i).kind));
    CHECK_FALSE(refusal(state, life.at(i)).has_value());
    state = after(state, life.at(i));
  }
  CHECK(state == state_of(life));
  CHECK(state.stage == Stage::sent);
  CHECK(text(place_of(summary_of(state))).empty());
  CHECK(state.order == "T-1");
  CHECK(state.board == "B1");
  CHECK(state.bath == "bath-1");
  CHECK(state.load == "load-1");
  REQUIRE(state.dry.size() == 2);
  CHECK(state.dry.back().net / gram == doctest::Approx(127.9));
  REQUIRE(state.wet.size() == 1);
  CHECK(state.wet.back().net / gram == doctest::Approx(260));
  REQUIRE(state.cured.size() == 1);
  CHECK(state.cured.back().net / gram == doctest::Approx(255));
  CHECK(state.filled);
  CHECK(state.result == Outcome::pass);
  CHECK(*state.projection / mm == doctest::Approx(25));
  CHECK(state.last == static_cast<EntryNumber>(life.size()));
}

TEST_CASE("a size is that of dry wood only where it was not measured wet") {
  struct Step {
    EntryKind kind;
    int at_h;
    double value = 0;  ///< grams, or millimetres
  };
  const auto state = [](std::initializer_list<Step> steps) {
    EntriesForTest made;
    std::vector<Entry> life{made.made(EntryKind::issued, first_blank, {{Field::order, std::string{"T-1"}}})};
    for (const Step& step : steps) {
      const double si = step.value * 1e-3;
      life.push_back(made.made(step.kind, first_blank, {{Field::mass, si}, {Field::width, si}, {Field::depth, si}}));
      life.back().at = EntriesForTest::start + std::chrono::hours{step.at_h};
    }
    return state_of(life);
  };
  using K = EntryKind;
  CHECK(state({{K::measured, 0, 48}, {K::weighed, 12, 130}}).dry_size.has_value());  // in one go
  const BlankState sawn = state({{K::measured, 0, 48}, {K::weighed, 13, 130}});
  CHECK_FALSE(sawn.dry_size.has_value());
  CHECK(sawn.sawn_size->width / mm == doctest::Approx(48));
  CHECK_FALSE(state({{K::measured, 0, 48}, {K::into_drying, 1}}).dry_size.has_value());
  CHECK(state({{K::into_drying, 0}, {K::out_of_drying, 24}, {K::measured, 25, 46}}).dry_size.has_value());
  // Weighed wet, it has lost since what wood holds of water.
  CHECK_FALSE(state({{K::measured, 6, 50}, {K::weighed, 6, 182}, {K::weighed, 15, 160}}).dry_size.has_value());
  // Weighed and measured wet, dried, measured, and weighed again the next morning.
  const BlankState dried = state({{K::measured, 0, 50},
                                  {K::weighed, 0, 182},
                                  {K::into_drying, 1},
                                  {K::out_of_drying, 28},
                                  {K::measured, 28, 47.5},
                                  {K::weighed, 28, 160},
                                  {K::weighed, 44, 160}});
  CHECK(dried.dry_size->width / mm == doctest::Approx(47.5));
  // Into the oven once more: the size is that of wood that was dry before.
  CHECK(state({{K::into_drying, 0}, {K::out_of_drying, 24}, {K::measured, 25, 46}, {K::into_drying, 30}})
            .dry_size.has_value());
}

TEST_CASE("where a blank is follows from its last step") {
  CHECK(text(place_of(summary_of(after_first(1)))).empty());  // it is only an ID
  CHECK(text(place_of(summary_of(after_first(2)))) == "shop");
  CHECK(text(place_of(summary_of(after_first(count_until(Stage::in_bath))))) == "bath bath-1");
  CHECK(text(place_of(summary_of(after_first(count_until(Stage::in_oven))))) == "oven, load load-1");
}

TEST_CASE("the impossible is refused") {
  const auto fresh = after_first(1);
  const auto bathing = after_first(count_until(Stage::in_bath));
  const auto wet = after_first(count_until(Stage::wet));
  const auto curing = after_first(count_until(Stage::in_oven));
  const auto cured = after_first(count_until(Stage::cured));
  const auto sent = after_first(count_until(Stage::sent));
  const FieldValue bath{std::string{"b"}};
  CHECK(refused(fresh, EntryKind::into_oven, {{Field::load, bath}}) == Refused::too_early);    // oven before bath
  CHECK(refused(bathing, EntryKind::into_oven, {{Field::load, bath}}) == Refused::elsewhere);  // two places at once
  CHECK(refused(bathing, EntryKind::into_bath, {{Field::bath, bath}}) == Refused::elsewhere);
  CHECK(refused(curing, EntryKind::into_bath, {{Field::bath, bath}}) == Refused::elsewhere);
  CHECK(refused(cured, EntryKind::into_bath, {{Field::bath, bath}}) == Refused::too_late);
  CHECK(refused(fresh, EntryKind::out_of_bath) == Refused::too_early);
  CHECK(refused(fresh, EntryKind::drained) == Refused::too_early);
  CHECK(refused(wet, EntryKind::out_of_oven) == Refused::too_early);
  CHECK(refused(wet, EntryKind::squared, {{Field::width, 0.04}, {Field::depth, 0.04}}) == Refused::too_early);
  CHECK(refused(cured, EntryKind::turned) == Refused::too_early);
  CHECK(refused(fresh, EntryKind::sent) == Refused::too_early);
  CHECK(refused(sent, EntryKind::weighed, {{Field::mass, 0.2}}) == Refused::over);
  CHECK(refused(sent, EntryKind::scrapped, {{Field::reason, bath}}) == Refused::over);
  CHECK(refused(fresh, EntryKind::issued) == Refused::too_late);
}

TEST_CASE("sent while scrapped is refused with the reason of the scrap") {
  EntriesForTest made;
  auto life = life_of(made, first_blank, "T-1");
  life.resize(count_until(Stage::cured));
  life.push_back(
      made.made(EntryKind::scrapped, first_blank, {{Field::reason, std::string{"crack through the end"}}}));
  const auto why = refusal(state_of(life), made.made(EntryKind::sent, first_blank));
  REQUIRE(why.has_value());
  CHECK(why->why == Refused::over);
  CHECK(why->text == first_blank.shown() + " is scrapped: crack through the end");
}

TEST_CASE("a blank that failed its inspection is not sent") {
  EntriesForTest made;
  auto life = life_of(made, first_blank, "T-1");
  life.resize(count_until(Stage::turned));
  life.push_back(made.made(EntryKind::inspected, first_blank, {{Field::result, std::string{"fail"}}}));
  CHECK(refusal(state_of(life), made.made(EntryKind::sent, first_blank))->why == Refused::too_early);
}

TEST_CASE("a mass that cannot be is refused: none without the tag, or cured below dry") {
  const auto fresh = after_first(1);
  const auto wet = after_first(count_until(Stage::wet));
  const auto cured = after_first(count_until(Stage::cured));
  EntriesForTest made;
  const auto nothing = [&](EntryKind kind, std::initializer_list<std::pair<Field, FieldValue>> values) {
    const auto why = says_nothing(made.made(kind, first_blank, values));
    return why && why->why == Refused::nothing;
  };
  CHECK(nothing(EntryKind::weighed, {{Field::mass, 3 * gram_si}, {Field::tare, 3 * gram_si}}));
  CHECK_FALSE(nothing(EntryKind::weighed, {{Field::mass, 3.1 * gram_si}, {Field::tare, 3 * gram_si}}));
  CHECK(nothing(EntryKind::measured, {{Field::width, 0.0}, {Field::depth, 0.04}}));
  CHECK(nothing(EntryKind::bored, {{Field::over, 0.0}}));
  CHECK_FALSE(can_be_overridden(Refused::nothing));
  // Where an older register holds such an entry, it says nothing of the blank.
  CHECK(after(fresh, made.made(EntryKind::weighed, first_blank, {{Field::mass, 0.0}})).dry.empty());
  CHECK_FALSE(after(fresh, made.made(EntryKind::measured, first_blank, {{Field::width, 0.0}, {Field::depth, 0.04}}))
                  .dry_size);
  CHECK(refused(wet, EntryKind::weighed, {{Field::mass, 127.8 * gram_si}}) == Refused::mass_impossible);
  CHECK(refused(cured, EntryKind::weighed, {{Field::mass, 127.8 * gram_si}}) == Refused::mass_impossible);
  CHECK_FALSE(refused(cured, EntryKind::weighed, {{Field::mass, 128.0 * gram_si}}).has_value());
  // Squaring takes wood away, so that a squared blank may well weigh less than it did dry.
  const auto squared = after_first(count_until(Stage::squared));
  CHECK_FALSE(refused(squared, EntryKind::weighed, {{Field::mass, 120.0 * gram_si}}).has_value());
}

TEST_CASE("faces that do not add up to the blank's width are a misreading") {
  const auto squared = after_first(count_until(Stage::squared));
  const auto with = [&](double face_3) {
    return refused(squared, EntryKind::bored,
                   {{Field::face_1, 0.0197},
                    {Field::face_2, 0.0201},
                    {Field::face_3, face_3},
                    {Field::face_4, 0.0199},
                    {Field::lean_1, 0.0},
                    {Field::lean_2, 0.0},
                    {Field::over, 0.1}});
  };
  CHECK_FALSE(with(0.0203).has_value());
  CHECK_FALSE(with(0.0183).has_value());  // a blank that was rounded since
  CHECK(with(0.0303) == Refused::size_impossible);
  CHECK(with(0.0) == Refused::size_impossible);
}

TEST_CASE("what replaces an entry stands in its place") {
  EntriesForTest made;
  auto life = life_of(made, first_blank, "T-1");
  life.resize(count_until(Stage::cured));
  // The second dry weighing (entry 5) was misread; it is corrected after the cure.
  Entry right = made.made(EntryKind::weighed, first_blank, {{Field::mass, 0.1299}, {Field::tare, 0.003}});
  right.replaces = 5;
  right.at = life.at(4).at;
  life.push_back(right);
  auto state = state_of(life);
  REQUIRE(state.dry.size() == 2);
  CHECK(state.dry.back().net / gram == doctest::Approx(126.9));
  CHECK(state.cured.empty());

  // A correction of the correction, and then both are taken back.
  Entry better = made.made(EntryKind::weighed, first_blank, {{Field::mass, 0.1300}, {Field::tare, 0.003}});
  better.replaces = right.number;
  better.at = right.at;
  life.push_back(better);
  CHECK(state_of(life).dry.back().net / gram == doctest::Approx(127.0));
  Entry none = made.made(EntryKind::corrected, first_blank, {{Field::reason, std::string{"another blank"}}});
  none.replaces = better.number;
  life.push_back(none);
  CHECK(state_of(life).dry.size() == 1);
}

TEST_CASE("a rod that leans outside means an axis that leans the other way inside") {
  const auto summary = summary_of(after_first(count_until(Stage::bored)));
  REQUIRE(summary.axis.has_value());
  // Face 1 is 19.7 mm from the rod and face 3 is 20.3 mm: the rod lies 0.3 mm nearer to face 1, by hand.
  CHECK(summary.axis->offset_1 / mm == doctest::Approx(0.3));
  CHECK(summary.axis->offset_2 / mm == doctest::Approx(-0.1));
  CHECK(summary.axis->slope_1 == doctest::Approx(-0.002));
}
