// A school district's calendar, as an iCalendar file (RFC 5545): which of its events close the
// school, which end its day early, and which say neither.
//
// Districts mark such days in no common way, so the words in an event's SUMMARY and CATEGORIES
// decide: whole words, whatever their case. Half-day words go before closed ones ("Early release,
// winter break begins"). A person must look at what came of it: `trowelbell check` lists it.
//
// Dates are those written in the file; a time in UTC is put on the school's own clock, any other
// time is taken as the wall clock that it was written for. DTEND is exclusive. Cancelled events do
// not count, an event with a RECURRENCE-ID stands in place of the one it names.
#pragma once

#include "core/county.h"

namespace trowelbell {

enum class DayKind { closed, half_day, other };

struct CalendarEvent {
  std::string summary;  // at most 120 bytes
  DayKind kind = DayKind::other;
  std::vector<DateRange> days;  // whenever it takes place within the window; at least one
};

struct CalendarReading {
  std::vector<CalendarEvent> events;  // in the file's order
  std::size_t not_understood = 0;     // without a start, or repeated in a way no school day is
};

inline constexpr std::size_t kCalendarBytes = 1024 * 1024;
inline constexpr std::size_t kMostCalendarEvents = 3000;
inline constexpr std::size_t kMostRepeatedEvents = 500;
inline constexpr std::size_t kMostEventDays = 20'000;  // of all events together, in the window
// A rule that never comes true is looked for over thousands of years; a file may not have many.
inline constexpr std::chrono::seconds kLongestReading{3};

// The events of `text` within `window`. `school` has its `calendar` words and, for times in UTC,
// its offsets. Nothing, and one problem, where this is no iCalendar file or one beyond the limits.
std::optional<CalendarReading> read_school_calendar(std::string_view text, const School& school,
                                                    const DateRange& window, Problems& problems);

// Adds the days of closed and half-day events to the school's own, in order, closed days that touch
// made one range; the school then has no `calendar` any more.
void take_calendar_days(School& school, const std::vector<CalendarEvent>& events);

}  // namespace trowelbell
