#include "plan/tables/grades.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "measure/read_thread.h"
#include "plan/tables/threads.h"

using namespace blankwright;

namespace {

Grade grade(std::string_view written, Length diameter = 8 * mm) {
  const auto found = find_grade(written, diameter);
  REQUIRE_MESSAGE(found.has_value(), std::string{written});
  return *found;
}

double ksi(Stress stress) { return stress / (1000 * psi); }

}  // namespace

TEST_CASE("strengths by grade are the standards' least ones") {
  // ASTM B16 (public copy).
  CHECK(ksi(grade("C36000 H02", 0.5 * inch).tensile) == doctest::Approx(57));
  CHECK(ksi(grade("C36000 H02", 0.625 * inch).tensile) == doctest::Approx(55));
  CHECK(ksi(grade("C36000 H02", 1.25 * inch).tensile) == doctest::Approx(50));
  CHECK(ksi(grade("C36000 O60").tensile) == doctest::Approx(48));
  CHECK(ksi(*grade("C36000 H02").yield) == doctest::Approx(25));
  // ASTM A240 table 2, ASTM F593 group 1 CW1, ASTM A307, SAE J429, ISO 898-1 table 3, ISO 3506-1: from memory.
  CHECK(ksi(grade("304").tensile) == doctest::Approx(75));
  CHECK(ksi(*grade("304").yield) == doctest::Approx(30));
  CHECK(ksi(grade("304 CW").tensile) == doctest::Approx(100));
  CHECK(ksi(*grade("304 CW").yield) == doctest::Approx(65));
  CHECK(ksi(grade("ASTM A307").tensile) == doctest::Approx(60));
  CHECK_FALSE(grade("ASTM A307").yield.has_value());
  CHECK(ksi(grade("SAE grade 2").tensile) == doctest::Approx(74));
  CHECK(ksi(*grade("SAE grade 2").yield) == doctest::Approx(57));
  CHECK(grade("4.8").tensile / megapascal == doctest::Approx(420));
  CHECK(*grade("4.8").yield / megapascal == doctest::Approx(340));
  CHECK(grade("8.8").tensile / megapascal == doctest::Approx(800));
  CHECK(*grade("8.8").yield / megapascal == doctest::Approx(640));
  CHECK(grade("A2-70").tensile / megapascal == doctest::Approx(700));
  CHECK(*grade("A2-70").yield / megapascal == doctest::Approx(450));
}

TEST_CASE("a stud of a property class breaks at the tabled load") {
  // ISO 898-1, minimum ultimate tensile loads (public copy): M8 8.8 29.2 kN, M10 4.8 24.4 kN; printed to 0.1 kN.
  struct Row {
    std::string_view thread, grade;
    double load;
  };
  for (const Row& row : {Row{"M8", "8.8", 29.2}, Row{"M10", "4.8", 24.4}}) {
    CAPTURE(row.thread);
    const auto thread = read_thread(row.thread);
    REQUIRE(thread.has_value());
    const Force load = tensile_area(*thread) * grade(row.grade, thread->major).tensile;
    CHECK(std::abs(load / kilonewton - row.load) <= 0.1);
  }
}

TEST_CASE("a property class of ISO 898-1 tells its own strength") {
  // The class x.y stands for a nominal tensile strength of 100 x and a nominal yield of 10 x y N/mm²; the least ones
  // are not below. ISO 898-1 section 5, from memory.
  for (const std::string written : {"4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "10.9", "12.9"}) {
    CAPTURE(written);
    const double x = std::stod(written.substr(0, written.find('.')));
    const double y = std::stod(written.substr(written.find('.') + 1));
    CHECK(grade(written).tensile / megapascal >= 100 * x);
    CHECK(grade(written).tensile / megapascal <= 105 * x);
    CHECK(*grade(written).yield / megapascal >= 10 * x * y);
    CHECK(*grade(written).yield / megapascal <= 10.7 * x * y);
  }
}

TEST_CASE("a grade is found however it is written") {
  for (const char* written : {"8.8", "8,8", "class 8.8", "Class 8.8", "cl. 8.8", "8.8 zinc plated"}) {
    CAPTURE(written);
    CHECK(grade(written).name == "ISO 898-1 8.8");
  }
  for (const char* written : {"A2-70", "a2-70", "A2 70", "A2/70"}) CHECK(grade(written).name == "ISO 3506-1 A2-70");
  for (const char* written : {"SAE grade 2", "SAE J429 Gr. 2", "sae gr 2"}) {
    CHECK(grade(written).name == "SAE J429 grade 2");
  }
  CHECK(grade("brass").name == "C36000 O60");
}

TEST_CASE("what is not known, too thick or understood differently has no strength") {
  for (const char* written : {"", "unobtainium", "grade 2", "grade 5", "A2-700", "88", "8.", "A", "brass A2-70"}) {
    CAPTURE(written);
    CHECK_FALSE(find_grade(written, 8 * mm).has_value());
  }
  CHECK(find_grade("304 CW", 0.625 * inch).has_value());
  CHECK_FALSE(find_grade("304 CW", 0.75 * inch).has_value());
  CHECK(ksi(grade("SAE grade 2", 1 * inch).tensile) < ksi(grade("SAE grade 2", 0.75 * inch).tensile));
}

TEST_CASE("a class that is not said is the softest") {
  for (const char* better : {"A2-50", "A2-70", "A2-80"}) CHECK(grade("A2").tensile <= grade(better).tensile);
  CHECK(grade("brass").tensile <= grade("C36000 H02").tensile);
  for (const char* classed : {"4.6", "4.8", "5.8"}) CHECK(*grade("mild steel").yield <= *grade(classed).yield);
}
