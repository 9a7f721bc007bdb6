#include "diagnose/problem.h"

#include <doctest/doctest.h>

#include <regex>
#include <set>
#include <string>

#include "diagnose/failure.h"

using namespace blankwright;

TEST_CASE("every problem has a name of its own, in lower case with hyphens, that scripts can look for") {
  const std::regex kebab{"[a-z]+(-[a-z0-9]+)*"};
  std::set<std::string> seen;
  for (const Problem problem : all_problems()) {
    const std::string name{problem_name(problem)};
    CAPTURE(name);
    CHECK(std::regex_match(name, kebab));
    CHECK(seen.insert(name).second);
  }
  CHECK(seen.size() > 40);
}

TEST_CASE("the names stand beside their problems") {
  CHECK(problem_name(Problem::file_unreadable) == "file-unreadable");
  CHECK(problem_name(Problem::bare_number) == "bare-number");
  CHECK(problem_name(Problem::same_order_id) == "same-order-id");
  CHECK(problem_name(Problem::web_too_thin) == "web-too-thin");
  CHECK(problem_name(Problem::order_in_register_differs) == "order-in-register-differs");
}

TEST_CASE("a broken promise of ours names the file below src, its line and the promise") {
  try {
    BW_EXPECT(1 + 1 == 3);
    FAIL("no promise was broken");
  } catch (const BrokenPromise& broken) {
    const std::string what = broken.what();
    CHECK(what.find("problem_test.cpp:") != std::string::npos);
    CHECK(what.ends_with("broken promise: 1 + 1 == 3"));
  }
  CHECK(std::string{BrokenPromise("src/plan/x.cpp", 7, "a").what()} == "src/plan/x.cpp:7: broken promise: a");
}

TEST_CASE("a fault of the world names what could not be used, and why") {
  CHECK(std::string{WorldError("sheets/a.pdf", "No space left on device").what()} ==
        "sheets/a.pdf: No space left on device");
}
