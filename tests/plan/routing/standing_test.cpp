// Where a blank stands in a routing: by the table of what ends each operation (see the file of the metric sample).

#include "plan/routing/standing.h"

#include <doctest/doctest.h>

#include "temporary_folder.h"

using namespace blankwright;

namespace {

using K = EntryKind;

Instant at_hour(int hour) {
  return Instant{std::chrono::sys_days{std::chrono::year{2027} / 5 / 3}} + std::chrono::hours{hour};
}

/// The metric sample's routing and one blank of it.
struct Blank {
  Shop shop;
  std::vector<const OperationFacts*> routing;
  std::vector<Entry> entries;
  int hour = 0;

  Blank() {
    Diagnostics said;
    const auto text = bytes_of(BLANKWRIGHT_SOURCE_DIR "/sample-jobs/metric/shop.toml");
    shop = read_shop(std::make_shared<const SourceText>(SourceText{"shop.toml", text}), said).value();
    for (const OperationFacts& facts : shop.routing) routing.push_back(&facts);
    enter(K::issued, Field::order, std::string{"A"});
  }

  Blank& enter(K kind, std::optional<Field> field = {}, const FieldValue& value = {}) {
    Entry entry;
    entry.number = std::ssize(entries) + 1;
    entry.kind = kind;
    entry.at = at_hour(++hour);
    if (facts_of(kind).of_blank) entry.blank = BlankId::nth(0);
    if (field) entry.set(*field, value);
    if (kind == K::into_bath || kind == K::vacuum_on || kind == K::released)
      entry.set(Field::bath, std::string{"B1"});
    if (kind == K::into_oven || kind == K::into_drying) entry.set(Field::load, std::string{"L1"});
    if (kind == K::sawn) entry.set(Field::board, std::string{"T1"});
    if (kind == K::weighed) entry.set(Field::mass, 0.1);
    if (kind == K::measured || kind == K::squared) {
      for (const Field side : {Field::width, Field::depth}) entry.set(side, 0.04);
    }
    entries.push_back(entry);
    return *this;
  }

  Standing standing() const { return standing_of(state_of(entries), folded<BathState>("B1", entries), routing); }
  /// The operation that is open next, numbered as on the routing.
  std::size_t next() const { return 10 * (standing().next + 1); }
};

}  // namespace

TEST_CASE("each entry that ends an operation opens the next one") {
  Blank blank;
  CHECK(blank.next() == 10);
  CHECK(blank.enter(K::sawn).next() == 20);
  CHECK(blank.enter(K::moisture, Field::moisture, 0.09).next() == 30);
  CHECK(blank.enter(K::into_drying).next() == 30);
  CHECK(blank.standing().begun == at_hour(blank.hour));
  CHECK(blank.enter(K::weighed).next() == 30);  // in the oven: one of the two weighings of its hold
  CHECK(blank.enter(K::out_of_drying).next() == 40);
  CHECK(blank.standing().begun == at_hour(blank.hour));  // what came out of the oven cools
  CHECK(blank.enter(K::measured).next() == 60);
  CHECK(blank.enter(K::weighed).next() == 60);
  CHECK(blank.enter(K::into_bath).next() == 60);
  CHECK_FALSE(blank.standing().begun.has_value());
  CHECK(blank.enter(K::vacuum_on).next() == 60);
  CHECK(blank.standing().begun == at_hour(blank.hour));
  CHECK(blank.enter(K::released).next() == 70);
  CHECK(blank.standing().begun == at_hour(blank.hour));
  CHECK(blank.enter(K::out_of_bath).next() == 80);
  CHECK(blank.enter(K::weighed).next() == 90);
  CHECK(blank.enter(K::into_oven).next() == 90);
  CHECK(blank.standing().begun == at_hour(blank.hour));
  CHECK(blank.enter(K::out_of_oven).next() == 100);
  CHECK(blank.enter(K::weighed).next() == 130);  // 120 is done to witnesses alone
  CHECK(blank.enter(K::graded, Field::verdict, std::string{"go-on"}).next() == 140);
  CHECK(blank.enter(K::squared).next() == 160);
}

