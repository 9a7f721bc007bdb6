#include "plan/tables/threads.h"
#include "measure/read_thread.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace blankwright;

namespace {

Thread thread_of(std::string_view designation) {
  const auto thread = read_thread(designation);
  CAPTURE(designation);
  if (!thread) FAIL(thread.error().message);
  return *thread;
}

}  // namespace

TEST_CASE("pitch and minor diameter of unified threads are the basic ones of the standard") {
  // ASME B1.1, basic dimensions, printed to 0.0001 in; public copies (UNC and UNF tables). 0: not in the copy seen.
  struct Row {
    std::string_view thread;
    double pitch_diameter, minor_diameter;
  };
  const Row rows[] = {
      {"#8-32", 0, 0.1302},        {"#10-24", 0.1629, 0.1449},  {"1/4-20", 0.2175, 0.1959},
      {"5/16-18", 0.2764, 0.2524}, {"3/8-16", 0.3344, 0.3073},  {"7/16-14", 0.3911, 0.3602},
      {"1/2-13", 0.4500, 0.4167},  {"9/16-12", 0.5084, 0.4723}, {"5/8-11", 0.5660, 0.5266},
      {"#8-36", 0.1460, 0.1339},   {"#10-32", 0.1697, 0.1562},  {"1/4-28", 0.2268, 0.2113},
      {"5/16-24", 0.2854, 0.2674}, {"3/8-24", 0.3479, 0.3299},  {"7/16-20", 0.4050, 0},
      {"1/2-20", 0.4675, 0.4459},  {"9/16-18", 0.5264, 0.5024}, {"5/8-18", 0.5889, 0},
  };
  for (const Row& row : rows) {
    CAPTURE(row.thread);
    const Thread thread = thread_of(row.thread);
    if (row.pitch_diameter > 0) CHECK(std::abs(pitch_diameter(thread) / inch - row.pitch_diameter) <= 6e-5);
    if (row.minor_diameter > 0) CHECK(std::abs(internal_minor_diameter(thread) / inch - row.minor_diameter) <= 6e-5);
  }
}

TEST_CASE("tensile stress area of a unified stud is the published one") {
  // ASME B1.1 appendix B; public copies of charts. Printed to 0.0001 in², 0.001 from 5/8 on; 5/16-24 is published as
  // 0.0580 although the formula gives 0.05807.
  struct Row {
    std::string_view thread;
    double area, tolerance;
  };
  const Row rows[] = {
      {"#10-24", 0.0175, 6e-5}, {"3/8-16", 0.0775, 6e-5},  {"7/16-14", 0.1063, 6e-5}, {"1/2-13", 0.1419, 6e-5},
      {"9/16-12", 0.182, 6e-5}, {"5/8-11", 0.226, 6e-4},   {"#8-36", 0.01474, 6e-5},  {"#10-32", 0.0200, 6e-5},
      {"1/4-28", 0.0364, 6e-5}, {"5/16-24", 0.0580, 1e-4}, {"3/8-24", 0.0878, 6e-5},  {"1/2-20", 0.1599, 6e-5},
      {"5/8-18", 0.256, 6e-4},
  };
  for (const Row& row : rows) {
    CAPTURE(row.thread);
    CHECK(std::abs(tensile_area(thread_of(row.thread)) / inch2 - row.area) <= row.tolerance);
  }
}

TEST_CASE("pitch and minor diameter of metric threads are the basic ones of the standard") {
  // ISO 724, printed to 0.001 mm. D1 of M4 to M12 and M16 seen in a public chart; the rest from memory. 0: no value.
  struct Row {
    std::string_view thread;
    double pitch_diameter, minor_diameter;
  };
  const Row rows[] = {
      {"M4", 3.545, 3.242},  {"M5", 4.480, 4.134}, {"M6", 5.350, 4.917},    {"M8", 7.188, 6.647},
      {"M10", 9.026, 8.376}, {"M12", 0, 10.106},   {"M14", 12.701, 11.835}, {"M16", 14.701, 13.835},
  };
  for (const Row& row : rows) {
    CAPTURE(row.thread);
    const Thread thread = thread_of(row.thread);
    if (row.pitch_diameter > 0) CHECK(std::abs(pitch_diameter(thread) / mm - row.pitch_diameter) <= 6e-4);
    CHECK(std::abs(internal_minor_diameter(thread) / mm - row.minor_diameter) <= 6e-4);
  }
}

