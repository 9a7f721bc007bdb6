#pragma once

// Keys of the tables that tell of the shop's work; read_shop.cpp alone makes a file of them.

#include "read/keys.h"
#include "read/text_forms.h"
#include "read/work.h"

namespace blankwright {

template <>
struct Words<HandsOnWhen> {
  static constexpr std::array<std::string_view, 3> list{"throughout", "start", "ends"};
};

template <>
struct Words<PlannedWork> {
  static constexpr std::array<std::string_view, 6> list{"drying", "cooling", "vacuum",
                                                        "soak",   "cure",    "glue-setting"};
};

template <>
struct Keys<WeekFacts> {
  static inline const KeyList list{
      key("monday", &WeekFacts::monday,
          "stretches of work on a Monday: [\"08:00-12:00\", \"13:00-17:00\"]; free when left out", within(0, 10)),
      key("tuesday", &WeekFacts::tuesday, "stretches of work on a Tuesday; free when left out", within(0, 10)),
      key("wednesday", &WeekFacts::wednesday, "stretches of work on a Wednesday; free when left out", within(0, 10)),
      key("thursday", &WeekFacts::thursday, "stretches of work on a Thursday; free when left out", within(0, 10)),
      key("friday", &WeekFacts::friday, "stretches of work on a Friday; free when left out", within(0, 10)),
      key("saturday", &WeekFacts::saturday, "stretches of work on a Saturday; free when left out", within(0, 10)),
      key("sunday", &WeekFacts::sunday, "stretches of work on a Sunday; free when left out", within(0, 10)),
      key("days_off", &WeekFacts::days_off, "dates without work", within(0, 1000)),
  };
};

template <>
struct Keys<SpanFacts> {
  static inline const KeyList list{
      key("from", &SpanFacts::from, "first day, or a time of it: \"2027-05-03 13:00\"", {}, "2027-05-03"),
      key("to", &SpanFacts::to, "last day, which counts whole, or a time of it", {}, "2027-05-05"),
  };
};
template <>
struct Keys<PersonFacts> {
  static inline const KeyList list{
      key("name", &PersonFacts::name, "as operations name them", within(1, 30)),
      key("hours", &PersonFacts::hours, "their own working hours; the shop's when left out"),
      key("away", &PersonFacts::away, "when they are away", within(0, 200)),
  };
};
template <>
struct Keys<MachineFacts> {
  static inline const KeyList list{
      key("name", &MachineFacts::name, "as operations name it", within(1, 40)),
      key("outages", &MachineFacts::outages, "when it cannot be used", within(0, 200)),
  };
};

namespace work_limits {
inline const Limits span_of_time = within(0 * hour, 60 * 24 * hour);
}  // namespace work_limits

template <>
struct Keys<OperationFacts> {
  static inline const KeyList list{
      key("name", &OperationFacts::name, "what is done", within(1, 60)),
      key("who", &OperationFacts::who, "who does it", within(1, 30)),
      key("also", &OperationFacts::also, "who else can do it: whoever has time first does", within(0, 10)),
      key("machine", &OperationFacts::machine, "machine that it needs", within(1, 40)),
      key("fixed", &OperationFacts::fixed, "time that it takes whatever the number of pieces",
          work_limits::span_of_time),
      key("per_piece", &OperationFacts::per_piece, "time for each piece", within(0 * hour, 48 * hour)),
      key("planned", &OperationFacts::planned,
          "takes the time that the plan works out for this, in the vessel or the oven, instead of `fixed`"),
      key("turnaround", &OperationFacts::turnaround,
          "it is sent out instead, and comes back after that, by the calendar: \"5 d\"", work_limits::span_of_time,
          "\"5 d\""),
      key("most_a_day", &OperationFacts::most_a_day, "done to so many pieces in a day at most, of all orders",
          within(1, 10'000)),
      key("hands_on", &OperationFacts::hands_on, "when somebody has to be at it"),
      key("hands_on_time", &OperationFacts::hands_on_time,
          "how long, at the start or at either end; 10 min when left out", within(0 * hour, 12 * hour)),
      key("least_part", &OperationFacts::least_part, "work that pauses is cut into no shorter parts",
          within(0 * hour, 4 * hour)),
      key("unattended", &OperationFacts::unattended, "may it run while nobody is there"),
      key("may_run_long", &OperationFacts::may_run_long, "may it run longer without harm"),
      key("most", &OperationFacts::most, "the longest that it may run", work_limits::span_of_time),
      key("longest_wait", &OperationFacts::longest_wait, "the longest wait between the operation before and this one",
          work_limits::span_of_time),
      key("only_witnesses", &OperationFacts::only_witnesses,
          "done to witnesses alone, which go no further; left out where there are none"),
      key("ended_by", &OperationFacts::ended_by, "the entry with which it is done to a blank"),
      key("only_treated", &OperationFacts::only_treated, "left out for orders that no resin is drawn into"),
      key("limit", &OperationFacts::limit, "what to keep to, printed beside it", within(1, 120)),
      key("hold", &OperationFacts::hold, "what has to be true before the work goes on; a signature is asked for",
          within(1, 120)),
  };
};

}  // namespace blankwright
