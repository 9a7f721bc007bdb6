#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <string>
#include <vector>

#include "../entries/entries_for_test.h"
#include "../temporary_folder.h"
#include "../test_server.h"
#include "diagnose/failure.h"
#include "register/register.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

using F = Field;
using K = EntryKind;

FieldValue word(const char* text) { return std::string{text}; }

/// A register with an order of blanks, and a clock that goes on an hour with each entry.
template <class At>
struct Shop {
  TemporaryFolder folder;
  Register reg{At::place(folder, "shop.register"), series_0};
  Instant now = EntriesForTest::start;
  std::vector<BlankId> blanks;

  explicit Shop(int pieces = 2) {
    const std::vector orders{
        OrderToIssue{"T-1", pieces, {"job", "shop", "template", "0.1.0"}, {"beech, European", "spalted", "", 1}}};
    blanks = reg.issue(orders, 0, now).value().front();
  }
  Entry entry(K kind, std::optional<BlankId> blank, std::initializer_list<std::pair<F, FieldValue>> values = {}) {
    now += 1h;
    Entry made;
    made.kind = kind;
    made.at = now;
    made.offset = 60min;
    made.blank = blank;
    for (const auto& [field, value] : values) made.set(field, value);
    return made;
  }
  /// Adds one and answers its number; 0 when it was refused.
  EntryNumber add(const Entry& made) {
    const auto added = reg.add(std::array{made}, now);
    return added ? added->front().number : 0;
  }
  std::optional<Refused> refused(const Entry& made) {
    const auto added = reg.add(std::array{made}, now);
    return added ? std::nullopt : std::optional{added.error().front().refusal.why};
  }
};

}  // namespace

TEST_CASE_TEMPLATE("an entry comes back as it was said", At, InFile, OnServer) {
  Shop<At> shop;
  Entry said = shop.entry(K::weighed, shop.blanks.at(0),
                          {{F::mass, 0.1 + 0.2}, {F::tare, 0.003}, {F::remark, word("'; DROP TABLE entries; --")}});
  said.person = "Ada";
  said.number = shop.add(said);
  REQUIRE(said.number == 3);
  const auto entries = shop.reg.entries_of(shop.blanks.at(0));
  REQUIRE(entries.size() == 2);
  CHECK(entries.at(1) == said);
  CHECK(shop.reg.entry(said.number) == said);
  CHECK_FALSE(shop.reg.entry(99).has_value());
  CHECK(shop.reg.blank(shop.blanks.at(0))->dry.front().net == (0.1 + 0.2) * kilogram - 0.003 * kilogram);
}

TEST_CASE_TEMPLATE("the rows that are kept beside the entries are what follows from them", At, InFile, OnServer) {
  Shop<At> shop;
  EntriesForTest made;
  std::vector<Entry> life = life_of(made, shop.blanks.at(0), "T-1");
  life.erase(life.begin());  // the register issued it itself
  const auto added = shop.reg.add(life, made.now());
  REQUIRE(added.has_value());
  for (const BlankId& id : shop.blanks) {
    const auto known = shop.reg.known_blanks();
    const auto row = std::ranges::find(known, std::optional{id}, [](const KnownBlank& k) { return k.blank.id; });
    REQUIRE(row != known.end());
    CHECK(row->blank == summary_of(*shop.reg.blank(id)));
    CHECK(row->species == "beech, European");
    CHECK(row->condition == "spalted");
  }
  CHECK(shop.reg.blanks_of_order("T-1").size() == 2);
  CHECK(shop.reg.blanks_of_board("B1").size() == 1);
  CHECK(shop.reg.bath("bath-1").blanks.size() == 1);
  CHECK(shop.reg.load("load-1").last_out.has_value());
}

