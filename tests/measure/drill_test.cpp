#include "measure/drill.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

using namespace blankwright;

namespace {

Drill drill_of(std::string_view text) {
  const auto drill = read_drill(text);
  CAPTURE(text);
  if (!drill) FAIL(drill.error());
  return *drill;
}

}  // namespace

TEST_CASE("number and letter drills have their published diameters") {
  // ANSI/ASME B94.11M. Seen in public copies (a chart of number drills; Machinery's Handbook, 31st ed., pp. 2155 and
  // 2168), except #29, #60 and #80, which are from memory. Printed to 0.0005 in and exact.
  struct Row {
    std::string_view name;
    double inches;
  };
  const Row rows[] = {{"#7", 0.201},   {"#21", 0.159}, {"#25", 0.1495}, {"#29", 0.136}, {"#42", 0.0935},
                      {"#52", 0.0635}, {"#60", 0.04},  {"#80", 0.0135}, {"A", 0.234},   {"F", 0.257},
                      {"I", 0.272},    {"U", 0.368},   {"Z", 0.413}};
  for (const Row& row : rows) {
    CAPTURE(row.name);
    CHECK(std::abs(drill_of(row.name).diameter / inch - row.inches) <= 1e-9);
    CHECK(drill_of(row.name).name() == row.name);
  }
}

TEST_CASE("a shop's drills are read as they are stamped") {
  CHECK(drill_of("5/16").name() == "5/16");
  CHECK(drill_of("5/16 in").name() == "5/16");
  CHECK(drill_of("⅜").name() == "3/8");
  CHECK(drill_of("10/32 in").name() == "5/16");
  CHECK(drill_of("1-1/8 in").name() == "1-1/8");
  CHECK(drill_of("1 1/8").name() == "1-1/8");
  CHECK(drill_of("1 in").name() == "1 in");
  CHECK(drill_of("f").name() == "F");
  CHECK(drill_of(" # 7 ").name() == "#7");
  CHECK(drill_of("8.5 mm").name() == "8.5 mm");
  CHECK(drill_of("8.50mm").name() == "8.5 mm");
  CHECK(drill_of("0.257 in").name() == "0.257 in");
  CHECK(std::abs(drill_of("5/16").diameter / mm - 7.9375) < 1e-9);  // 20 × 0.396875 mm
  CHECK(std::abs(drill_of("1-1/8").diameter / mm - 28.575) < 1e-9);
  CHECK(std::abs(drill_of("8.5 mm").diameter / mm - 8.5) < 1e-9);
}

TEST_CASE("a bare number is no drill, and the answer says how to write it") {
  CHECK(read_drill("8.5").error() == "bare number where a drill belongs; write \"8.5 mm\"");
  CHECK(read_drill("10").error() == "bare number where a drill belongs; write \"10 mm\", \"#10\"");
  CHECK(read_drill("1").error() == "bare number where a drill belongs; write \"1 mm\", \"1 in\", \"#1\"");
  CHECK(read_drill("0.257").error() == "bare number where a drill belongs; write \"0.257 mm\", \"0.257 in\"");
}

TEST_CASE("what is no drill is refused with a reason") {
  for (const std::string_view text : {"", "#0", "#81", "#", "#7 mm", "FF", "5/16 kg", "8,5 mm", "0 mm", "-3 mm",
                                      "1 m", "5/0", "-5/16", "sharp", "\xff"}) {
    CAPTURE(text);
    const auto drill = read_drill(text);
    CHECK_FALSE(drill.has_value());
    if (!drill) CHECK_FALSE(drill.error().empty());
  }
}

TEST_CASE("published sizes rise, and each reads back by its name") {
  for (const UnitSystem system : {UnitSystem::metric, UnitSystem::inches}) {
    for (const auto& drills : {published_drills(system), standard_drills(system)}) {
      for (std::size_t i = 0; i < drills.size(); ++i) {
        CAPTURE(drills[i].name());
        if (i > 0) CHECK(drills[i - 1].diameter <= drills[i].diameter);
        CHECK(abs(drill_of(drills[i].name()).diameter - drills[i].diameter) < 1e-9 * mm);
        CHECK(drill_of(drills[i].name()).name() == drills[i].name());
      }
    }
  }
}

TEST_CASE("letters start where the numbers end") {
  // ANSI/ASME B94.11M: #1 is 0.228 in, A 0.234 in, and E is 1/4 in exactly.
  CHECK(drill_of("#1").diameter < drill_of("A").diameter);
  CHECK(abs(drill_of("E").diameter - drill_of("1/4").diameter) < 1e-9 * mm);
}

TEST_CASE("a shop that lists no drills is taken to own whole and half millimetres and the usual tap drills") {
  const auto owns = [](UnitSystem system, std::string_view name) {
    const auto drills = standard_drills(system);
    return std::any_of(drills.begin(), drills.end(), [name](const Drill& d) { return d.name() == name; });
  };
  for (const std::string_view name : {"3 mm", "8.5 mm", "9 mm", "20 mm", "6.8 mm", "10.2 mm"}) {
    CAPTURE(name);
    CHECK(owns(UnitSystem::metric, name));
  }
  for (const std::string_view name : {"1/16", "21/64", "1/2", "9/16", "1 in", "#25", "#7", "F"}) {
    CAPTURE(name);
    CHECK(owns(UnitSystem::inches, name));
  }
}

TEST_CASE("no bytes whatever upset the reading of a drill") {
  const std::string_view pieces[] = {"#", "7", "1", "/",    "16", " ",  "in", "mm",
                                     "-", ".", "F", "\xff", "½",  "\"", ","};
  std::mt19937 random{11};
  for (int round = 0; round < 20000; ++round) {
    std::string text;
    for (auto i = random() % 9; i > 0; --i) text += pieces[random() % std::size(pieces)];
    CAPTURE(text);
    const auto drill = read_drill(text);
    if (drill) {
      CHECK(abs(drill_of(drill->name()).diameter - drill->diameter) < 1e-2 * mm);
    } else {
      CHECK_FALSE(drill.error().empty());
    }
  }
}
