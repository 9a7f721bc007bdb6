#pragma once

#include <libical/ical.h>

#include <chrono>
#include <memory>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "measure/instant.h"

namespace blankwright {

/// An event as libical, the reference library, reads it from a calendar file.
struct EventRead {
  std::string uid, summary, description, place, category, status;
  Instant from, to, stamp;
  int sequence = -1;  ///< none
  bool all_day = false;
  bool busy = true;
  std::string alarm;  ///< what it shows when the event begins; empty for no alarm
  friend bool operator==(const EventRead&, const EventRead&) = default;
};

inline Instant instant_read(const icaltimetype& time) {
  return Instant{std::chrono::seconds{icaltime_as_timet_with_zone(time, icaltimezone_get_utc_timezone())}};
}

/// The text of an event's alarm, which has to be shown when the event begins.
inline std::string alarm_read(icalcomponent* event) {
  icalcomponent* alarm = icalcomponent_get_first_component(event, ICAL_VALARM_COMPONENT);
  if (alarm == nullptr) return {};
  CHECK(icalcomponent_get_next_component(event, ICAL_VALARM_COMPONENT) == nullptr);
  icalproperty* action = icalcomponent_get_first_property(alarm, ICAL_ACTION_PROPERTY);
  icalproperty* trigger = icalcomponent_get_first_property(alarm, ICAL_TRIGGER_PROPERTY);
  REQUIRE(action != nullptr);
  REQUIRE(trigger != nullptr);
  CHECK(icalproperty_get_action(action) == ICAL_ACTION_DISPLAY);
  const icaltriggertype when = icalproperty_get_trigger(trigger);
  CHECK(icaltime_is_null_time(when.time) != 0);
  CHECK(icaldurationtype_as_int(when.duration) == 0);
  return icalcomponent_get_description(alarm);
}

/// Reads the events of a file. It must have no fault that libical finds.
inline std::vector<EventRead> events_read(const std::string& file) {
  const auto text_of = [](const char* text) { return std::string{text == nullptr ? "" : text}; };
  const std::unique_ptr<icalcomponent, void (*)(icalcomponent*)> calendar{icalparser_parse_string(file.c_str()),
                                                                          icalcomponent_free};
  REQUIRE(calendar != nullptr);
  CHECK(icalcomponent_count_errors(calendar.get()) == 0);
  CHECK(icalrestriction_check(calendar.get()) != 0);
  std::vector<EventRead> events;
  for (icalcomponent* one = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT); one != nullptr;
       one = icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT)) {
    EventRead event;
    event.uid = text_of(icalcomponent_get_uid(one));
    event.summary = text_of(icalcomponent_get_summary(one));
    event.description = text_of(icalcomponent_get_description(one));
    event.place = text_of(icalcomponent_get_location(one));
    if (icalproperty* category = icalcomponent_get_first_property(one, ICAL_CATEGORIES_PROPERTY)) {
      event.category = text_of(icalproperty_get_categories(category));
    }
    const icalproperty_status status = icalcomponent_get_status(one);
    event.status = status == ICAL_STATUS_TENTATIVE   ? "tentative"
                   : status == ICAL_STATUS_CANCELLED ? "cancelled"
                                                     : "confirmed";
    event.stamp = instant_read(icalcomponent_get_dtstamp(one));
    if (icalcomponent_get_first_property(one, ICAL_SEQUENCE_PROPERTY) != nullptr) {
      event.sequence = icalcomponent_get_sequence(one);
    }
    event.alarm = alarm_read(one);
    const icaltimetype start = icalcomponent_get_dtstart(one);
    event.all_day = start.is_date != 0;
    event.from = instant_read(start);
    event.to = instant_read(icalcomponent_get_dtend(one));
    icalproperty* busy = icalcomponent_get_first_property(one, ICAL_TRANSP_PROPERTY);
    event.busy = busy == nullptr || icalproperty_get_transp(busy) == ICAL_TRANSP_OPAQUE;
    events.push_back(std::move(event));
  }
  return events;
}

}  // namespace blankwright
