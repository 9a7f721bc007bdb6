#include "diagnose/saying.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <type_traits>

#include "diagnose/diagnostics.h"
#include "diagnose/problem.h"
#include "diagnose/says_common.h"
#include "measure/instant.h"
#include "measure/money.h"
#include "measure/printed.h"

using namespace blankwright;

namespace {

constexpr Sentence<0> plain{{"plain", "a brace {{ and another }}"}};
constexpr Sentence<2> found_and_wanted{{"found_and_wanted", "{} long; the shop asks for {}"}};
constexpr Sentence<2> other_way_round{{"other_way_round", "{1} before {0}, and {1} again"}};

static_assert(places_in("nothing") == 0 && places_in("{{}}") == 0);
static_assert(places_in("{} and {}") == 2 && places_in("{0} × {1} × {0}") == 2);

template <class... As>
concept CanBeSaid = requires(Diagnostics& out, const As&... with) {
  out.error(Problem{}, Place{}, found_and_wanted, with...);
};
static_assert(CanBeSaid<std::string, int>);
static_assert(!CanBeSaid<std::string> && !CanBeSaid<std::string, int, int>);  // as many as the sentence has places
static_assert(!std::is_constructible_v<Argument, const char*> && !std::is_constructible_v<Argument, bool>);
static_assert(!std::is_constructible_v<Argument, double>);  // how many decimals?

std::string source_of(const std::filesystem::path& path) {
  std::ifstream in{path};
  return {std::istreambuf_iterator<char>{in}, {}};
}

/// The sources below src, but for the catalogue, as one text; and the catalogue.
struct Sources {
  std::string users, catalogue;
};

Sources read_sources() {
  Sources all;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator{std::filesystem::path{BLANKWRIGHT_SOURCE_DIR} / "src"}) {
    const auto extension = entry.path().extension();
    if (extension != ".h" && extension != ".cpp") continue;
    const bool is_list = entry.path().filename().string().starts_with("says_");
    (is_list ? all.catalogue : all.users) += source_of(entry.path());
  }
  return all;
}

std::vector<std::string> found_in(const std::string& text, const std::regex& what) {
  std::vector<std::string> all;
  for (std::sregex_iterator m{text.begin(), text.end(), what}, none; m != none; ++m) all.push_back((*m)[1]);
  return all;
}

}  // namespace

TEST_CASE("a sentence becomes words with its arguments in their places") {
  CHECK(text(say(plain)) == "a brace { and another }");
  CHECK(text(say(found_and_wanted, Number{"4.5"}, printed(Number{"5.0"}, PrintedUnit::millimetres))) ==
        "4.5 long; the shop asks for 5.0 mm");
  CHECK(text(say(other_way_round, 3, Keyword{"at"})) == "at before 3, and at again");
}

TEST_CASE("each kind of argument is written in its own way") {
  const auto written = [](const auto& argument) { return text(Argument(argument)); };
  CHECK(written(std::string{"{0} of theirs"}) == "{0} of theirs");  // what users write is no pattern
  CHECK(written(12345) == "12345");
  CHECK(written(std::size_t{7}) == "7");
  CHECK(written(Money{18.5, "EUR"}) == "18.50 EUR");
  CHECK(written(Date{std::chrono::year{2027} / 1 / 29}) == "2027-01-29");
  const Zone berlin = find_zone("Europe/Berlin").value();
  const Instant at = std::chrono::sys_days{std::chrono::year{2027} / 1 / 29} + std::chrono::hours{7};
  CHECK(written(Moment{berlin, at}) == "2027-01-29 08:00");  // an hour east of UTC in winter
}

TEST_CASE("several are joined to one, each in its own form") {
  CHECK(text(listed({"ash", "oak", "elm"}, says::quoted, says::either)) == "\"ash\" or \"oak\" or \"elm\"");
  CHECK(text(listed({"ash"}, says::quoted, says::either)) == "\"ash\"");
  CHECK(text(listed({"a, b", "{}"}, says::quoted, says::one_and_next)) == "\"a, b\", \"{}\"");
}

TEST_CASE("what is said twice of a place in the same words is said once, whatever the arguments are") {
  Diagnostics once, again;
  once.warning(Problem{}, {}, found_and_wanted, 1, 2);
  again.warning(Problem{}, {}, found_and_wanted, Number{"1"}, 2);
  again.warning(Problem{}, {}, found_and_wanted, 1, 3);
  once.append(again);
  CHECK(once.all().size() == 2);
}

TEST_CASE("every sentence of the catalogue has a name of its own and is said somewhere, and no other is") {
  const Sources sources = read_sources();
  std::set<std::string> rows;
  for (const std::string& name : found_in(sources.catalogue, std::regex{R"(BW_SENTENCE\((\w+),)"})) {
    CHECK_MESSAGE(rows.insert(name).second, "two sentences are called ", name);
  }
  CHECK(rows.size() > 200);
  std::set<std::string> said;
  for (const std::string& name : found_in(sources.users, std::regex{R"(\bsays::(\w+))"})) said.insert(name);
  for (const std::string& row : rows) CHECK_MESSAGE(said.contains(row), row, " is never said");
}
