#include "read/entry_text.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "read/entry_csv.h"

using namespace blankwright;

namespace {

std::string fault(Field field, std::string_view typed, std::string_view unit = {}) {
  const auto value = read_field(facts_of(field), typed, unit);
  return value ? std::string{} : value.error();
}

double number(Field field, std::string_view typed, std::string_view unit = {}) {
  const auto value = read_field(facts_of(field), typed, unit);
  REQUIRE_MESSAGE(value.has_value(), (value ? "" : value.error()));
  return std::get<double>(*value);
}

SaidEntry said(std::string_view kind, std::string blank,
               std::vector<std::pair<std::string, std::string>> values = {}) {
  SaidEntry out;
  out.kind = find_kind(kind);
  REQUIRE(out.kind != nullptr);
  out.blank = std::move(blank);
  out.values = std::move(values);
  return out;
}

std::vector<std::string> faults(const SaidEntry& entry) {
  const auto read = read_entry(entry);
  return read ? std::vector<std::string>{} : read.error();
}

/// A value that a field takes.
std::string good_value(const FieldFacts& field) {
  if (field.kind) return std::string{example(*field.kind)};
  if (field.form == TextForm::blank_id) return "K7T-4X54";
  return field.words.empty() ? "name-1" : std::string{field.words.front()};
}

}  // namespace

TEST_CASE("figures carry their unit, or are bare in the unit that was announced") {
  CHECK(number(Field::mass, "184.2 g") == doctest::Approx(0.1842));
  CHECK(number(Field::mass, " 184.2 ", "g") == doctest::Approx(0.1842));
  CHECK(number(Field::mass, "6.5 oz", "g") == doctest::Approx(6.5 * 0.45359237 / 16));  // NIST SP 811 B.8
  CHECK(number(Field::width, "1-3/4 in") == doctest::Approx(0.04445));
  CHECK(number(Field::lean_1, "-0.2 mm") == doctest::Approx(-0.0002));
  CHECK(number(Field::moisture, "8", "%") == doctest::Approx(0.08));
  // A vacuum gauge shows 28 inHg for 28 inHg below the air: with or without its minus. 1 inHg = 3386.389 Pa (NIST).
  CHECK(number(Field::gauge, "28 inHg") == doctest::Approx(-28 * 3386.389).epsilon(1e-6));
  CHECK(number(Field::gauge, "-95 kPa") == doctest::Approx(-95e3));
  CHECK(fault(Field::mass, "184.2") == "mass: bare number where a mass belongs; write 184.2 g");
  CHECK(fault(Field::mass, "184.2 mm").starts_with("mass: "));
  CHECK(fault(Field::mass, "-1 g") == "mass is between 0.1 and 100000 g; -1 g is not");
  CHECK(fault(Field::mass, "") == "mass is empty");
  CHECK(fault(Field::mass, "heavy", "g").starts_with("mass: "));
}

TEST_CASE(
    "a figure outside its range is told with the range in the unit that was typed, and with a slip of the unit") {
  CHECK(fault(Field::width, "45 m") == "width is between 0.001 and 1 m; 45 m is not: 45 mm?");
  // 1 m is 39.37 in, 1 mm 0.03937 in; told so that both ends can be typed.
  CHECK(fault(Field::width, "1-3/4 ft") == "");
  CHECK(fault(Field::width, "4 ft") == "width is between 0.003281 and 3.28 ft; 4 ft is not");
  CHECK(fault(Field::depth, "45", "in") == "depth is between 0.03938 and 39.37 in; 45 in is not");
  CHECK(fault(Field::depth, "39.37 in") == "");
  CHECK(fault(Field::mass, "131 kg") == "mass is between 0.0001 and 100 kg; 131 kg is not: 131 g?");
  CHECK(fault(Field::moisture, "99999", "%") == "moisture is between 0 and 400 %; 99999 % is not");
  CHECK(fault(Field::moisture, "400 %") == "");
  CHECK(fault(Field::temperature, "400 degC") ==
        "temperature is between -40 and 300 degC; 400 degC is not: 400 degF?");
  CHECK(fault(Field::temperature, "199 degF") == "");
  CHECK(fault(Field::gauge, "140 kPa").starts_with("gauge is between 0 and 105 kPa; 140 kPa is not"));
  CHECK(fault(Field::gauge, "31 inHg") == "");
  CHECK(fault(Field::lean_1, "-120 mm").starts_with("lean_1 is between -100 and 100 mm; -120 mm is not"));
  CHECK(fault(Field::over, "0 mm").starts_with("over is between 1 and 2000 mm"));
  CHECK(fault(Field::width, "45 m\u00a0").starts_with("width is between 1 and 1000 mm; 45000 mm is not"));
  CHECK(*number_problem(facts_of(Field::temperature), 1e308) ==
        "temperature is between -40 and 300 °C; 1e+308 °C is not");
  CHECK(number_problem(facts_of(Field::mass), std::nan("")).has_value());
  CHECK_FALSE(number_problem(facts_of(Field::mass), 0.131).has_value());
}

