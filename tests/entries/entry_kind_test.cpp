#include "entries/entry_kind.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <string>

#include "entries/blank_rules.h"
#include "entries/process_state.h"
#include "entries_for_test.h"

using namespace blankwright;

TEST_CASE("the lists of kinds and fields stand in the order of their enums, each name once") {
  std::set<std::string_view> names;
  int place = 0;
  for (const KindFacts& kind : kind_list()) {
    CAPTURE(kind.name);
    CHECK(static_cast<int>(kind.kind) == place++);
    CHECK(names.insert(kind.name).second);
    CHECK(find_kind(kind.name) == &kind);
  }
  CHECK(static_cast<int>(EntryKind::corrected) == place - 1);
  names.clear();
  place = 0;
  for (const FieldFacts& field : field_list()) {
    CAPTURE(field.name);
    CHECK(static_cast<int>(field.field) == place++);
    CHECK(names.insert(field.name).second);
    CHECK(find_field(field.name) == &field);
  }
  CHECK(static_cast<int>(Field::remark) == place - 1);
  CHECK(find_kind("boiled") == nullptr);
  CHECK(find_field("colour") == nullptr);
}

TEST_CASE("what a kind does to the blank, the bath or the lot that it names is said in their lists") {
  EntriesForTest made;
  const BlankId blank = BlankId::nth(0);
  const std::string name = "A";
  for (const KindFacts& kind : kind_list()) {
    CAPTURE(kind.name);
    CHECK((rule_of(kind.kind) != nullptr) == kind.of_blank);
    const auto names = [&](Field field) {
      return std::ranges::any_of(kind.fields, [&](const FieldUse& use) { return use.needed && use.field == field; });
    };
    Entry entry = made.made(kind.kind, kind.of_blank ? std::optional{blank} : std::nullopt);
    entry.set(Field::volume, 0.001);
    if (names(Field::bath)) {
      entry.set(Field::bath, name);
      BathState before;
      before.name = name;
      BathState after_it = after(before, entry);
      after_it.last_at = before.last_at;
      CHECK_FALSE(after_it == before);
    }
    if (names(Field::resin)) {
      entry.set(Field::resin, name);
      ResinState before;
      before.name = name;
      ResinState after_it = after(before, entry);
      after_it.last_at = before.last_at;
      CHECK_FALSE(after_it == before);
    }
  }
}

TEST_CASE("the ranges hold what the trade measures, and nothing that lost a letter of its unit") {
  // Common practice, no source: the smallest and the largest true figure that a shop of this kind may meet.
  struct Row {
    Field field;
    double small, large, slip;
  };
  const Row rows[] = {
      {Field::width, 0.010, 0.300, 45},     {Field::length, 0.030, 2.5, 125},   {Field::mass, 0.002, 40, 131},
      {Field::moisture, 0, 3.0, 999.99},    {Field::volume, 0, 500, 1.5},       {Field::gauge, -104e3, 0, -950e3},
      {Field::temperature, 250, 523, 1273}, {Field::force, 0, 150e3, 1e6},      {Field::lean_1, -0.05, 0.05, 0.2},
      {Field::over, 0.020, 1.5, 100},       {Field::diameter, 0.001, 0.150, 9}, {Field::face_1, 0.005, 0.5, 20}};
  for (const Row& row : rows) {
    const Range& range = facts_of(row.field).range;
    CAPTURE(facts_of(row.field).name);
    const double litres = row.field == Field::volume ? 1e-3 : 1;  // of these a litre is 0.001 m³
    CHECK(range.holds(row.small * litres));
    CHECK(range.holds(row.large * litres));
    CHECK_FALSE(range.holds(row.slip));
  }
}

TEST_CASE("an action code can be no blank's ID, and no keyboard layout moves its symbols") {
  // The letters that change places between QWERTY, QWERTZ and AZERTY (from memory); vowels and look-alikes are left
  // out besides.
  const std::string moved = "AQWZYMOILEU0123456789";
  std::set<std::string_view> codes;
  for (const KindFacts& kind : kind_list()) {
    if (kind.code.empty()) continue;
    CAPTURE(kind.code);
    CHECK(codes.insert(kind.code).second);
    CHECK(kind.code.size() == 4);
    CHECK(kind.code.front() == 'X');
    CHECK(kind.code.find_first_of(moved) == std::string_view::npos);
    CHECK_FALSE(BlankId::read(kind.code).has_value());
    CHECK(find_code(kind.code) == &kind);
  }
  CHECK(codes.size() >= 29);
  CHECK(find_code("xkgb") == find_kind("weighed"));
  CHECK(find_code("XKG") == nullptr);
  CHECK(find_code("") == nullptr);
}

TEST_CASE("codes differ in at least two symbols, so that one misread symbol makes no other code") {
  for (const KindFacts& a : kind_list()) {
    for (const KindFacts& b : kind_list()) {
      if (&a == &b || a.code.empty() || b.code.empty()) continue;
      int differ = 0;
      for (std::size_t i = 0; i < a.code.size(); ++i) differ += a.code.at(i) != b.code.at(i) ? 1 : 0;
      CAPTURE(a.code);
      CAPTURE(b.code);
      CHECK(differ >= 2);
    }
  }
}
