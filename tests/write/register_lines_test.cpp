#include "write/register_lines.h"

#include <doctest/doctest.h>

#include "../entries/entries_for_test.h"

using namespace blankwright;

namespace {

RegisterContents contents() {
  RegisterContents out;
  out.series = BlankId::read("K7T-4X54").value();
  out.texts = {"id = \"T-1\"\nclient = \"Łukasz & «Ωmega» \\ \"\n", "shop\r\n", "", "id = \"T-1\"\n"};
  const Instant at{std::chrono::seconds{1'800'000'123}};
  out.orders.push_back({"T-1", at, {"beech, European", "spalted", "blue", 6}});
  const std::chrono::seconds day{86'400};
  out.prints.push_back({"T-1", 1, at, at + day, 1, "Blankwright 0.1.0", 0, 1, 2});
  out.prints.push_back({"T-1", 2, at + day, at + 2 * day, 9, "Blankwright 0.2.0", 3, 1, 2});
  EntriesForTest made;
  out.entries = life_of(made, BlankId::nth(0), "T-1");
  Entry last = made.made(EntryKind::weighed, BlankId::nth(0),
                         {{Field::mass, 0.1 + 0.2}, {Field::remark, std::string{"=1+1"}}});
  last.offset = std::chrono::minutes{-210};
  last.person = "Ada";
  last.replaces = 4;
  last.overridden = "the scale was wrong until noon";
  out.entries.push_back(last);
  // All but the first: an earlier version did not keep when that was entered.
  for (const Entry& entry : out.entries) out.written.emplace(entry.number, at + day);
  out.written.erase(1);
  return out;
}

}  // namespace

TEST_CASE("what is exported comes back equal, bit by bit") {
  const RegisterContents before = contents();
  const std::string text = register_as_lines(before);
  const auto after = register_from_lines(text);
  REQUIRE_MESSAGE(after.has_value(), (after ? "" : after.error()));
  CHECK(after->contents == before);
  CHECK(after->is_whole);
  CHECK(register_as_lines(after->contents) == text);
}

TEST_CASE("a cut with one answer, of before filled and hard were told apart, comes back as it was") {
  RegisterContents before = contents();
  EntriesForTest made;
  Entry cut = made.made(EntryKind::witness_cut, BlankId::nth(0), {{Field::result, std::string{"pass"}}});
  cut.number = before.entries.back().number + 1;
  before.entries.push_back(cut);
  const auto after = register_from_lines(register_as_lines(before));
  REQUIRE_MESSAGE(after.has_value(), (after ? "" : after.error()));
  CHECK(after->contents.entries == before.entries);
}

TEST_CASE("an entry is a line that others can read") {
  const std::string text = register_as_lines(contents());
  CHECK(text.starts_with("{\"format\":\"blankwright-register/2\",\"series\":\"K7T4X54\"}\n"));
  // 1'800'000'000 s is 2027-01-15T08:00:00Z (by `date -u -d @1800000000`); the fourth entry comes four hours later.
  CHECK(text.find("{\"entry\":4,\"kind\":\"weighed\",\"at\":\"2027-01-15T13:00:00+01:00\",\"written\":\"2027-01-"
                  "16T08:02:03+00:00\","
                  "\"blank\":\"NG732GX\","
                  "\"says\":{\"mass\":0.131,\"tare\":0.003}}\n") != std::string::npos);
  CHECK(text.find("{\"entry\":1,\"kind\":\"issued\",\"at\":\"2027-01-15T10:00:00+01:00\",\"blank\"") !=
        std::string::npos);
}

TEST_CASE("a text that is no export is told by its line") {
  const std::string good = register_as_lines(contents());
  const auto fault = [](const std::string& text) {
    const auto read = register_from_lines(text);
    return read ? std::string{} : read.error();
  };
  CHECK(fault("") == "it is empty");
  CHECK(fault("{}\n") == "line 1: the first line has to be {\"format\": \"blankwright-register/2\"}");
  CHECK(fault("no\n") == "line 1 is no line of a register's export");
  const std::string head = "{\"format\":\"blankwright-register/1\"}\n";
  // Exports from before a register had a series of its own begin so.
  CHECK(register_from_lines(head)->contents.series.shown() == "NG7-32GX");
  CHECK(fault("{\"format\":\"blankwright-register/1\",\"series\":\"K7T4X52\"}\n") ==
        "line 1: its series is no blank's ID");
  const std::string at = "\"at\":\"2027-01-15T13:00:00Z\"";
  CHECK(fault(head + "{\"entry\":1,\"kind\":\"boiled\"," + at + ",\"says\":{}}\n") ==
        "line 2: no entry is of the kind \"boiled\"");
  CHECK(fault(head + "{\"entry\":1,\"kind\":\"sent\"," + at + ",\"blank\":\"NG732GH\",\"says\":{}}\n") ==
        "line 2: its blank is no blank's ID");
  CHECK(fault(head + "{\"entry\":1,\"kind\":\"weighed\"," + at + ",\"says\":{\"mass\":\"heavy\"}}\n") ==
        "line 2: mass cannot be \"heavy\"");
  CHECK(fault(head + "{\"entry\":1,\"kind\":\"weighed\"," + at + ",\"says\":{\"colour\":1}}\n") ==
        "line 2: an entry has no field \"colour\"");
  const auto entry = [&](const std::string& rest) { return fault(head + "{\"entry\":9," + rest + "}\n"); };
  const std::string blank = ",\"blank\":\"NG732GX\"";
  CHECK(entry("\"kind\":\"weighed\"," + at + ",\"says\":{\"mass\":1}") == "line 2: weighed needs a blank");
  CHECK(entry("\"kind\":\"weighed\"," + at + blank + ",\"says\":{}") == "line 2: weighed needs mass");
  CHECK(entry("\"kind\":\"weighed\"," + at + blank + ",\"says\":{\"mass\":-1}") ==
        "line 2: mass is between 0.1 and 100000 g; -1000 g is not");
  CHECK(entry("\"kind\":\"weighed\"," + at + blank + ",\"says\":{\"mass\":1e308}")
            .starts_with("line 2: mass is between 0.1 and 100000 g"));
  CHECK(entry("\"kind\":\"measured\"," + at + blank + ",\"says\":{\"width\":0.04,\"depth\":0.04,\"length\":4}") ==
        "line 2: length is between 1 and 3000 mm; 4000 mm is not");
  CHECK(entry("\"kind\":\"board\"," + at + ",\"says\":{\"board\":\"B\",\"length\":4}") == "");
  CHECK(entry("\"kind\":\"into-bath\"," + at + blank + ",\"says\":{\"bath\":\"SG8-CRCT\"}") == "");  // entered of old
  CHECK(entry("\"kind\":\"weighed\"," + at + blank + ",\"says\":{\"mass\":1e999}").starts_with("line 2 is no"));
  CHECK(entry("\"kind\":\"weighed\"," + at + blank + ",\"says\":{\"mass\":1,\"force\":1}") ==
        "line 2: weighed has no force");
  CHECK(entry("\"kind\":\"released\"," + at + blank + ",\"says\":{\"bath\":\"A\"}") ==
        "line 2: released is not said of a blank");
  CHECK(entry("\"kind\":\"corrected\"," + at + blank + ",\"says\":{\"reason\":\"no\"}") ==
        "line 2: corrected needs the entry that it replaces");
  CHECK(entry("\"kind\":\"sent\"," + at + blank + ",\"replaces\":1.5,\"says\":{}")
            .starts_with("line 2: replaces is a whole number"));
  CHECK(entry("\"kind\":\"sent\"," + at + blank + ",\"person\":\"A\\u0000da\",\"says\":{}")
            .starts_with("line 2: person"));
  CHECK(entry("\"kind\":\"into-bath\"," + at + blank + ",\"says\":{\"bath\":\"../B\"}").starts_with("line 2: bath"));
  CHECK(fault(head + "{\"entry\":1e18,\"kind\":\"sent\"," + at + blank + ",\"says\":{}}\n")
            .starts_with("line 2: entry is a whole number"));
  const auto utc = register_from_lines(head + "{\"entry\":1,\"kind\":\"sent\"," + at + blank + ",\"says\":{}}\n");
  REQUIRE(utc.has_value());
  CHECK(utc->contents.entries.front().offset == std::chrono::minutes{0});
  CHECK(fault(good.substr(0, good.size() - 5)).starts_with("line 30 is no line"));
}

TEST_CASE("an export that was cut or changed anywhere is refused, and none of it is taken over") {
  const std::string good = register_as_lines(contents());
  CHECK(good.ends_with("}}\n"));
  for (std::size_t cut = good.find('\n') + 1; cut + 1 < good.size(); cut = good.find('\n', cut) + 1) {
    CAPTURE(cut);
    const auto read = register_from_lines(good.substr(0, cut));
    REQUIRE_FALSE(read.has_value());
    CHECK(read.error() == "it is not whole: its end line is missing; take another copy");
  }
  CHECK_FALSE(register_from_lines(good + good.substr(good.rfind('\n', good.size() - 2) + 1)).has_value());
  std::string changed = good;
  changed.replace(changed.find("spalted"), 7, "spoiled");
  CHECK(register_from_lines(changed).error().find("the export is not as it was written") != std::string::npos);
  std::string without = good;
  const std::size_t entry = without.find("{\"entry\":5");
  without.erase(entry, without.find('\n', entry) + 1 - entry);
  CHECK_FALSE(register_from_lines(without).has_value());
}

TEST_CASE("a line with brackets without end is refused and not followed down") {
  const std::string head = "{\"format\":\"blankwright-register/1\"}\n";
  const std::string deep = std::string(200'000, '[') + std::string(200'000, ']');
  for (const std::string& line : {deep, "{\"entry\":" + deep + "}", "{\"order\":\"A\",\"quantity\":" + deep + "}",
                                  "{\"entry\":1,\"kind\":\"weighed\",\"at\":\"2027-01-15T13:00:00Z\",\"says\":{"
                                  "\"mass\":" +
                                      deep + "}}"}) {
    const auto read = register_from_lines(head + line + "\n");
    REQUIRE_FALSE(read.has_value());
    CHECK(read.error() == "line 2: nothing in an export is nested so deep");
  }
}
