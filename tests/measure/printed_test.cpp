#include "measure/printed.h"

#include <doctest/doctest.h>

#include <set>

#include "measure/quantity_text.h"

using namespace blankwright;

TEST_CASE("a printed quantity has its number, unit and decimal apart, and its text puts them together") {
  // 1-5/16 in is 1.3125 in; ISO 80000-1 puts a space between number and unit.
  const Printed length = printed(1.3125 * inch, {UnitSystem::inches, Round::nearest, Fineness::sawn});
  REQUIRE(length.amounts.size() == 1);
  CHECK(length.amounts.front() == Amount{{"1-5/16"}, PrintedUnit::inches});
  CHECK(text(length.aside.value()) == "1.313");
  CHECK_FALSE(length.per.has_value());
  CHECK(text(length) == "1-5/16 in (1.313)");
  CHECK(amounts_text(length, english_spelling()) == "1-5/16 in");
  CHECK(aside_text(length, english_spelling()) == "(1.313)");
  CHECK(per_text(length, english_spelling()).empty());

  const Printed time = printed(150 * minute);
  CHECK(time.amounts == std::vector{Amount{{"2"}, PrintedUnit::h}, Amount{{"30"}, PrintedUnit::min}});
  CHECK(text(time) == "2 h 30 min");
}

TEST_CASE("a slope says what it is counted on") {
  Printed slope = printed(decimal(0.55, 2), PrintedUnit::millimetres);
  slope.per = Amount{{"100"}, PrintedUnit::millimetres};
  CHECK(text(slope) == "0.55 mm per 100 mm");
  CHECK(amounts_text(slope, english_spelling()) == "0.55 mm");
  CHECK(per_text(slope, english_spelling()) == "per 100 mm");
}

TEST_CASE("numbers, units and what is between them are written as a language has it") {
  Spelling german;
  german.decimal_sign = ",";
  german.per = "auf";
  german.not_known = "nicht bekannt";
  german.units.at(static_cast<std::size_t>(PrintedUnit::rpm)) = "U/min";
  CHECK(text(printed(2500 * per_minute), german) == "2500 U/min");
  CHECK(text(Printed{}, german) == "nicht bekannt");
  CHECK(text(Printed{}) == "not known");
  Printed slope = printed(decimal(0.55, 2), PrintedUnit::millimetres);
  slope.per = Amount{{"100"}, PrintedUnit::millimetres};
  CHECK(text(slope, german) == "0,55 mm auf 100 mm");
  const Printed length = printed(1.3125 * inch, {UnitSystem::inches, Round::nearest, Fineness::sawn});
  CHECK(text(length, german) == "1-5/16 in (1,313)");
}

TEST_CASE("a drawing's millimetres end with no nought, its inches have three decimals") {
  constexpr Printing metric{UnitSystem::metric, Round::nearest, Fineness::measured};
  CHECK(text(drawn_number(45 * mm, metric)) == "45");
  CHECK(text(drawn_number(45.5 * mm, metric)) == "45.5");
  CHECK(text(drawn_number(45.05 * mm, metric)) == "45.05");
  CHECK(text(drawn_number(100 * mm, metric)) == "100");
  CHECK(text(drawn_number(0 * mm, metric)) == "0");
  CHECK(text(drawn_number(45.06 * mm, {UnitSystem::metric, Round::up, Fineness::sawn})) == "45.1");
  CHECK(text(drawn_number(1 * inch, {UnitSystem::inches, Round::nearest, Fineness::measured})) == "1.000");
}

TEST_CASE("no two units have one name or one key") {
  CHECK(std::set<std::string_view>(unit_words.begin(), unit_words.end()).size() == unit_words.size());
  CHECK(std::set<std::string_view>(unit_keys.begin(), unit_keys.end()).size() == unit_keys.size());
}