TEST_CASE("tensile stress area of a metric stud is the published one") {
  // ISO 898-1, nominal stress area, printed to 0.1 mm², 1 mm² from M14 on. Coarse: public copy; fine: from memory.
  struct Row {
    std::string_view thread;
    double area, tolerance;
  };
  const Row rows[] = {
      {"M4", 8.78, 0.05},   {"M5", 14.2, 0.05},    {"M6", 20.1, 0.05},       {"M8", 36.6, 0.05},
      {"M10", 58.0, 0.05},  {"M12", 84.3, 0.05},   {"M14", 115, 0.5},        {"M16", 157, 0.5},
      {"M8x1", 39.2, 0.05}, {"M10x1", 64.5, 0.05}, {"M10x1.25", 61.2, 0.05}, {"M16x1.5", 167, 0.5},
  };
  for (const Row& row : rows) {
    CAPTURE(row.thread);
    CHECK(std::abs(tensile_area(thread_of(row.thread)) / mm2 - row.area) <= row.tolerance);
  }
}

TEST_CASE("the stud's own minor diameter is the rounded root's in inches and d3 in millimetres") {
  // 1/4-20 UNR 0.1905 in: ASME B1.1 table, public copy. M8 d3 6.466 mm: ISO 898-1, by its formula.
  CHECK(std::abs(external_minor_diameter(thread_of("1/4-20")) / inch - 0.1905) <= 1e-4);
  CHECK(std::abs(external_minor_diameter(thread_of("M8")) / mm - 6.466) <= 6e-4);
}

TEST_CASE("limits of a unified stud and its hole are those of classes 2A and 2B") {
  // ASME B1.1 limits as known from FED-STD-H28/2: from memory, reproduced by the standard's formulas.
  const ThreadLimits quarter = thread_limits(thread_of("1/4-20"));
  CHECK(std::abs(quarter.stud_major_least / inch - 0.2408) <= 2e-4);
  CHECK(std::abs(quarter.stud_pitch_least / inch - 0.2127) <= 2e-4);
  CHECK(std::abs(quarter.hole_pitch_most / inch - 0.2224) <= 2e-4);
  CHECK(std::abs(quarter.hole_minor_most / inch - 0.207) <= 5e-4);
  CHECK(std::abs(quarter.hole_minor_least / inch - 0.196) <= 5e-4);
  const ThreadLimits three_eighths = thread_limits(thread_of("3/8-16"));
  CHECK(std::abs(three_eighths.stud_pitch_least / inch - 0.3287) <= 2e-4);
  CHECK(std::abs(three_eighths.hole_pitch_most / inch - 0.3401) <= 2e-4);
  CHECK(std::abs(three_eighths.hole_minor_most / inch - 0.321) <= 5e-4);
}

TEST_CASE("limits of a metric stud and its hole are those of 6g and 6H") {
  // ISO 965-2, 6g: public copy. 0: not in it.
  struct Stud {
    std::string_view thread;
    double major_least, pitch_least;
  };
  for (const Stud& row : {Stud{"M4", 0, 3.433}, Stud{"M5", 4.826, 4.361}, Stud{"M6", 5.794, 5.212}}) {
    CAPTURE(row.thread);
    const ThreadLimits limits = thread_limits(thread_of(row.thread));
    if (row.major_least > 0) CHECK(std::abs(limits.stud_major_least / mm - row.major_least) <= 6e-4);
    CHECK(std::abs(limits.stud_pitch_least / mm - row.pitch_least) <= 1e-3);
  }
  // ISO 965-1, in micrometres: es and Td, Td2 of 6g, TD1 of 6H; from memory.
  struct Tolerances {
    std::string_view thread;
    double below, major, pitch, hole_minor;
  };
  for (const Tolerances& row : {Tolerances{"M8", 28, 212, 118, 265}, Tolerances{"M10", 32, 236, 132, 300},
                                Tolerances{"M12", 34, 265, 150, 335}}) {
    CAPTURE(row.thread);
    const Thread thread = thread_of(row.thread);
    const ThreadLimits limits = thread_limits(thread);
    const Length micrometre = 1e-3 * mm;
    CHECK(std::abs((thread.major - limits.stud_major_least) / micrometre - (row.below + row.major)) <= 0.5);
    CHECK(std::abs((pitch_diameter(thread) - limits.stud_pitch_least) / micrometre - (row.below + row.pitch)) <= 0.5);
    CHECK(std::abs((limits.hole_minor_most - limits.hole_minor_least) / micrometre - row.hole_minor) <= 0.5);
  }
}

TEST_CASE("tap charts count percent of thread on 1.299 P") {
  // Machinery's Handbook, 31st ed., p. 2155, table 2 (public copy), printed to 1 %.
  struct Row {
    std::string_view thread;
    double hole, percent;
  };
  const Row rows[] = {
      {"4-40", 0.0935, 57}, {"4-36", 0.086, 72}, {"2-56", 0.07, 69}, {"2-56", 0.073, 56}, {"4-40", 0.0905, 66}};
  for (const Row& row : rows) {
    CAPTURE(row.thread);
    const Share share = percent_of_thread(thread_of(row.thread), row.hole * inch, PercentBasis::national_form);
    CHECK(std::abs(share / percent - row.percent) <= 0.6);
  }
}

