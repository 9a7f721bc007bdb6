// What is said of a routing that does not hold what is planned. Through the program.

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

#include "bench_of_work.h"

using namespace blankwright;

namespace {

/// What a draft of the metric sample says, with these words of its shop file changed.
std::string said(const std::string& from, const std::string& to) {
  const SampleJobs jobs;
  const std::string shop = jobs / "metric/shop.toml";
  std::ifstream in{shop};
  std::string text{std::istreambuf_iterator<char>{in}, {}};
  REQUIRE(text.find(from) != std::string::npos);
  std::ofstream{shop} << text.replace(text.find(from), from.size(), to);
  return run_program({"compile", "--draft", "--only", "plan", "--out", jobs.out(), jobs / "metric/burnisher.toml"})
      .errors;
}

}  // namespace

TEST_CASE("the operations that a treated order's routing lacks are named, and where they belong") {
  const SampleJobs jobs;
  for (const Sample& sample : samples()) {
    CHECK_FALSE(has(run_program({"check", jobs / sample.job}).errors, "routing-incomplete"));
  }
  const std::string no_bath = said("planned = \"vacuum\"", "fixed = \"6 h\"");
  CHECK(has(no_bath,
            "the routing has no operation with planned = \"vacuum\"; the calendar leaves that out for treated wood "
            "[routing-incomplete]"));
  CHECK(has(no_bath,
            "hint: a [[routing]] table each in the shop file, where it comes in the work, with name, who and "
            "planned = \"vacuum\""));
  CHECK(has(said("planned = \"cooling\"", "fixed = \"2 h\""), "no operation with planned = \"cooling\"; "));
}

TEST_CASE("drying that may not run alone is answered with what lets it") {
  const std::string refused = said("unattended_drying = true", "unattended_drying = false");
  CHECK(has(refused,
            "it may not run unattended and lasts longer than any unbroken stretch of work "
            "[schedule-impossible]"));
  CHECK(
      has(refused, "hint: unattended_drying = true in the oven's [[ovens]], if it may run while nobody is there\n"));
  // Where the operation says itself that it may not, the oven's word would not help.
  const std::string own = said("planned = \"drying\"", "planned = \"drying\"\nunattended = false");
  CHECK(has(own, "hint: unattended = true here, if it may run while nobody is there\n"));
}
