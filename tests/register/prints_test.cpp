#include <doctest/doctest.h>

#include <chrono>
#include <filesystem>
#include <string>
#include <vector>

#include "../temporary_folder.h"
#include "register/register.h"
#include "register/sqlite.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

constexpr Instant monday{1'809'345'600s};
constexpr std::chrono::seconds day{86'400};

OrderToIssue order(const std::string& id, std::string_view job, std::string_view shop = "shop",
                   std::string_view program = "0.1.0") {
  return {id, 2, {job, shop, "template", program}, {}};
}

void issue(Register& reg, std::vector<OrderToIssue> orders, Instant now, Instant at = monday) {
  REQUIRE(reg.issue(orders, at.time_since_epoch().count(), now).has_value());
}

}  // namespace

TEST_CASE("a compile prints anew when a text, the program or the moment is another one, and only then") {
  const TemporaryFolder folder;
  Register reg{folder / "register", BlankId::nth(0)};
  issue(reg, {order("A", "job 1"), order("B", "job b")}, monday, monday + 20 * day);
  issue(reg, {order("A", "job 1")}, monday + day, monday + 20 * day);
  issue(reg, {order("A", "job 2")}, monday + 2 * day);
  issue(reg, {order("A", "job 2", "another shop")}, monday + 3 * day);
  issue(reg, {order("A", "job 2", "another shop", "0.2.0")}, monday + 4 * day);
  issue(reg, {order("A", "job 1")}, monday + 5 * day);

  const RegisterContents all = reg.contents();
  REQUIRE(all.prints.size() == 6);
  CHECK(all.texts == std::vector<std::string>{"job 1", "shop", "template", "job b", "job 2", "another shop"});
  const Print first{"A", 1, monday + 20 * day, monday, 4, "0.1.0", 0, 1, 2};
  CHECK(all.prints.at(0) == first);
  const Print fifth{"A", 5, monday, monday + 5 * day, 4, "0.1.0", 0, 1, 2};
  CHECK(all.prints.at(4) == fifth);
  CHECK(all.prints.at(5).order_id == "B");
  CHECK(reg.stored_job("A") == "job 1");
}

TEST_CASE("the texts in force at a moment are those of the newest print made by then") {
  const TemporaryFolder folder;
  Register reg{folder / "register", BlankId::nth(0)};
  // Planned for a day that lies far ahead; what counts is when it was made.
  issue(reg, {order("A", "job 1")}, monday, monday + 100 * day);
  issue(reg, {order("A", "job 2", "another shop")}, monday + 2 * day);
  const auto at = [&](Instant when) { return reg.texts_in_force("A", when).value(); };
  CHECK(at(monday - day).job == "job 1");
  CHECK(at(monday).print == 1);
  CHECK(at(monday + 2 * day - 1s).job == "job 1");
  CHECK(at(monday + 2 * day - 1s).shop == "shop");
  CHECK(at(monday + 2 * day).job == "job 2");
  CHECK(at(monday + 2 * day).shop == "another shop");
  CHECK(at(Instant::max()).print == 2);
  CHECK_FALSE(reg.texts_in_force("B", monday).has_value());
}

TEST_CASE("a thousand orders of one shop store its text once") {
  const TemporaryFolder folder;
  Register reg{folder / "register", BlankId::nth(0)};
  const std::string shop(8'000, 's');
  std::vector<OrderToIssue> orders;
  for (int k = 0; k < 1'000; ++k) orders.push_back(order("A-" + std::to_string(k), "job", shop));
  issue(reg, orders, monday);
  Database db{folder / "register", Database::Mode::read, 1s};
  CHECK(db.number("SELECT count(*) FROM texts") == 3);
  CHECK(std::filesystem::file_size(folder / "register") < 1'500'000);  // of 8 MB that the texts would take
}