TEST_CASE("what was done before a blank went back to bath or oven is open again") {
  Blank blank;
  blank.enter(K::sawn).enter(K::into_drying).enter(K::out_of_drying).enter(K::measured).enter(K::into_bath);
  blank.enter(K::vacuum_on).enter(K::released).enter(K::out_of_bath).enter(K::weighed);
  CHECK(blank.next() == 90);
  CHECK(blank.enter(K::into_bath).next() == 70);  // its bath was released before
  CHECK(blank.enter(K::out_of_bath).next() == 80);

  Blank again;
  again.enter(K::sawn).enter(K::into_drying).enter(K::out_of_drying).enter(K::measured);
  CHECK(again.next() == 60);
  CHECK(again.enter(K::into_drying).next() == 30);
  CHECK(again.enter(K::out_of_drying).next() == 40);
}

TEST_CASE("an operation that is entered by its name is done, and those before it with it") {
  Blank blank;
  blank.enter(K::sawn).enter(K::into_drying).enter(K::out_of_drying).enter(K::measured).enter(K::into_bath);
  blank.enter(K::out_of_bath).enter(K::into_oven).enter(K::out_of_oven);
  CHECK(blank.enter(K::done, Field::operation, std::string{"Carry the ID over"}).next() == 150);
}

TEST_CASE("a witness ends with its cutting, or with the cure where nothing is done to witnesses alone") {
  Blank witness;
  witness.entries.front().set(Field::role, std::string{"witness"});
  witness.enter(K::into_bath).enter(K::out_of_bath).enter(K::into_oven).enter(K::out_of_oven);
  CHECK(witness.next() == 100);  // it cools, and is cut open by and by
  CHECK(witness.standing().begun.has_value());
  std::erase_if(witness.routing, [](const OperationFacts* facts) { return facts->only_witnesses.value; });
  CHECK(witness.standing().next == witness.routing.size());
  CHECK_FALSE(witness.standing().begun.has_value());
}

TEST_CASE("an entry that ends two operations ends each at its own time") {
  Blank b;
  b.enter(K::sawn).enter(K::moisture).enter(K::into_drying).enter(K::out_of_drying).enter(K::measured);
  b.enter(K::weighed).enter(K::into_bath).enter(K::vacuum_on).enter(K::released).enter(K::out_of_bath);
  b.enter(K::weighed);
  const int wet = b.hour;
  b.enter(K::into_oven).enter(K::out_of_oven).enter(K::weighed);
  const BlankState state = state_of(b.entries);
  const auto bath = folded<BathState>("B1", b.entries);
  // 80: drained and weighed wet; 110: weighed cured.
  CHECK(done_at(80 / 10 - 1, state, bath, b.routing) == at_hour(wet));
  CHECK(done_at(110 / 10 - 1, state, bath, b.routing) == at_hour(b.hour));
}

TEST_CASE("what cools sealed is over once it is opened, and what was opened before it dried tells nothing of that") {
  Blank blank;
  blank.enter(K::sawn).enter(K::moisture, Field::moisture, 0.09).enter(K::opened).enter(K::into_drying);
  CHECK(blank.enter(K::out_of_drying).next() == 40);
  CHECK(blank.enter(K::sealed).next() == 40);
  CHECK(blank.enter(K::opened).next() == 50);
  CHECK(blank.standing().since == at_hour(blank.hour));
  blank.enter(K::into_drying);
  CHECK(blank.enter(K::out_of_drying).next() == 40);
}

TEST_CASE("a HOLD that was gone past stays open until what ends its operation is entered, or that it is done") {
  Blank blank;
  const auto passed = [&] {
    return holds_passed(state_of(blank.entries), folded<BathState>("B1", blank.entries), blank.routing);
  };
  blank.enter(K::sawn);
  CHECK(passed().empty());
  blank.enter(K::into_drying);
  CHECK(passed() == std::vector<std::size_t>{1});  // stamp and tag, which `moisture` ends
  blank.enter(K::done, Field::operation, std::string{"Stamp and tag, check the moisture"});
  CHECK(passed().empty());
  // Of drying, bath and cure gates tell; glue that set without its stud being measured is told.
  blank.enter(K::weighed).enter(K::into_bath).enter(K::vacuum_on).enter(K::released).enter(K::out_of_bath);
  blank.enter(K::into_oven).enter(K::out_of_oven).enter(K::done, Field::operation, std::string{"Carry the ID over"});
  blank.enter(K::squared).enter(K::bored).enter(K::glued).enter(K::turned);
  CHECK(passed() == std::vector<std::size_t>{18});
  blank.enter(K::done, Field::operation, std::string{"Let the glue set fully"});
  CHECK(passed().empty());
}
