#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "plan/shop/task.h"

namespace blankwright {

/// An event of an order's calendar, as it is kept beside what was printed of the order.
struct KeptEvent {
  std::string uid;
  std::string operation;  ///< empty for a due date
  /// How many prints the register had when it was changed last, and one more once it is cancelled: it never falls.
  int sequence = 0;
  Interval at;             ///< of a due date its day, by UTC
  std::int64_t facts = 0;  ///< a checksum of what it tells, apart from its words
  bool cancelled = false;
  friend bool operator==(const KeptEvent&, const KeptEvent&) = default;
};

/// The order that an event is named by, or the lowest ID of its blanks.
std::string whose(const KeptEvent& event);

/// In lines, by uid, to be kept with kept_plan(); neither reads the other's. There are many of them, so that what
/// several uids have in common stands once.
std::string kept_events(std::vector<KeptEvent> events);
std::vector<KeptEvent> read_kept_events(std::string_view lines);

/// The checksum of what a task tells: when, how, who, where, to which blanks.
std::int64_t facts_of(const Task& task, bool alarm);

/// What was handed out last, of all orders that may share an event.
struct HandedOut {
  std::map<std::string, std::vector<KeptEvent>> of_order;  ///< by id
  int prints = 0;                                          ///< that the register has
  /// Where prints differ in an event, as the last of them has it.
  std::map<std::string, KeptEvent> newest() const;
};

/// Gives planned events their sequence: that of when they were handed out last, where they still tell the same.
void set_sequences(std::span<KeptEvent> planned, const std::map<std::string, KeptEvent>& newest, int prints);

/// Of what was handed out and is not over by `now`, what is planned no more: cancelled, and told of until its time is
/// over, the same each time. `is_planned`: by uid, in anybody's calendar.
std::vector<KeptEvent> cancelled_of(std::span<const KeptEvent> before, const std::map<std::string, KeptEvent>& newest,
                                    const std::function<bool(const std::string&)>& is_planned, Instant now);

}  // namespace blankwright
