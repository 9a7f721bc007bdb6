#pragma once

#include "entries/entry_kind.h"
#include "measure/drill.h"
#include "measure/instant.h"
#include "measure/money.h"
#include "measure/thread.h"
#include "read/keys.h"
#include "read/shop.h"

// How the values are written that have a spelling of their own: threads, drills, zones, hours, counts, money, series.

namespace blankwright {

std::optional<Thread> read_thread_value(const Node& node, std::string_view name, Reading& in);
std::optional<Drill> read_drill_value(const Node& node, std::string_view name, Reading& in);
std::optional<Zone> read_zone_value(const Node& node, std::string_view name, Reading& in);
std::optional<HoursOfWork> read_hours_value(const Node& node, std::string_view name, Reading& in);
std::optional<Counts> read_counts_value(const Node& node, std::string_view name, Reading& in);
std::optional<Money> read_money_value(const Node& node, std::string_view name, Reading& in);
std::optional<Series> read_series_value(const Node& node, std::string_view name, Reading& in);

std::optional<DayOrTime> read_day_or_time_value(const Node& node, std::string_view name, Reading& in);

/// A value written as a text with a grammar of its own, read by `parse`.
template <class T, std::optional<T> (*parse)(const Node&, std::string_view, Reading&)>
struct SpelledForm {
  static std::optional<T> read(const Node& node, std::string_view name, Limits, Reading& in) {
    return parse(node, name, in);
  }
  static std::string limits(Limits) { return {}; }
  static std::string written(const T&) { return {}; }
  static Shape spelled(std::string_view eg) {
    Shape shape{Shape::Type::text};
    shape.example = in_quotes(eg);
    return shape;
  }
};

template <>
struct Form<Thread> : SpelledForm<Thread, read_thread_value> {
  static Shape shape() { return spelled("M8"); }
};
template <>
struct Form<Drill> : SpelledForm<Drill, read_drill_value> {
  static Shape shape() { return spelled("8.5 mm"); }
};
template <>
struct Form<Zone> : SpelledForm<Zone, read_zone_value> {
  static Shape shape() { return spelled("Europe/Berlin"); }
};
template <>
struct Form<HoursOfWork> : SpelledForm<HoursOfWork, read_hours_value> {
  static Shape shape() { return spelled("08:00-12:00"); }
};
template <>
struct Form<DayOrTime> : SpelledForm<DayOrTime, read_day_or_time_value> {
  static Shape shape() { return spelled("2027-05-03 13:00"); }
};
template <>
struct Form<Money> : SpelledForm<Money, read_money_value> {
  static Shape shape() { return spelled("18.50 EUR"); }
};
template <>
struct Form<Series> : SpelledForm<Series, read_series_value> {
  static Shape shape() { return spelled("K7T-4X54"); }
};
template <>
struct Form<Counts> : SpelledForm<Counts, read_counts_value> {
  static Shape shape() { return spelled("8 of 10"); }
};

/// The entry that ends an operation: of a blank, or of its bath's vacuum.
template <>
struct Form<EntryKind> {
  static std::vector<std::string> words();
  static std::optional<EntryKind> read(const Node& node, std::string_view name, Limits, Reading& in);
  static Shape shape() { return {.type = Shape::Type::word, .example = "\"weighed\"", .words = words()}; }
  static std::string limits(Limits) { return {}; }
  static std::string written(EntryKind kind) { return in_quotes(name_of(kind)); }
};

}  // namespace blankwright
