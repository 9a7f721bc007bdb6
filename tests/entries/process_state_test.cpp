#include "entries/process_state.h"

#include <doctest/doctest.h>

#include "entries_for_test.h"

using namespace blankwright;

namespace {

const BlankId one = BlankId::nth(0);
const BlankId two = BlankId::nth(1);

struct Told {
  EntriesForTest made;
  std::vector<Entry> entries;

  const Entry& tell(EntryKind kind, std::optional<BlankId> blank,
                    std::initializer_list<std::pair<Field, FieldValue>> values) {
    entries.push_back(made.made(kind, blank, values));
    return entries.back();
  }
  template <class State>
  State state(const std::string& name) const {
    return folded<State>(name, entries);
  }
};

FieldValue word(const char* text) { return std::string{text}; }

}  // namespace

TEST_CASE("a bath remembers its blanks, its resin and its moments") {
  Told t;
  t.tell(EntryKind::poured, {}, {{Field::bath, word("A")}, {Field::resin, word("lot-7")}, {Field::volume, 1e-3}});
  t.tell(EntryKind::into_bath, one, {{Field::bath, word("A")}});
  t.tell(EntryKind::into_bath, two, {{Field::bath, word("A")}});
  const Instant on = t.tell(EntryKind::vacuum_on, {}, {{Field::bath, word("A")}}).at;
  CHECK(t.state<BathState>("A").under_vacuum());
  const Instant reached = t.tell(EntryKind::target_reached, {}, {{Field::bath, word("A")}, {Field::gauge, -95e3}}).at;
  const Instant ended = t.tell(EntryKind::bubbling_ended, {}, {{Field::bath, word("A")}}).at;
  const Instant released = t.tell(EntryKind::released, {}, {{Field::bath, word("A")}}).at;
  const auto bath = t.state<BathState>("A");
  CHECK(bath.blanks == std::vector{one, two});
  CHECK(bath.poured.at("lot-7") / litre == doctest::Approx(1));
  CHECK(bath.vacuum_on == on);
  CHECK(bath.target_reached == reached);
  CHECK(bath.bubbling_ended == ended);
  CHECK(bath.released == released);
  CHECK_FALSE(bath.under_vacuum());
  CHECK(t.state<BathState>("B") == [] {
    BathState other;
    other.name = "B";
    return other;
  }());
}

TEST_CASE("what a cut shows of the resin is its last bath's, and how hard it is its load's") {
  Told t;
  const auto cut = [&](const BlankId& blank, const char* filled, const char* hard) {
    t.tell(EntryKind::witness_cut, blank, {{Field::filled, word(filled)}, {Field::hard, word(hard)}});
  };
  for (const BlankId& blank : {one, two}) t.tell(EntryKind::into_bath, blank, {{Field::bath, word("A")}});
  t.tell(EntryKind::into_bath, two, {{Field::bath, word("B")}});  // soaked again
  t.tell(EntryKind::into_oven, one, {{Field::load, word("L1")}});
  t.tell(EntryKind::into_oven, two, {{Field::load, word("L2")}});
  cut(one, "no", "yes");
  cut(two, "yes", "no");
  CHECK(t.state<BathState>("A").cut == std::vector{BlankCut{one, false}});
  CHECK(t.state<BathState>("B").cut == std::vector{BlankCut{two, true}});
  CHECK(t.state<LoadState>("L1").cut == std::vector{BlankCut{one, true}});
  CHECK(t.state<LoadState>("L2").cut == std::vector{BlankCut{two, false}});
  // Before the two were told apart a cut had one answer.
  Told old;
  old.tell(EntryKind::into_oven, one, {{Field::load, word("L1")}});
  old.tell(EntryKind::witness_cut, one, {{Field::result, word("pass")}});
  CHECK(old.state<LoadState>("L1").cut == std::vector{BlankCut{one, true}});
}

