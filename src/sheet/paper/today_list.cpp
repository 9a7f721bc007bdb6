#include "sheet/paper/today_list.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "measure/quantity_text.h"
#include "sheet/paper/limits.h"
#include "sheet/paper/said_times.h"
#include "sheet/paper/shop_days.h"

namespace blankwright {
namespace {

constexpr std::size_t number_step = 10;  // as on the routing

std::string step_text(std::size_t number) { return fmt::format("{}", number_step * (number + 1)); }

/// "13:30"; with its day where that is not the day of `day`.
std::string time_text(const TodayFacts& facts, Instant at, Instant day) {
  const Zone& zone = facts.shop.zone.value;
  if (date_of(zone, at) != date_of(zone, day)) return moment_text(facts.sheet_template, zone, at);
  const LocalTime local = local_time(zone, at);
  return fmt::format("{:02}:{:02}", local.hour, local.minute);
}
std::string time_text(const TodayFacts& facts, Instant at) { return time_text(facts, at, facts.at); }

std::string where_text(const WordTable& w, const Task& task) {
  return fmt::format("{}", fmt::join(place_lines(w, task), ", "));
}

TodayRow task_row(const TodayFacts& facts, const Task& task) {
  const WordTable& w = facts.sheet_template.words;
  TodayRow row{time_text(facts, task.at.from),
               step_text(task.number),
               task_text(w, task),
               where_text(w, task),
               orders_text(w, task),
               {}};
  row.from = task.at.from;
  row.to = task.is == RunIs::running ? task.ends_from : task.at.to;
  for (const TaskOrder& order : task.orders) row.count += order.blanks;
  return row;
}

/// Of what goes on without a hand: the operation alone.
TodayRow goes_on_row(const TodayFacts& facts, const Task& task) {
  TodayRow row = task_row(facts, task);
  row.what = task.operation;
  return row;
}

TodaySection not_entered(const TodayFacts& facts) {
  const WordTable& w = facts.sheet_template.words;
  TodaySection section{"not-entered", w[Word::today_not_entered], {}};
  for (const NotEntered& one : facts.not_entered) {
    section.rows.push_back({.step = step_text(one.number),
                            .what = one.operation,
                            .order = one.order,
                            .note = fmt::format("{} {} {}, {} {}", one.open, w[Word::of_blanks], one.of,
                                                w[Word::today_was_due], time_text(facts, one.due)),
                            .to = one.due,
                            .count = one.open});
  }
  return section;
}

TodaySection held(const TodayFacts& facts) {
  constexpr std::size_t most_named = 3;
  const WordTable& w = facts.sheet_template.words;
  TodaySection section{"hold", w[Word::hold], {}};
  for (const WithoutId& one : facts.without_id) {
    section.rows.push_back({.what = fmt::format("{} {}", w[Word::today_compile_first], one.blanks),
                            .order = one.order,
                            .count = one.blanks});
  }
  for (const HeldNow& one : facts.held) {
    const auto named = std::min(one.blanks.size(), most_named);
    std::string blanks = fmt::format(
        "{}", fmt::join(one.blanks.begin(), one.blanks.begin() + static_cast<std::ptrdiff_t>(named), ", "));
    if (one.blanks.size() > named) blanks += fmt::format(", +{}", one.blanks.size() - named);
    const std::string reason = one.number ? fmt::format("{}; {}", w[Word::today_not_told], one.reason) : one.reason;
    section.rows.push_back({.step = one.number ? step_text(*one.number) : std::string{},
                            .what = one.gate,
                            .where = one.where,
                            .order = one.order,
                            .note = fmt::format("{}: {}", blanks, reason),
                            .count = static_cast<int>(one.blanks.size()),
                            .ids = one.blanks});
  }
  return section;
}

TodaySection late(const TodayFacts& facts) {
  const WordTable& w = facts.sheet_template.words;
  TodaySection section{"late", w[Word::late], {}};
  for (const LateOrder& one : facts.today.late) {
    section.rows.push_back({.time = late_text(facts.sheet_template, one.by),
                            .what = one.queue ? one.queue->operation : std::string{},
                            .order = one.order,
                            .note = one.queue ? queue_text(w, *one.queue) : std::string{}});
  }
  for (const WaitsTooLong& one : facts.waits) {
    section.rows.push_back(
        {.time = late_text(facts.sheet_template, one.by),
         .step = step_text(one.number),
         .what = one.operation,
         .order = one.order,
         .note = fmt::format("{} {} {}, {} {}", one.blanks, w[Word::today_waits_since], time_text(facts, one.since),
                             w[Word::runs_at_most], shown(facts.sheet_template, printed(one.longest))),
         .from = one.since,
         .count = one.blanks});
  }
  return section;
}

TodaySection running(const TodayFacts& facts) {
  const WordTable& w = facts.sheet_template.words;
  TodaySection section{"running", w[Word::today_running], {}};
  for (const RunningNow& one : facts.today.running) {
    const Task& task = one.task;
    TodayRow row = goes_on_row(facts, task);
    row.note = fmt::format("{} {}", w[Word::today_least_end], time_text(facts, task.ends_from));
    if (task.kind == TaskKind::attended && !one.nobody_from) row.note += fmt::format("; {}", w[Word::today_stays]);
    if (one.out_of_order) {
      row.note +=
          fmt::format("; {} {} {}", task.resource, w[Word::today_out_of_order], time_text(facts, *one.out_of_order));
    }
    section.rows.push_back(std::move(row));
  }
  return section;
}

/// A list for each person, in the order in which they have something to do; its day is named where that is not today.
std::vector<TodaySection> hands(const TodayFacts& facts) {
  std::vector<TodaySection> sections;
  const Date date = date_of(facts.shop.zone.value, facts.today.hands_from);
  const bool is_today = date == date_of(facts.shop.zone.value, facts.at);
  const std::string day = is_today ? "" : fmt::format(" · {}", weekday_text(facts.sheet_template, date));
  for (const Task& task : facts.today.hands) {
    const std::string title = task.who + day;
    auto own = std::ranges::find(sections, title, &TodaySection::title);
    if (own == sections.end()) own = sections.insert(sections.end(), {"hands", title, {}});
    TodayRow row = task_row(facts, task);
    row.time = time_text(facts, task.at.from, facts.today.hands_from);
    const auto minutes = std::chrono::ceil<std::chrono::minutes>(task.at.to - task.at.from).count();
    if (minutes > 0) row.note = fmt::format("{} min", minutes);
    if (!task.hold.empty()) {
      row.note +=
          fmt::format("{}{}: {}", row.note.empty() ? "" : "; ", facts.sheet_template.words[Word::hold], task.hold);
    }
    own->rows.push_back(std::move(row));
  }
  return sections;
}

TodaySection before_leaving(const TodayFacts& facts) {
  const WordTable& w = facts.sheet_template.words;
  TodaySection section{"before-leaving", w[Word::today_before_leaving], {}};
  for (const RunningNow& one : facts.today.running) {
    if (!one.nobody_from) continue;
    TodayRow row = goes_on_row(facts, one.task);
    row.time = time_text(facts, *one.nobody_from);
    row.note = fmt::format("{} {}", w[Word::today_stay_or_end], time_text(facts, one.task.ends_from));
    section.rows.push_back(std::move(row));
  }
  for (const BeforeLeaving& one : facts.today.before_leaving) {
    TodayRow row = goes_on_row(facts, one.task);
    row.note = one.later.empty() ? fmt::format("{} {}", w[Word::today_goes_on], time_text(facts, one.task.at.to))
                                 : fmt::format("{} {}", w[Word::today_else_later], fmt::join(one.later, ", "));
    section.rows.push_back(std::move(row));
  }
  return section;
}

TodaySection next(const TodayFacts& facts) {
  TodaySection section{"next", facts.sheet_template.words[Word::today_next], {}};
  for (const Task& task : facts.today.next) section.rows.push_back(goes_on_row(facts, task));
  return section;
}

}  // namespace

std::vector<TodaySection> today_sections(const TodayFacts& facts) {
  std::vector<TodaySection> all{not_entered(facts), held(facts), late(facts), running(facts)};
  std::ranges::move(hands(facts), std::back_inserter(all));
  all.push_back(before_leaving(facts));
  all.push_back(next(facts));
  std::erase_if(all, [](const TodaySection& section) { return section.rows.empty(); });
  return all;
}

std::string today_title(const TodayFacts& facts) {
  return fmt::format("{} · {} · {} {}", facts.shop.name.value,
                     moment_text(facts.sheet_template, facts.shop.zone.value, facts.at),
                     facts.sheet_template.words[Word::today_entry], facts.last_entry);
}

}  // namespace blankwright
