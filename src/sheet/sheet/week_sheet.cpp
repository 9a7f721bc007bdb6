#include "sheet/sheet/week_sheet.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>
#include <utility>

#include "sheet/frame/flowing_text.h"
#include "sheet/frame/table.h"
#include "sheet/paper/said_times.h"
#include "sheet/sheet/week_bars.h"

namespace blankwright {
namespace {

constexpr TextStyle day_text_style{.size = Lettering::machine, .face = Face::bold};
constexpr TextStyle week_strong{.size = Lettering::machine, .face = Face::bold, .least = Lettering::hand};
constexpr TextStyle week_plain{};
constexpr Length week_gap = 4 * mm;

/// What runs is on from now.
Instant begin_of(const ShopDays& days, const Task& task) { return std::max(task.at.from, days.at); }
Date day_of_task(const ShopDays& days, const Task& task) {
  return date_of(days.shop.zone.value, begin_of(days, task));
}

Table order_table(const ShopDays& days) {
  const Template& t = days.sheet_template;
  const Zone& zone = days.shop.zone.value;
  const auto head = [&](Word word) { return Cell{{{t.words[word], column_head}}}; };
  Table table;
  table.columns = {{28 * mm}, {40 * mm, 1}, {15 * mm}, {27 * mm}, {27 * mm}, {27 * mm}, {20 * mm}};
  table.head = {{head(Word::order), head(Word::week_for), head(Word::start_pieces), head(Word::earliest_finish),
                 head(Word::week_latest), head(Word::due_end), head(Word::late)},
                8 * mm};
  for (const OrderInDays& order : days.orders) {
    const auto& delivery = order.delivery;
    const bool late = delivery && delivery->late_by.count() > 0;
    const auto moment = [&](const std::optional<Instant>& at) {
      return Cell{{{at ? dated_text(t, zone, *at) : no_value, week_plain}}};
    };
    Cell what{{{order.item + ", " + order.client, week_plain}}};
    if (order.queue) what.phrases.push_back({queue_text(t.words, *order.queue), week_plain});
    table.rows.push_back(
        {{Cell{{{order.id, week_strong}}}, std::move(what), Cell{{{fmt::format("{}", order.blanks), week_plain}}},
          moment(order.finish), moment(delivery ? delivery->latest_start : std::nullopt),
          moment(delivery ? std::optional{delivery->due} : std::nullopt),
          Cell{{{late ? late_text(t, delivery->late_by) : no_value, late ? week_strong : week_plain}}}},
         9 * mm});
  }
  return table;
}

/// "08:00 – 09:30"; with the day where it ends on another one.
std::string time_text(const ShopDays& days, const Interval& at) {
  const Zone& zone = days.shop.zone.value;
  const LocalTime from = local_time(zone, at.from);
  const LocalTime to = local_time(zone, at.to);
  const std::string end = from.date == to.date ? fmt::format("{:02}:{:02}", to.hour, to.minute)
                                               : moment_text(days.sheet_template, zone, at.to);
  return fmt::format("{:02}:{:02} – {}", from.hour, from.minute, end);
}

Row task_row(const ShopDays& days, const Task& task) {
  const WordTable& w = days.sheet_template.words;
  const bool hands = task.needs_hands();
  const TextStyle& style = hands ? week_strong : week_plain;
  Cell work{{{task_text(w, task), style}}};
  if (!task.hold.empty()) work.phrases.push_back({fmt::format("{}: {}", w[Word::hold], task.hold), week_plain});
  Cell place;
  for (std::string& line : place_lines(w, task)) place.phrases.push_back({std::move(line), week_plain});
  return {{Cell{{{time_text(days, {begin_of(days, task), task.at.to}), style}}},
           Cell{{{hands ? task.who : no_value, week_plain}}}, std::move(work),
           Cell{{{orders_text(w, task), week_plain}}}, std::move(place), Cell{}},
          10 * mm};
}

/// What begins on one day, under the day.
Table day_table(const ShopDays& days, Date day, std::span<const Task> tasks) {
  const Template& t = days.sheet_template;
  const auto head = [&](Word word) { return Cell{{{t.words[word], column_head}}}; };
  Table table;
  table.columns = {{40 * mm}, {22 * mm}, {50 * mm, 1}, {27 * mm}, {22 * mm}, {12 * mm}};
  table.head = {{Cell{{{weekday_text(t, day), day_text_style}}}, head(Word::who), head(Word::operation),
                 head(Word::order), head(Word::week_place), head(Word::cut_done)},
                9 * mm};
  for (const Task& task : tasks) {
    // What was begun stands with the row that says how long it goes on.
    if (!table.rows.empty()) table.rows.back().with_next = !task.needs_hands();
    table.rows.push_back(task_row(days, task));
  }
  return table;
}

/// Where the tasks end that begin before a day, of those from `first` on.
std::size_t end_of(const ShopDays& days, std::size_t first, Date day) {
  std::size_t end = first;
  while (end < days.tasks.size() && day_of_task(days, days.tasks.at(end)) < day) ++end;
  return end;
}

Date days_after(Date day, std::chrono::days count) { return Date{std::chrono::sys_days{day} + count}; }

/// The first day of the week that a day lies in, of weeks that are counted from the one that begins with `first`.
Date week_of(Date day, Date first) {
  constexpr std::chrono::days week{7};
  return days_after(first, (std::chrono::sys_days{day} - std::chrono::sys_days{first}) / week * week);
}

/// The sheet is not taken for that of all orders when it is not.
void put_missing(Flow& flow, const ShopDays& days) {
  if (days.missing.empty()) return;
  const std::string words =
      fmt::format("{} {}", days.sheet_template.words[Word::week_missing], fmt::join(days.missing, ", "));
  take_strip(flow, std::min(week_gap / 2, free_room(flow).height));
  put_text(flow, {words, week_strong});
}

void put_days(Flow& flow, const ShopDays& days, std::size_t first, std::size_t end) {
  while (first < end) {
    const Date day = day_of_task(days, days.tasks.at(first));
    const std::size_t next = end_of(days, first, days_after(day, std::chrono::days{1}));
    put_table(flow, day_table(days, day, std::span{days.tasks}.subspan(first, next - first)));
    take_strip(flow, std::min(week_gap, free_room(flow).height));
    first = next;
  }
}

}  // namespace

std::vector<Page> week_sheets(const ShopDays& days, const FontMetrics& fonts) {
  const Template& t = days.sheet_template;
  const Date today = date_of(days.shop.zone.value, days.at);
  std::vector<Page> pages;
  std::size_t first = 0;
  Date week = today;
  do {
    const std::size_t end = end_of(days, first, days_after(week, std::chrono::days{7}));
    const ShopHead head{fmt::format("{} {}", t.words[Word::week_sheet], weekday_text(t, week)),
                        t.words[Word::week_note], days.draft};
    Flow flow = flow_of(t, fonts, [&](PageOfKind page) { return begin_shop_sheet(t, fonts, head, page); });
    if (pages.empty()) {
      put_table(flow, order_table(days));
      put_missing(flow, days);
      take_strip(flow, std::min(week_gap, free_room(flow).height));
    }
    put_week_bars(flow, days, week);
    take_strip(flow, std::min(week_gap, free_room(flow).height));
    put_days(flow, days, first, end);
    std::ranges::move(pages_of(std::move(flow)), std::back_inserter(pages));
    first = end;
    if (first < days.tasks.size()) week = week_of(day_of_task(days, days.tasks.at(first)), today);
  } while (first < days.tasks.size());
  number_sheets(pages, t, fonts,
                days.draft ? t.words[Word::draft_notice] : foot_text(t, days.shop, days.at, days.program));
  return pages;
}

}  // namespace blankwright
