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
  Instant from, to;
  bool all_day = false;
  bool busy = true;
};

inline Instant instant_read(const icaltimetype& time) {
  return Instant{std::chrono::seconds{icaltime_as_timet_with_zone(time, icaltimezone_get_utc_timezone())}};
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
    event.status = icalcomponent_get_status(one) == ICAL_STATUS_TENTATIVE ? "tentative" : "confirmed";
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