TEST_CASE_TEMPLATE("of several entries all are taken or none, and each that is refused is named", At, InFile,
                   OnServer) {
  Shop<At> shop;
  const EntryNumber before = shop.reg.last_entry();
  const std::vector entries{shop.entry(K::weighed, shop.blanks.at(0), {{F::mass, 0.13}}),
                            shop.entry(K::into_oven, shop.blanks.at(0), {{F::load, word("L")}}),
                            shop.entry(K::into_bath, shop.blanks.at(1), {{F::bath, word("A")}}),
                            shop.entry(K::into_bath, shop.blanks.at(1), {{F::bath, word("A")}})};
  const auto added = shop.reg.add(entries, shop.now);
  REQUIRE_FALSE(added.has_value());
  REQUIRE(added.error().size() == 2);
  CHECK(added.error().at(0).place == 1);
  CHECK(added.error().at(0).refusal.why == Refused::too_early);
  CHECK(added.error().at(1).place == 3);
  CHECK(added.error().at(1).refusal.why == Refused::elsewhere);
  CHECK(shop.reg.last_entry() == before);
}

TEST_CASE_TEMPLATE("what is not there is refused whatever the reason, the impossible only without one", At, InFile,
                   OnServer) {
  Shop<At> shop;
  Entry nobody = shop.entry(K::weighed, BlankId::nth(77), {{F::mass, 0.13}});
  nobody.overridden = "I know better";
  CHECK(shop.refused(nobody) == Refused::unknown);
  Entry no_order = shop.entry(K::promised, shop.blanks.at(0), {{F::order, word("T-9")}});
  CHECK(shop.refused(no_order) == Refused::unknown);

  Entry oven = shop.entry(K::into_oven, shop.blanks.at(0), {{F::load, word("L")}});
  CHECK(shop.refused(oven) == Refused::too_early);
  oven.overridden = "impregnated elsewhere";
  const EntryNumber number = shop.add(oven);
  REQUIRE(number > 0);
  CHECK(shop.reg.entry(number)->overridden == "impregnated elsewhere");
  CHECK(shop.reg.blank(shop.blanks.at(0))->stage == Stage::in_oven);
  // A reason that was not needed is not kept.
  Entry plain = shop.entry(K::weighed, shop.blanks.at(1), {{F::mass, 0.13}});
  plain.overridden = "habit";
  CHECK(shop.reg.entry(shop.add(plain))->overridden.empty());
}

TEST_CASE_TEMPLATE("an entry lies neither in the future nor on a clock that fell behind", At, InFile, OnServer) {
  Shop<At> shop;
  CHECK(shop.add(shop.entry(K::weighed, shop.blanks.at(0), {{F::mass, 0.13}})) > 0);
  Entry early = shop.entry(K::weighed, shop.blanks.at(0), {{F::mass, 0.13}});
  early.at -= 2h;
  CHECK_FALSE(shop.refused(early).has_value());  // it was forgotten
  Entry future = shop.entry(K::weighed, shop.blanks.at(0), {{F::mass, 0.13}});
  future.at += 1h;
  CHECK(shop.refused(future) == Refused::clock);
  const Entry fine = shop.entry(K::weighed, shop.blanks.at(0), {{F::mass, 0.13}});
  const auto behind = shop.reg.add(std::array{fine}, shop.now - 24h);
  CHECK_FALSE(behind.has_value());
}