TEST_CASE("an order may be called like a blank; what is kept already may be so, too") {
  CHECK(fault(Field::bath, "K7T-4X54") == "bath: K7T-4X54 is a blank, not a bath");
  CHECK(fault(Field::reason, "xndt") == "reason: xndt is an action code, not a reason");
  CHECK(fault(Field::reason, "mixed up with K7T-4X54") == "");
  CHECK(fault(Field::order, "K7T-4X54") == "");
  CHECK(read_kept_text(facts_of(Field::bath), "K7T-4X54").has_value());
  CHECK_FALSE(read_kept_text(facts_of(Field::bath), "../K").has_value());
}

TEST_CASE("words are those of the list, names are plain, texts can be printed") {
  CHECK(std::get<std::string>(*read_field(facts_of(Field::verdict), "Go-On")) == "go-on");
  CHECK(fault(Field::verdict, "maybe") == "verdict is one of go-on, fill, scrap, not \"maybe\"");
  CHECK(fault(Field::bath, "two words") == "bath is 1 to 40 of A-Z a-z 0-9 . _ -, not \"two words\"");
  CHECK(fault(Field::bath, std::string(41, 'x')) != "");
  CHECK(fault(Field::remark, "a\x1B[2Jb").starts_with("remark: "));
  CHECK(fault(Field::remark, std::string(201, 'x')) == "remark is longer than 200 characters");
  // "e" and a combining acute are one character (Unicode Standard Annex 15).
  CHECK(std::get<std::string>(*read_field(facts_of(Field::remark), "e\u0301")) == "\u00E9");
}

TEST_CASE("every kind can be said with what it needs, and lacks it by name when it is left out") {
  for (const KindFacts& kind : kind_list()) {
    if (kind.kind == EntryKind::issued) continue;
    CAPTURE(kind.name);
    SaidEntry entry = said(kind.name, kind.of_blank ? "K7T-4X54" : "");
    if (kind.kind == EntryKind::corrected) entry.replaces = 1;
    int needed = 0;
    for (const FieldUse& use : kind.fields) needed += use.needed ? 1 : 0;
    CHECK(faults(entry).size() == static_cast<std::size_t>(needed));
    for (const FieldUse& use : kind.fields) {
      const FieldFacts& field = facts_of(use.field);
      entry.values.emplace_back(field.name, good_value(field));
    }
    CHECK(faults(entry).empty());
    REQUIRE(read_entry(entry).has_value());
    CHECK(read_entry(entry)->values.size() == kind.fields.size());
    CHECK(says_text(*read_entry(entry), UnitSystem::metric) != "");
  }
}

TEST_CASE("what a field is shown with as an example can be typed") {
  for (const FieldFacts& field : field_list()) {
    CAPTURE(field.name);
    CHECK(field.such_as.empty() == !field.kind.has_value());
    if (field.kind) CHECK(read_field(field, field.such_as, {}).has_value());
  }
}

TEST_CASE("all that is wrong with an entry is told at once") {
  CHECK(faults(said("weighed", "K7T-4X52", {{"mas", "1 g"}, {"tare", "3"}})) ==
        std::vector<std::string>{
            "K7T-4X52 is mistyped: its last symbol does not fit the others", "weighed has no mas; did you mean mass?",
            "tare: bare number where a mass belongs; write 3 g",
            "weighed needs mass (what the scale shows, tag and wire on it): write \"mass=153 g\""});
  CHECK(faults(said("weighed", "", {{"mass", "1 g"}, {"mass", "2 g"}})) ==
        std::vector<std::string>{"weighed needs a blank's ID", "mass is said twice"});
  CHECK(faults(said("vacuum-on", "K7T-4X54", {{"bath", "A"}})) ==
        std::vector<std::string>{"vacuum-on is not said of a blank"});
  CHECK(faults(said("issued", "K7T-4X54", {{"order", "A"}})) ==
        std::vector<std::string>{"blanks are issued by compile, not by hand"});
  CHECK(faults(said("corrected", "", {{"reason", "wrong"}})) ==
        std::vector<std::string>{"corrected needs the number of the entry that was wrong"});
}

TEST_CASE("a kind is found by its name or its code, and a near miss is named") {
  CHECK((*read_kind("Weighed"))->kind == EntryKind::weighed);
  CHECK((*read_kind("xkgb"))->kind == EntryKind::weighed);
  CHECK(read_kind("wieghed").error() == "nothing is called \"wieghed\"; did you mean weighed?");
}

// ---- tables ----

