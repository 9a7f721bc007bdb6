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

Box extent_of(const std::vector<Path>& paths) {
  Spot least = paths.front().front(), most = least;
  for (const Path& path : paths) {
    for (const Spot& spot : path) {
      least = {std::min(least.x, spot.x), std::min(least.y, spot.y)};
      most = {std::max(most.x, spot.x), std::max(most.y, spot.y)};
    }
  }
  return {least.x, least.y, most.x - least.x, most.y - least.y};
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

TEST_CASE("the week's bars begin and end by its hours: filled where somebody is at it, hatched where it runs") {
  using namespace std::chrono_literals;
  const TestOrder order{treated_job(), treated_shop()};
  ShopDays days = days_of(order.dossier());
  days.at = std::chrono::sys_days{2027y / 5 / 5};
  const auto local = [&](int day, int hour) {
    return instant_of(days.shop.zone.value, std::chrono::year{2027} / 5 / day, std::chrono::hours{hour});
  };
  const auto task = [&](TaskKind kind, Interval at) {
    Task one;
    one.at = at;
    one.kind = kind;
    one.orders = {{"H-1"}};
    one.who = kind == TaskKind::work ? "keeper" : "";
    one.resource = kind == TaskKind::work ? "" : "kiln";
    one.batch = kind == TaskKind::work ? "" : "B-7";
    return one;
  };
  days.tasks = {task(TaskKind::work, {local(5, 6), local(5, 18)}), task(TaskKind::work, {local(6, 6), local(6, 18)}),
                task(TaskKind::by_itself, {local(7, 0), local(9, 12)})};
  const Page page = week_sheets(days, fonts_for_test()).front();
  std::vector<Box> filled;
  std::optional<Box> hatched;
  for (const Item& item : page.items) {
    const auto* const fill = std::get_if<Fill>(&item.mark);
    if (fill != nullptr && fill->ink == Ink::black) filled.push_back(extent_of(fill->paths));
    const auto* const strokes = std::get_if<Stroke>(&item.mark);
    if (strokes != nullptr && strokes->paths.size() > 8) hatched = extent_of(strokes->paths);
  }
  std::erase_if(filled, [](const Box& box) { return box.height > 5 * mm; });  // the page's own signs
  REQUIRE(filled.size() == 2);
  const double day = (filled.at(1).x - filled.at(0).x) / mm;
  CHECK(day > 18);  // seven of them on a page
  CHECK(filled.at(0).width / mm == doctest::Approx(day / 2));
  REQUIRE(hatched);
  CHECK(hatched->width / mm == doctest::Approx(2.5 * day).epsilon(0.02));
  CHECK((hatched->x - filled.at(0).x) / mm == doctest::Approx(1.75 * day).epsilon(0.02));
  CHECK(filled.at(0).y == filled.at(1).y);
  CHECK(hatched->y > filled.at(0).bottom());
  const std::string words = words_of({page});
  for (const char* name : {"keeper", "kiln", "B-7", "Fri 7 May"}) CHECK(words.find(name) != std::string::npos);
}

TEST_CASE("how late an order is stands in days and hours when it is long") {
  using namespace std::chrono_literals;
  CHECK(late_text(Template{}, 47h + 59min) == "47 h 59 min");
  CHECK(late_text(Template{}, 48h) == "2 d 0 h");
  CHECK(late_text(Template{}, 667h + 21min) == "27 d 19 h");
}
