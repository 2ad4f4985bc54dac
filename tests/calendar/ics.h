// Small calendars for tests, and what the reader makes of them.
#pragma once

#include <doctest/doctest.h>

#include "calendar/school_calendar.h"

namespace trowelbell::ics {

inline Date date(std::string_view text) {
  return parse_date(text).value_or(Date{});
}

// A calendar of events, each given as the lines between its BEGIN and END. Lines end in CRLF (RFC
// 5545, 3.1).
inline std::string calendar(const std::vector<std::string>& events) {
  std::string text = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//example//test//EN\r\n";
  for (const std::string& event : events) {
    text += "BEGIN:VEVENT\r\nDTSTAMP:20260601T000000Z\r\n";
    if (event.find("UID:") == std::string::npos)
      text += "UID:" + std::to_string(text.size()) + "\r\n";
    for (const char c : event) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
    text += "\r\nEND:VEVENT\r\n";
  }
  return text + "END:VCALENDAR\r\n";
}

// Five hours behind UTC, with the usual words for what the tests need.
inline School school() {
  School made;
  made.utc_offset_minutes = -300;
  made.calendar = CalendarFile{"x.ics", {"no school", "break"}, {"early release", "medio día"}};
  return made;
}

inline CalendarReading read(const std::string& text, const DateRange& window,
                            const School& at = school()) {
  Problems problems;
  auto reading = read_school_calendar(text, at, window, problems);
  REQUIRE_MESSAGE(reading.has_value(), (problems.empty() ? "" : problems[0].what));
  CHECK(problems.empty());
  return std::move(*reading);
}

inline const DateRange kSchoolYear{date("2026-08-01"), date("2027-07-31")};

// "2027-01-01" or "2027-01-01/2027-01-03", with blanks between.
inline std::string days_text(const std::vector<DateRange>& days) {
  std::string text;
  for (const DateRange& each : days) {
    text += (text.empty() ? "" : " ") + format_date(each.from) +
            (each.to == each.from ? "" : "/" + format_date(each.to));
  }
  return text;
}

// The days of the only event within the school year; "" where there is none.
inline std::string days_of(const std::string& event, const School& at = school()) {
  const CalendarReading reading = read(calendar({event}), kSchoolYear, at);
  CHECK(reading.events.size() <= 1);
  return reading.events.empty() ? "" : days_text(reading.events[0].days);
}

}  // namespace trowelbell::ics