TEST_CASE_TEMPLATE("a correction is refused when what came after could then not have been", At, InFile, OnServer) {
  Shop<At> shop;
  const BlankId id = shop.blanks.at(0);
  const EntryNumber weighed = shop.add(shop.entry(K::weighed, id, {{F::mass, 0.13}}));
  const EntryNumber bathed = shop.add(shop.entry(K::into_bath, id, {{F::bath, word("A")}}));
  REQUIRE(shop.add(shop.entry(K::out_of_bath, id)) > 0);
  REQUIRE(shop.add(shop.entry(K::weighed, id, {{F::mass, 0.25}})) > 0);

  Entry gone = shop.entry(K::corrected, id, {{F::reason, word("wrong blank")}});
  gone.replaces = bathed;
  const auto refused = shop.reg.add(std::array{gone}, shop.now);
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error().front().refusal.text.starts_with("then entry 5 (out-of-bath, "));

  Entry heavier = shop.entry(K::weighed, id, {{F::mass, 0.26}});  // dry, so the wet one would be lighter
  heavier.replaces = weighed;
  heavier.at = not_said;
  CHECK(shop.refused(heavier) == Refused::mass_impossible);
  {
    Entry insisted = heavier;
    insisted.overridden = "the wet one was another scale";
    const EntryNumber number = shop.add(insisted);
    REQUIRE(number > 0);
    CHECK(shop.reg.entry(number)->overridden == insisted.overridden);
    Entry back = shop.entry(K::weighed, id, {{F::mass, 0.13}});
    back.replaces = number;
    back.at = not_said;
    REQUIRE(shop.add(back) > 0);
  }
  Entry right = shop.entry(K::weighed, id, {{F::mass, 0.131}});
  right.replaces = shop.reg.last_entry();
  right.at = not_said;
  const EntryNumber number = shop.add(right);
  REQUIRE(number > 0);
  CHECK(shop.reg.entry(number)->at == shop.reg.entry(weighed)->at);
  CHECK(shop.reg.blank(id)->dry.front().net / gram == doctest::Approx(131));
  CHECK(shop.reg.known_blanks().front().blank.dry == 0.131 * kilogram);

  CHECK(shop.refused(right) == Refused::replaced_before);
  Entry of_other = shop.entry(K::weighed, shop.blanks.at(1), {{F::mass, 0.131}});
  of_other.replaces = number;
  CHECK(shop.refused(of_other) == Refused::replaced_before);
  Entry issue = shop.entry(K::corrected, id, {{F::reason, word("no")}});
  issue.replaces = 1;
  CHECK(shop.refused(issue) == Refused::replaced_before);
  issue.replaces = 1000;
  CHECK(shop.refused(issue) == Refused::unknown);
}

TEST_CASE_TEMPLATE("a bath's moment is corrected in its place", At, InFile, OnServer) {
  Shop<At> shop;
  REQUIRE(shop.add(shop.entry(K::into_bath, shop.blanks.at(0), {{F::bath, word("A")}})) > 0);
  const EntryNumber on = shop.add(shop.entry(K::vacuum_on, {}, {{F::bath, word("A")}}));
  REQUIRE(shop.add(shop.entry(K::target_reached, {}, {{F::bath, word("A")}})) > 0);
  Entry earlier = shop.entry(K::vacuum_on, {}, {{F::bath, word("A")}});
  earlier.at -= 3h;
  earlier.replaces = on;
  REQUIRE(shop.add(earlier) > 0);
  CHECK(shop.reg.bath("A").vacuum_on == earlier.at);
  Entry never = shop.entry(K::corrected, {}, {{F::reason, word("no vacuum")}});
  never.replaces = shop.reg.last_entry();
  CHECK(shop.refused(never) == Refused::bath_not_so);  // the target was reached after it
  CHECK(shop.refused(shop.entry(K::out_of_bath, shop.blanks.at(0))) == Refused::bath_not_so);  // under vacuum
  Entry not_in = shop.entry(K::corrected, shop.blanks.at(0), {{F::reason, word("was not in")}});
  not_in.replaces = on - 1;
  CHECK(shop.refused(not_in) == Refused::bath_not_so);  // an empty bath was never put under vacuum
}

TEST_CASE_TEMPLATE("a bath's moments follow each other, and a blank comes out after the release", At, InFile,
                   OnServer) {
  Shop<At> shop;
  const BlankId id = shop.blanks.at(0);
  const auto of_bath = [&](K kind, std::chrono::hours back) {
    Entry made = shop.entry(kind, {}, {{F::bath, word("A")}});
    made.at -= back;
    return made;
  };
  REQUIRE(shop.add(shop.entry(K::into_bath, id, {{F::bath, word("A")}})) > 0);
  CHECK(shop.refused(of_bath(K::vacuum_on, 2h)) == Refused::bath_not_so);
  const EntryNumber on = shop.add(of_bath(K::vacuum_on, 0h));
  REQUIRE(on > 0);
  CHECK(shop.refused(of_bath(K::target_reached, 2h)) == Refused::bath_not_so);
  REQUIRE(shop.add(of_bath(K::target_reached, 0h)) > 0);
  CHECK(shop.refused(of_bath(K::bubbling_ended, 2h)) == Refused::bath_not_so);
  REQUIRE(shop.add(of_bath(K::bubbling_ended, 0h)) > 0);
  CHECK(shop.refused(of_bath(K::released, 2h)) == Refused::bath_not_so);
  const EntryNumber released = shop.add(of_bath(K::released, 0h));
  REQUIRE(released > 0);
  Entry out = shop.entry(K::out_of_bath, id);
  const Instant came_out = out.at;
  out.at -= 2h;
  CHECK(shop.refused(out) == Refused::clock);
  out.at = came_out;
  REQUIRE(shop.add(out) > 0);
  // What was said of it stays possible: it cannot be released after its blank came out, nor not at all.
  Entry later = of_bath(K::released, 0h);
  later.replaces = released;
  CHECK(shop.refused(later) == Refused::bath_not_so);
  Entry never = shop.entry(K::corrected, {}, {{F::reason, word("was not")}});
  never.replaces = released;
  CHECK(shop.refused(never) == Refused::bath_not_so);
}

