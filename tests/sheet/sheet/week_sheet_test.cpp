#include "sheet/sheet/week_sheet.h"
#include "sheet/paper/said_times.h"

#include <fmt/format.h>

#include <string>

#include "bath_fixture.h"
#include "sheet/frame/frame.h"
#include "test_dossier.h"
#include "treated_fixture.h"

using namespace blankwright;
using table_pages::words_of;

namespace {

ShopDays days_of(const Dossier& d) {
  return {d.shop,
          d.sheet_template,
          d.at,
          d.program,
          d.draft,
          {order_in_days(d)},
          shop_tasks(tasks_of(d.order.id.value, d.times, d.shop)),
          {}};
}

std::string long_id(int k) { return fmt::format("an-id-of-forty-characters-which-is-{:05}", k); }

}  // namespace

TEST_CASE("a task of very many orders names the first ones and counts the others") {
  const TestOrder order{treated_job(), treated_shop()};
  ShopDays days = days_of(order.dossier());
  REQUIRE(!days.tasks.empty());
  Task& task = days.tasks.front();
  task.orders.clear();
  for (int k = 0; k < 400; ++k) task.orders.push_back({long_id(k), 12});
  CHECK(task.orders.front().id.size() == 40);  // the longest that there may be
  const std::string words = words_of(week_sheets(days, fonts_for_test()));
  CHECK(words.find("and further orders: 392") != std::string::npos);
}

TEST_CASE("what is not among the days is named, on as many sheets as it takes") {
  const TestOrder order{treated_job(), treated_shop()};
  ShopDays days = days_of(order.dossier());
  const auto before = week_sheets(days, fonts_for_test()).size();
  for (int k = 0; k < 400; ++k) days.missing.push_back(long_id(k));
  const auto pages = week_sheets(days, fonts_for_test());
  CHECK(pages.size() > before);
  const std::string words = words_of(pages);
  for (int k = 0; k < 400; ++k) CHECK(words.find(long_id(k)) != std::string::npos);
}

TEST_CASE("there is a sheet also where nothing is to be done") {
  const TestOrder order{treated_job(), treated_shop()};
  ShopDays days = days_of(order.dossier());
  days.tasks.clear();
  const auto pages = week_sheets(days, fonts_for_test());
  REQUIRE(pages.size() == 1);
  CHECK(words_of(pages).find("Week from Mon 3 May 2027") != std::string::npos);
}

TEST_CASE("the first week is that from now, and those in which nothing begins have no sheet") {
  using namespace std::chrono_literals;
  const TestOrder order{treated_job(), treated_shop()};
  ShopDays days = days_of(order.dossier());
  const Instant wednesday = std::chrono::sys_days{2027y / 5 / 5} + 9h;
  days.at = wednesday;
  const auto task = [&](Instant from, Instant to) {
    Task one = days.tasks.front();
    one.at = {from, to};
    return one;
  };
  days.tasks = {task(wednesday - 48h, wednesday + 2h), task(wednesday + 6 * 24h, wednesday + 6 * 24h + 1h),
                task(wednesday + 7 * 24h, wednesday + 7 * 24h + 1h),
                task(wednesday + 30 * 24h, wednesday + 31 * 24h)};
  const auto pages = week_sheets(days, fonts_for_test());
  REQUIRE(pages.size() == 3);
  const auto has = [&](std::size_t page, const char* words) {
    return words_of({pages.at(page)}).find(words) != std::string::npos;
  };
  CHECK(has(0, "Week from Wed 5 May 2027"));
  CHECK(has(0, "Tue 11 May 2027"));
  CHECK(has(0, "11:00 – 13:00"));  // what runs is on from now
  CHECK(has(1, "Week from Wed 12 May 2027"));
  CHECK(has(2, "Week from Wed 2 Jun 2027"));
  CHECK(has(2, "Fri 4 Jun 2027"));
}

TEST_CASE("a week in which nothing begins is shown where it is that from now") {
  using namespace std::chrono_literals;
  const TestOrder order{treated_job(), treated_shop()};
  ShopDays days = days_of(order.dossier());
  days.at -= 21 * 24h;
  const auto pages = week_sheets(days, fonts_for_test());
  CHECK(words_of({pages.at(0)}).find("Week from Mon 12 Apr 2027") != std::string::npos);
  CHECK(words_of({pages.at(1)}).find("Week from Mon 3 May 2027") != std::string::npos);
}

TEST_CASE("how late an order is stands in days and hours when it is long") {
  using namespace std::chrono_literals;
  CHECK(late_text(Template{}, 47h + 59min) == "47 h 59 min");
  CHECK(late_text(Template{}, 48h) == "2 d 0 h");
  CHECK(late_text(Template{}, 667h + 21min) == "27 d 19 h");
}