TEST_CASE("75 percent of thread is two different holes on the two bases") {
  // 1/4-20: the shop formula D − 0.0130 × percent/tpi, and the text formula of Machinery's Handbook; printed to
  // 0.0001.
  const Thread thread = thread_of("1/4-20");
  CHECK(std::abs(hole_for_percent(thread, 75 * percent, PercentBasis::national_form) / inch - 0.2013) <= 6e-5);
  CHECK(std::abs(hole_for_percent(thread, 75 * percent, PercentBasis::internal_thread) / inch - 0.2094) <= 6e-5);
  CHECK(name_of(PercentBasis::national_form) != name_of(PercentBasis::internal_thread));
}

TEST_CASE("conventional tap drills leave the percent of thread that their charts give") {
  // Machinery's Handbook, 31st ed., p. 2168, table 4 (decimals seen); #8-36 from memory, #10-24 a public drill chart.
  // Percent on 1.299 P, printed to 1 %.
  struct Row {
    std::string_view thread, drill;
    double percent;
  };
  const Row rows[] = {
      {"#8-36", "#29", 78},    {"#10-24", "#25", 75},   {"1/4-28", "#3", 80},     {"5/16-18", "F", 77},
      {"5/16-24", "I", 75},    {"3/8-16", "5/16", 77},  {"7/16-14", "U", 75},     {"7/16-20", "25/64", 72},
      {"1/2-13", "27/64", 78}, {"1/2-20", "29/64", 72}, {"9/16-12", "31/64", 72}, {"5/8-11", "17/32", 79},
      {"5/8-18", "37/64", 65},
  };
  for (const Row& row : rows) {
    CAPTURE(row.thread);
    const Thread thread = thread_of(row.thread);
    const auto tap_drill = conventional_tap_drill(thread);
    REQUIRE(tap_drill.has_value());
    CHECK(tap_drill->drill.name() == row.drill);
    CHECK_FALSE(tap_drill->source.empty());
    const Share share = percent_of_thread(thread, tap_drill->drill.diameter, PercentBasis::national_form);
    CHECK(std::abs(share / percent - row.percent) <= 0.8);
  }
}

TEST_CASE("conventional metric tap drills are the charts' ones") {
  // Mechanical Engineer's Data Handbook, p. 299, section 8.2.4 (coarse); a public vendor's chart (fine). Printed to
  // 0.1 mm.
  struct Row {
    std::string_view thread;
    double drill;
  };
  const Row rows[] = {{"M4", 3.3},   {"M5", 4.2},   {"M6", 5.0},    {"M8", 6.8},      {"M12", 10.2},
                      {"M16", 14.0}, {"M8x1", 7.0}, {"M10x1", 9.0}, {"M10x1.25", 8.8}};
  for (const Row& row : rows) {
    CAPTURE(row.thread);
    const auto tap_drill = conventional_tap_drill(thread_of(row.thread));
    REQUIRE(tap_drill.has_value());
    CHECK(std::abs(tap_drill->drill.diameter / mm - row.drill) <= 0.06);
  }
}

TEST_CASE("a fine thread does not get the coarse one's tap drill") {
  CHECK(conventional_tap_drill(thread_of("M10x1"))->drill.name() == "9 mm");
  CHECK(conventional_tap_drill(thread_of("M10x1.25-6g-LH"))->drill.name() == "8.8 mm");
  CHECK(conventional_tap_drill(thread_of("1/4-20 UNRC-2A-LH"))->drill.name() == "#7");
  CHECK_FALSE(conventional_tap_drill(thread_of("M10x0.75")).has_value());
  CHECK_FALSE(conventional_tap_drill(thread_of("3/8-20")).has_value());
}

TEST_CASE("the common threads' tap drills lie inside the minor diameter limits of 2B and 6H") {
  // ASME B1.1 and ISO 965-1 limits against the charts' drills: two sources that must agree.
  for (const std::string_view text : {"#8-32",  "#10-24", "#10-32",  "1/4-20", "1/4-28", "5/16-18", "5/16-24",
                                      "3/8-16", "3/8-24", "7/16-14", "1/2-13", "5/8-11", "M4",      "M5",
                                      "M6",     "M8",     "M8x1",    "M10",    "M12",    "M14",     "M16"}) {
    CAPTURE(text);
    const Thread thread = thread_of(text);
    const ThreadLimits limits = thread_limits(thread);
    const Length hole = conventional_tap_drill(thread)->drill.diameter;
    CHECK(hole >= limits.hole_minor_least);
    CHECK(hole <= limits.hole_minor_most);
  }
}
