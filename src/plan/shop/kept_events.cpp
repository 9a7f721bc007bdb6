#include "plan/shop/kept_events.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

#include "entries/checksum.h"

namespace blankwright {
namespace {

/// A uid is "BLANKS.OPERATION.WHICH@HOME", or "ORDER.due@HOME".
struct UidParts {
  std::string_view work, which, home;
};
UidParts parts_of(std::string_view uid) {
  const auto home = uid.rfind('@');
  const auto which = uid.rfind('.', home);
  return {uid.substr(0, which), uid.substr(which + 1, home - which - 1), uid.substr(home + 1)};
}

std::string_view take_word(std::string_view& rest) {
  const auto end = rest.find(' ');
  const std::string_view word = rest.substr(0, end);
  rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
  return word;
}

template <class Number>
bool take_number(std::string_view& rest, Number& out) {
  const std::string_view word = take_word(rest);
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), out);
  return error == std::errc{} && end == word.data() + word.size();
}

/// Reads the lines one after the other: `home` and `of` are for all that come after.
class LineReader {
 public:
  std::optional<KeptEvent> read(std::string_view line) {
    const std::string_view kind = take_word(line);
    if (kind == "home") home_ = line;
    if (kind == "of") {
      work_ = take_word(line);
      operation_ = line;
    }
    if (kind != "event" && kind != "cancelled") return std::nullopt;
    KeptEvent event;
    event.uid = fmt::format("{}.{}@{}", work_, take_word(line), home_);
    event.operation = operation_;
    event.cancelled = kind == "cancelled";
    std::int64_t from = 0, length = 0;
    const bool is_whole = take_number(line, event.sequence) && take_number(line, from) && take_number(line, length) &&
                          take_number(line, event.facts);
    if (!is_whole) return std::nullopt;
    event.at.from = Instant{std::chrono::seconds{from}};
    event.at.to = event.at.from + std::chrono::seconds{length};
    return event;
  }

 private:
  std::string home_, work_, operation_;
};

}  // namespace

std::string whose(const KeptEvent& event) {
  const std::string_view work = parts_of(event.uid).work;
  return std::string{event.operation.empty() ? work : work.substr(0, work.rfind('.'))};
}

std::string kept_events(std::vector<KeptEvent> events) {
  std::ranges::sort(events, {}, &KeptEvent::uid);
  std::string lines, home, of;
  const auto add_once = [&](std::string& last, std::string line) {
    if (last == line) return;
    lines += line;
    last = std::move(line);
  };
  for (const KeptEvent& event : events) {
    const UidParts uid = parts_of(event.uid);
    add_once(home, fmt::format("home {}\n", uid.home));
    add_once(of, fmt::format("of {} {}\n", uid.work, event.operation));
    lines +=
        fmt::format("{} {} {} {} {} {}\n", event.cancelled ? "cancelled" : "event", uid.which, event.sequence,
                    event.at.from.time_since_epoch().count(), (event.at.to - event.at.from).count(), event.facts);
  }
  return lines;
}

std::vector<KeptEvent> read_kept_events(std::string_view lines) {
  std::vector<KeptEvent> all;
  LineReader reader;
  while (!lines.empty()) {
    const auto end = lines.find('\n');
    if (auto one = reader.read(lines.substr(0, end))) all.push_back(std::move(*one));
    lines.remove_prefix(end == std::string_view::npos ? lines.size() : end + 1);
  }
  return all;
}

std::int64_t facts_of(const Task& task, bool alarm) {
  const auto number = [](std::optional<std::size_t> value) {
    return value ? std::optional{static_cast<std::int64_t>(*value)} : std::nullopt;
  };
  Checksum sum = Checksum::of(task.at.from.time_since_epoch().count(), task.at.to.time_since_epoch().count(),
                              static_cast<std::int64_t>(task.kind), std::int64_t{alarm}, task.operation, task.who,
                              task.resource, task.batch, number(task.bath), number(task.load), number(task.turn),
                              number(task.turns), task.limit, task.hold);
  for (const TaskOrder& order : task.orders) {
    sum.add(order.id);
    sum.add(std::int64_t{order.blanks});
  }
  return sum.value();
}

std::map<std::string, KeptEvent> HandedOut::newest() const {
  std::map<std::string, KeptEvent> newest;
  for (const auto& [order, events] : of_order) {
    for (const KeptEvent& event : events) {
      const auto [place, is_new] = newest.try_emplace(event.uid, event);
      if (!is_new && event.sequence > place->second.sequence) place->second = event;
    }
  }
  return newest;
}

void set_sequences(std::span<KeptEvent> planned, const std::map<std::string, KeptEvent>& newest, int prints) {
  for (KeptEvent& event : planned) {
    const auto before = newest.find(event.uid);
    const bool is_same = before != newest.end() && !before->second.cancelled && before->second.facts == event.facts;
    event.sequence = is_same ? before->second.sequence : prints;
  }
}

std::vector<KeptEvent> cancelled_of(std::span<const KeptEvent> before, const std::map<std::string, KeptEvent>& newest,
                                    const std::function<bool(const std::string&)>& is_planned, Instant now) {
  std::vector<KeptEvent> cancelled;
  for (const KeptEvent& event : before) {
    const KeptEvent& last = newest.at(event.uid);
    if (last.at.to <= now || is_planned(event.uid)) continue;
    KeptEvent& one = cancelled.emplace_back(last);
    if (!one.cancelled) ++one.sequence;
    one.cancelled = true;
  }
  return cancelled;
}

}  // namespace blankwright