TEST_CASE_TEMPLATE("a blank that was entered into a bath of another name is mended after its bath was run", At,
                   InFile, OnServer) {
  Shop<At> shop;
  REQUIRE(shop.add(shop.entry(K::into_bath, shop.blanks.at(0), {{F::bath, word("B-12")}})) > 0);
  const EntryNumber mistyped = shop.add(shop.entry(K::into_bath, shop.blanks.at(1), {{F::bath, word("B-21")}}));
  for (const K kind : {K::vacuum_on, K::target_reached, K::released}) {
    REQUIRE(shop.add(shop.entry(kind, {}, {{F::bath, word("B-12")}})) > 0);
  }
  Entry right = shop.entry(K::into_bath, shop.blanks.at(1), {{F::bath, word("B-12")}});
  CHECK(shop.refused(right) == Refused::elsewhere);
  right.replaces = mistyped;
  right.at = not_said;
  REQUIRE(shop.add(right) > 0);
  CHECK(shop.reg.bath("B-12").blanks == shop.blanks);
  CHECK(shop.reg.bath("B-21").blanks.empty());
  CHECK(shop.reg.blank(shop.blanks.at(1))->bath == "B-12");
  CHECK_FALSE(shop.refused(shop.entry(K::out_of_bath, shop.blanks.at(1))).has_value());
}

TEST_CASE_TEMPLATE("a blank is not moved out of the only bath that was run with it", At, InFile, OnServer) {
  Shop<At> shop;
  const EntryNumber in = shop.add(shop.entry(K::into_bath, shop.blanks.at(0), {{F::bath, word("A")}}));
  REQUIRE(shop.add(shop.entry(K::vacuum_on, {}, {{F::bath, word("A")}})) > 0);
  Entry other = shop.entry(K::into_bath, shop.blanks.at(0), {{F::bath, word("B")}});
  other.replaces = in;
  other.at = not_said;
  CHECK(shop.refused(other) == Refused::bath_not_so);  // A would have been put under vacuum empty
}

TEST_CASE_TEMPLATE("no mass is taken whatever else is wrong and whatever the reason", At, InFile, OnServer) {
  Shop<At> shop;
  const BlankId id = shop.blanks.at(0);
  REQUIRE(shop.add(shop.entry(K::into_bath, id, {{F::bath, word("A")}})) > 0);
  Entry none = shop.entry(K::weighed, id, {{F::mass, 0.0}});
  none.overridden = "the scale says so";
  CHECK(shop.refused(none) == Refused::nothing);
  none.at -= 5h;
  CHECK(shop.refused(none) == Refused::nothing);
}

