#include "write/icalendar.h"

#include <fmt/format.h>

#include <string_view>

namespace blankwright {
namespace {

constexpr std::size_t longest_line = 75;  // bytes, without the line's end (RFC 5545, section 3.1)

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

/// Adds "NAME:value", folded between characters where it is long.
void add(std::string& out, std::string_view name, std::string_view value) {
  const std::string line = fmt::format("{}:{}", name, value);
  std::size_t begin = 0;
  std::size_t room = longest_line;
  while (line.size() - begin > room) {
    std::size_t end = begin + room;
    while (continues(line[end])) --end;
    out.append(line, begin, end - begin).append("\r\n ");
    begin = end;
    room = longest_line - 1;  // the space counts
  }
  out.append(line, begin).append("\r\n");
}

/// As a value of the type TEXT (RFC 5545, section 3.3.11).
std::string escaped_value(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\n') {
      out += "\\n";
      continue;
    }
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    out += c;
  }
  return out;
}

std::string utc(Instant instant) {
  const LocalTime t = local_time(Zone{}, instant);
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}Z", static_cast<int>(t.date.year()),
                     static_cast<unsigned>(t.date.month()), static_cast<unsigned>(t.date.day()), t.hour, t.minute,
                     t.second);
}

std::string day(Date date) {
  return fmt::format("{:04}{:02}{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

void add_text(std::string& out, std::string_view name, const std::string& text) {
  if (!text.empty()) add(out, name, escaped_value(text));
}

/// By a text on the screen, when the event begins (RFC 5545, section 3.6.6).
void add_alarm(std::string& out, const CalendarEvent& event) {
  add(out, "BEGIN", "VALARM");
  add(out, "ACTION", "DISPLAY");
  add_text(out, "DESCRIPTION", event.summary);
  add(out, "TRIGGER", "PT0S");
  add(out, "END", "VALARM");
}

void add_event(std::string& out, const CalendarFile& file, const CalendarEvent& event) {
  add(out, "BEGIN", "VEVENT");
  add_text(out, "UID", event.uid);
  add(out, "DTSTAMP", utc(file.made));
  add(out, "SEQUENCE", fmt::format("{}", event.sequence));
  if (event.all_day) {
    add(out, "DTSTART;VALUE=DATE", day(*event.all_day));  // without an end it is that day
  } else {
    add(out, "DTSTART", utc(event.from));
    if (event.to > event.from) add(out, "DTEND", utc(event.to));  // it has to be later (section 3.8.2.2)
  }
  add_text(out, "SUMMARY", event.summary);
  add_text(out, "DESCRIPTION", event.description);
  add_text(out, "LOCATION", event.place);
  add_text(out, "CATEGORIES", event.category);
  add(out, "STATUS", event.cancelled ? "CANCELLED" : file.tentative ? "TENTATIVE" : "CONFIRMED");
  add(out, "TRANSP", event.busy ? "OPAQUE" : "TRANSPARENT");
  if (event.alarm) add_alarm(out, event);
  add(out, "END", "VEVENT");
}

}  // namespace

std::string icalendar(const CalendarFile& file) {
  std::string out;
  add(out, "BEGIN", "VCALENDAR");
  add(out, "VERSION", "2.0");
  add(out, "PRODID", escaped_value(fmt::format("-//{}//EN", file.program)));
  add_text(out, "NAME", file.name);
  for (const CalendarEvent& event : file.events) add_event(out, file, event);
  add(out, "END", "VCALENDAR");
  return out;
}

}  // namespace blankwright