TEST_CASE("a bath is run in its order and once") {
  Told t;
  const auto refused = [&](EntryKind kind) {
    const Entry entry = t.made.made(kind, {}, {{Field::bath, word("A")}});
    const auto why = refusal(t.state<BathState>("A"), entry);
    return why && why->why == Refused::bath_not_so;
  };
  CHECK(refused(EntryKind::vacuum_on));  // nothing in it
  t.tell(EntryKind::into_bath, one, {{Field::bath, word("A")}});
  CHECK(refused(EntryKind::target_reached));
  CHECK(refused(EntryKind::released));
  CHECK_FALSE(refused(EntryKind::vacuum_on));
  t.tell(EntryKind::vacuum_on, {}, {{Field::bath, word("A")}});
  CHECK(refused(EntryKind::vacuum_on));
  CHECK(refused(EntryKind::into_bath));
  CHECK(refused(EntryKind::out_of_bath));
  CHECK(refused(EntryKind::bubbling_ended));  // the target comes before
  t.tell(EntryKind::target_reached, {}, {{Field::bath, word("A")}});
  CHECK_FALSE(refused(EntryKind::bubbling_ended));
  t.tell(EntryKind::released, {}, {{Field::bath, word("A")}});
  CHECK(refused(EntryKind::released));
  CHECK(refused(EntryKind::into_bath));
  CHECK_FALSE(refused(EntryKind::out_of_bath));
}

TEST_CASE("a load is taken out once, and its core is measured while blanks are in it") {
  Told t;
  const auto refused = [&](EntryKind kind) {
    return refusal(t.state<LoadState>("L"), t.made.made(kind, {}, {{Field::load, word("L")}})).has_value();
  };
  CHECK(refused(EntryKind::core_temperature));
  t.tell(EntryKind::into_oven, one, {{Field::load, word("L")}});
  CHECK_FALSE(refused(EntryKind::core_temperature));
  t.tell(EntryKind::core_temperature, {}, {{Field::load, word("L")}, {Field::temperature, 355.15}});
  const Instant out = t.tell(EntryKind::out_of_oven, one, {}).at;
  const auto load = t.state<LoadState>("L");
  CHECK(load.last_out == out);
  REQUIRE(load.core.size() == 1);
  CHECK((load.core.front().read - ice_point) / kelvin == doctest::Approx(82));
  CHECK(refused(EntryKind::into_oven));
  Entry reading =
      t.made.made(EntryKind::core_temperature, {}, {{Field::load, word("L")}, {Field::temperature, 360.0}});
  CHECK(refusal(load, reading).has_value());  // it was out by then
  reading.at = out;
  CHECK_FALSE(refusal(load, reading).has_value());
  reading.at = *load.first_in - std::chrono::hours{1};
  CHECK(refusal(load, reading).has_value());
}

TEST_CASE("a lot of resin is opened before it is used, and holds no more than its bottle") {
  Told t;
  const auto refused = [&](EntryKind kind, double volume) {
    return refusal(t.state<ResinState>("lot-7"),
                   t.made.made(kind, {}, {{Field::resin, word("lot-7")}, {Field::volume, volume}}))
        .has_value();
  };
  CHECK(refused(EntryKind::resin_activated, 1e-3));
  t.tell(EntryKind::resin_opened, {}, {{Field::resin, word("lot-7")}, {Field::volume, 3.785e-3}});
  CHECK(refused(EntryKind::resin_opened, 1e-3));
  CHECK_FALSE(refused(EntryKind::resin_activated, 3.785e-3));
  CHECK(refused(EntryKind::resin_activated, 4.5e-3));
  CHECK(refused(EntryKind::poured, 4.5e-3));
  CHECK_FALSE(refused(EntryKind::poured, 3.785e-3));
  CHECK(refused(EntryKind::strained_back, 1e-3));  // of nothing that was poured
  t.tell(EntryKind::poured, {}, {{Field::resin, word("lot-7")}, {Field::volume, 3e-3}, {Field::bath, word("A")}});
  CHECK(refused(EntryKind::poured, 1.5e-3));
  CHECK(refused(EntryKind::discarded, 1.5e-3));
  CHECK_FALSE(refused(EntryKind::strained_back, 3e-3));
  t.tell(EntryKind::resin_activated, {},
         {{Field::resin, word("lot-7")}, {Field::volume, 2e-3}, {Field::dye, word("blue")}});
  t.tell(EntryKind::strained_back, {}, {{Field::resin, word("lot-7")}, {Field::volume, 1e-3}});
  t.tell(EntryKind::discarded, {}, {{Field::resin, word("lot-7")}, {Field::volume, 0.5e-3}});
  const auto resin = t.state<ResinState>("lot-7");
  CHECK(resin.dye == "blue");
  CHECK(resin.activated_volume / litre == doctest::Approx(2));
  CHECK(resin.strained_back / litre == doctest::Approx(1));
  CHECK(resin.discarded / litre == doctest::Approx(0.5));
}
