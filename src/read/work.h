#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/diagnostics.h"
#include "entries/entry_kind.h"
#include "measure/instant.h"
#include "measure/quantity.h"
#include "read/span.h"

// What is true of the shop's work: hours, people, machines, and the routing.

namespace blankwright {

/// A stretch of work on a day, by the clock on the wall: "08:00-12:00".
struct HoursOfWork {
  std::chrono::minutes from{}, to{};
};

struct WeekFacts {
  std::vector<Given<HoursOfWork>> monday, tuesday, wednesday, thursday, friday, saturday, sunday;
  std::vector<Given<Date>> days_off;
  Place place;
};

/// Somebody whom operations name.
struct PersonFacts {
  Given<std::string> name;
  std::optional<WeekFacts> hours;  ///< their own; else the shop's
  std::vector<SpanFacts> away;
  Place place;
};

/// A machine that one operation at a time needs, for as long as somebody is at it.
struct MachineFacts {
  Given<std::string> name;
  std::vector<SpanFacts> outages;
  Place place;
};

enum class HandsOnWhen { throughout, start, ends };
/// What of the plan an operation does: it takes the time that the plan says, in the vessel or the oven.
enum class PlannedWork { drying, cooling, vacuum, soak, cure, glue_setting };
/// As it is written: "drying".
std::string_view name_of(PlannedWork work);

/// One operation of the routing, as the shop does it.
struct OperationFacts {
  Given<std::string> name;
  Given<std::string> who;
  std::vector<Given<std::string>> also;  ///< who else can do it
  std::optional<Given<std::string>> machine;
  std::optional<Given<Duration>> fixed;
  std::optional<Given<Duration>> per_piece;
  std::optional<Given<PlannedWork>> planned;
  std::optional<Given<Duration>> turnaround;  ///< of who does it outside the shop
  std::optional<Given<int>> most_a_day;       ///< pieces, of all orders
  Given<HandsOnWhen> hands_on = standard_value(HandsOnWhen::throughout, "somebody is at it all the time");
  std::optional<Given<Duration>> hands_on_time;
  Given<Duration> least_part = standard_value(15 * minute, "common practice, no source");
  Given<bool> unattended = standard_value(false, "nothing runs alone unless the shop says so");
  Given<bool> may_run_long = standard_value(false, "ends when its time is over");
  std::optional<Given<Duration>> most;
  std::optional<Given<Duration>> longest_wait;
  Given<bool> only_witnesses = standard_value(false, "done to every blank");
  /// The entry with which it is done to a blank. Without one: the end of what the plan gives its time, else `done`.
  std::optional<Given<EntryKind>> ended_by;
  Given<bool> only_treated = standard_value(false, "done to every order");
  std::optional<Given<std::string>> limit;
  std::optional<Given<std::string>> hold;
  Place place;

  /// Does it take its time from that of the plan?
  bool is(PlannedWork work) const { return planned && planned->value == work; }
};

bool can_do(const std::string& person, const OperationFacts& facts);
/// All who can do it: "bath keeper", or "bath keeper / turner".
std::string who_does(const OperationFacts& facts);

struct Shop;
/// What hours, people, machines and routing say has to agree. Takes as said what follows from it: what is sent out,
/// or takes its time from the plan, is set going and taken out.
void check_work(Shop& shop, Diagnostics& out);

}  // namespace blankwright