namespace {

constexpr Instant now{std::chrono::seconds{1'800'000'000}};

std::vector<std::string> table_faults(std::string_view text) {
  const auto read = read_entries_csv(text, now, Zone{});
  return read ? std::vector<std::string>{} : read.error();
}

}  // namespace

TEST_CASE("a table of entries is read with its columns in any order") {
  const auto read = read_entries_csv(
      "\xEF\xBB\xBF"
      "blank,mass,kind,at,person,remark\r\n"
      "K7T-4X54,184.2 g,weighed,2027-01-14T10:00:00+01:00,Ada,\"he said \"\"dry\"\",\nand meant it\"\r\n"
      ",,,,,\r\n"
      "K7T4X54,\"190 g\",weighed,,,\r\n",
      now, Zone{});
  // A line end within a cell is no text of one line.
  REQUIRE_FALSE(read.has_value());
  CHECK(read.error().size() == 1);
  CHECK(read.error().front().starts_with("line 2: remark: "));

  const auto good = read_entries_csv(
      "kind;blank;mass;at;replaces;override;remark\n"
      "weighed;K7T-4X54;184.2 g;2027-01-14T10:00:00+01:00;17;the scale was moved;\"a;b\"\n"
      "weighed;K7T4X54;190 g\n",
      now, Zone{});
  REQUIRE_MESSAGE(good.has_value(), (good ? "" : good.error().front()));
  REQUIRE(good->entries.size() == 2);
  CHECK(good->lines == std::vector{2, 3});
  const Entry& first = good->entries.front();
  CHECK(first.at == Instant{std::chrono::seconds{1'799'917'200}});  // date -u -d 2027-01-14T09:00:00Z +%s
  CHECK(first.replaces == 17);
  CHECK(first.overridden == "the scale was moved");
  CHECK(first.text(Field::remark) == "a;b");
  CHECK(first.get<Mass>(Field::mass) == 0.1842 * kilogram);
  CHECK(good->entries.at(1).at == not_said);
}

TEST_CASE("where semicolons part the columns a comma in a figure is its decimal sign, and nowhere else") {
  const auto read = read_entries_csv(
      "kind;blank;mass;tare;remark\nweighed;K7T-4X54;181,2 g;\"0,05 oz\";soft, punky\n", now, Zone{});
  REQUIRE_MESSAGE(read.has_value(), (read ? "" : read.error().front()));
  CHECK(read->entries.front().get<Mass>(Field::mass) == 0.1812 * kilogram);
  CHECK(read->entries.front().text(Field::remark) == "soft, punky");
  // Thousands that are parted, and tables parted otherwise, could mean a thousand times as much.
  CHECK(table_faults("kind;blank;mass\nweighed;K7T-4X54;1.181,2 g\n").size() == 1);
  CHECK(table_faults("kind;blank;mass\nweighed;K7T-4X54;1,181,2 g\n").size() == 1);
  CHECK(table_faults("kind\tblank\tmass\nweighed\tK7T-4X54\t1,181 g\n").size() == 1);
  CHECK(table_faults("kind,blank,mass\nweighed,K7T-4X54,\"1,181 g\"\n").size() == 1);
}

TEST_CASE("each bad row of a table is named, and none is half taken") {
  CHECK(table_faults("") == std::vector<std::string>{"line 1: there is no header row"});
  CHECK(table_faults("kind,weight\n") ==
        std::vector<std::string>{"line 1: no column is called \"weight\"; did you mean mass?"});
  CHECK(table_faults("blank,mass\n") == std::vector<std::string>{"line 1: the header needs a column \"kind\""});
  CHECK(table_faults("kind,kind\n") == std::vector<std::string>{"line 1: there are two columns \"kind\""});
  CHECK(table_faults("kind,blank,mass,at,replaces\n"
                     "weighed,K7T-4X54,184.2 g,,\n"
                     "wieghed,K7T-4X54,1 g,,\n"
                     ",K7T-4X54,1 g,,\n"
                     "weighed,K7T-4X54,1 g,long ago,x\n"
                     "weighed,K7T-4X54,1 g,,,,\n"
                     "weighed,K7T-4X54,\"1 g\n") ==
        std::vector<std::string>{
            "line 3: nothing is called \"wieghed\"; did you mean weighed?", "line 4: says no kind",
            table_faults("kind,blank,mass,at,replaces\n\n\n\nweighed,K7T-4X54,1 g,long ago,\n").at(0),
            "line 5: replaces is the number of an entry, not \"x\"", "line 6: has 7 cells, and the header 5",
            "line 7: a quotation mark is never closed"});
  CHECK(table_faults("kind,blank,mass\r\nweighed,K7T-4X54,18 g") ==
        std::vector<std::string>{"line 2: the table's last line has no line end: it may be cut short; add one"});
  CHECK(table_faults("kind,blank,mass\r\nweighed,K7T-4X54,18 g\r").empty());  // all of the row is there
  CHECK(table_faults("kind,remark\nboard,\xFF\n") == std::vector<std::string>{"line 2: this is not UTF-8"});
}

TEST_CASE("a column's range is told as wide as any kind of row has it") {
  const auto columns = entry_key_infos();
  const auto limits = [&](std::string_view name) { return std::ranges::find(columns, name, &KeyInfo::name)->limits; };
  CHECK(limits("width") == "1 mm to 1000 mm");
  CHECK(limits("length") == "1 mm to 10000 mm");  // of a board
  CHECK(limits("bath").empty());
}
