#include <doctest/doctest.h>

#include <chrono>
#include <filesystem>
#include <string>
#include <vector>

#include "../temporary_folder.h"
#include "../test_server.h"
#include "register/database.h"
#include "register/register.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

constexpr Instant may_3{1'809'345'600s};
constexpr std::chrono::seconds day{86'400};

OrderToIssue job(const std::string& id, std::string_view text, std::string_view shop = "shop",
                 std::string_view program = "0.1.0") {
  return {id, 2, {text, shop, "template", program}, {}};
}

void print(Register& reg, std::vector<OrderToIssue> orders, Instant now, Instant at = may_3) {
  REQUIRE(reg.issue(orders, at.time_since_epoch().count(), now).has_value());
}

}  // namespace

TEST_CASE_TEMPLATE("a compile prints anew when a text, the program or the moment is another one, and only then", At,
                   InFile, OnServer) {
  const TemporaryFolder folder;
  Register reg{At::place(folder, "register"), BlankId::nth(0)};
  print(reg, {job("A", "job 1"), job("B", "job b")}, may_3, may_3 + 20 * day);
  print(reg, {job("A", "job 1")}, may_3 + day, may_3 + 20 * day);
  print(reg, {job("A", "job 2")}, may_3 + 2 * day);
  print(reg, {job("A", "job 2", "another shop")}, may_3 + 3 * day);
  print(reg, {job("A", "job 2", "another shop", "0.2.0")}, may_3 + 4 * day);
  print(reg, {job("A", "job 1")}, may_3 + 5 * day);

  const RegisterContents all = reg.contents();
  REQUIRE(all.prints.size() == 6);
  CHECK(all.texts == std::vector<std::string>{"job 1", "shop", "template", "job b", "job 2", "another shop"});
  const Print first{"A", 1, may_3 + 20 * day, may_3, 4, "0.1.0", 0, 1, 2};
  CHECK(all.prints.at(0) == first);
  const Print fifth{"A", 5, may_3, may_3 + 5 * day, 4, "0.1.0", 0, 1, 2};
  CHECK(all.prints.at(4) == fifth);
  CHECK(all.prints.at(5).order_id == "B");
  CHECK(reg.stored_job("A") == "job 1");
}

TEST_CASE_TEMPLATE("the texts in force at a moment are those of the newest print made by then", At, InFile,
                   OnServer) {
  const TemporaryFolder folder;
  Register reg{At::place(folder, "register"), BlankId::nth(0)};
  // Planned for a day that lies far ahead; what counts is when it was made.
  print(reg, {job("A", "job 1")}, may_3, may_3 + 100 * day);
  print(reg, {job("A", "job 2", "another shop")}, may_3 + 2 * day);
  const auto at = [&](Instant when) { return reg.texts_in_force("A", when).value(); };
  CHECK(at(may_3 - day).job == "job 1");
  CHECK(at(may_3).print == 1);
  CHECK(at(may_3 + 2 * day - 1s).job == "job 1");
  CHECK(at(may_3 + 2 * day - 1s).shop == "shop");
  CHECK(at(may_3 + 2 * day).job == "job 2");
  CHECK(at(may_3 + 2 * day).shop == "another shop");
  CHECK(at(Instant::max()).print == 2);
  CHECK_FALSE(reg.texts_in_force("B", may_3).has_value());
}

TEST_CASE("a thousand orders of one shop store its text once") {
  const TemporaryFolder folder;
  Register reg{folder / "register", BlankId::nth(0)};
  const std::string shop(8'000, 's');
  std::vector<OrderToIssue> orders;
  for (int k = 0; k < 1'000; ++k) orders.push_back(job("A-" + std::to_string(k), "job", shop));
  print(reg, orders, may_3);
  Database db{folder / "register", Database::Mode::read, 1s};
  CHECK(db.number("SELECT count(*) FROM texts") == 3);
  CHECK(std::filesystem::file_size(folder / "register") < 1'500'000);  // of 8 MB that the texts would take
}