TEST_CASE_TEMPLATE("a blank that is soaked again is weighed wet again, and one to be filled again is not filled", At,
                   InFile, OnServer) {
  Shop<At> shop;
  const BlankId id = shop.blanks.at(0);
  REQUIRE(shop.add(shop.entry(K::into_bath, id, {{F::bath, word("A")}})) > 0);
  REQUIRE(shop.add(shop.entry(K::out_of_bath, id)) > 0);
  REQUIRE(shop.add(shop.entry(K::weighed, id, {{F::mass, 0.25}})) > 0);
  REQUIRE(shop.add(shop.entry(K::into_bath, id, {{F::bath, word("B")}})) > 0);
  REQUIRE(shop.add(shop.entry(K::out_of_bath, id)) > 0);
  CHECK(shop.reg.blank(id)->wet.empty());
  REQUIRE(shop.add(shop.entry(K::into_oven, id, {{F::load, word("L")}})) > 0);
  REQUIRE(shop.add(shop.entry(K::out_of_oven, id)) > 0);
  REQUIRE(shop.add(shop.entry(K::graded, id, {{F::verdict, word("fill")}})) > 0);
  REQUIRE(shop.add(shop.entry(K::filled, id)) > 0);
  CHECK(shop.reg.blank(id)->filled);
  REQUIRE(shop.add(shop.entry(K::graded, id, {{F::verdict, word("fill")}})) > 0);
  CHECK_FALSE(shop.reg.blank(id)->filled);
}

TEST_CASE_TEMPLATE("what a register held fills another one exactly", At, InFile, OnServer) {
  Shop<At> shop;
  EntriesForTest made;
  std::vector<Entry> life = life_of(made, shop.blanks.at(1), "T-1");
  life.erase(life.begin());
  REQUIRE(shop.reg.add(life, made.now()).has_value());
  Register other{At::place(shop.folder, "other.register"), series_0};
  other.fill(shop.reg.contents(), made.now());
  CHECK(other.contents() == shop.reg.contents());
  CHECK(other.issued_to("T-1") == shop.blanks);
  CHECK(other.series() == series_0);
  const auto a = other.known_blanks();
  const auto b = shop.reg.known_blanks();
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) CHECK(a.at(i).blank == b.at(i).blank);
  CHECK_THROWS_AS(other.fill({}, made.now()), WorldError);

  Register third{At::place(shop.folder, "third.register"), series_0};
  CHECK_THROWS_AS(third.fill({series_0, {}, {}, {}, shop.reg.all_entries()}, made.now()), WorldError);
  CHECK(third.last_entry() == 0);
  // A correction of an issue, of what was replaced before, of another blank's entry, and of what comes later.
  const RegisterContents whole = shop.reg.contents();
  const auto refused = [&](EntryNumber replaces, std::optional<BlankId> blank) {
    RegisterContents changed = whole;
    Entry& last = changed.entries.back();
    last.kind = K::corrected;
    last.values.clear();
    last.set(F::reason, word("no"));
    last.blank = blank;
    last.replaces = replaces;
    try {
      third.fill(changed, made.now());
    } catch (const WorldError&) {
      return third.last_entry() == 0;
    }
    return false;
  };
  const EntryNumber last = whole.entries.back().number;
  CHECK(refused(1, shop.blanks.at(0)));
  CHECK(refused(last, shop.blanks.at(1)));
  CHECK(refused(last + 1, shop.blanks.at(1)));
  CHECK(refused(last - 1, shop.blanks.at(0)));
  CHECK_FALSE(refused(last - 1, shop.blanks.at(1)));
}

TEST_CASE_TEMPLATE("an empty register takes over the series of what fills it", At, InFile, OnServer) {
  const TemporaryFolder folder;
  const BlankId begin = BlankId::read("K7T-4X54").value();
  Register from{At::place(folder, "from.register"), begin};
  const std::vector orders{OrderToIssue{"T-1", 3, {"job", "shop", "template", "0.1.0"}, {}}};
  const auto blanks = from.issue(orders, 0, EntriesForTest::start).value().front();
  Register to{At::place(folder, "to.register"), series_0};
  RegisterContents other_series = from.contents();
  other_series.series = series_0;
  CHECK_THROWS_AS(to.fill(other_series, EntriesForTest::start), WorldError);
  CHECK(to.series() == series_0);
  to.fill(from.contents(), EntriesForTest::start);
  CHECK(to.series() == begin);
  CHECK(to.issued_to("T-1") == blanks);
  CHECK(to.issue(std::vector{OrderToIssue{"T-2", 1, {"job", "shop", "template", "0.1.0"}, {}}}, 0,
                 EntriesForTest::start)
            .value()
            .front() == std::vector{begin.after(3)});
}
