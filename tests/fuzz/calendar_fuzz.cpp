// A school's calendar: whatever the bytes, its days are in the window, in order, and few enough.
#include "calendar/school_calendar.h"

#include "fuzz.h"

using namespace trowelbell;

static void fuzz_one(std::string_view text) {
  School school;
  school.utc_offset_minutes = -420;
  school.calendar = CalendarFile{"x.ics", {"no school", "break"}, {"early release"}};
  const DateRange window{std::chrono::year{2027} / 1 / 1, std::chrono::year{2027} / 12 / 31};
  Problems problems;
  const auto reading = read_school_calendar(text, school, window, problems);
  fuzz::must(reading.has_value() == problems.empty());
  if (!reading) return;
  std::size_t days = 0;
  for (const CalendarEvent& event : reading->events) {
    fuzz::must(!event.days.empty() && event.summary.size() <= 120);
    days += event.days.size();
    for (const DateRange& each : event.days) {
      fuzz::must(each.from.ok() && each.to.ok() && window.from <= each.from &&
                 each.from <= each.to && each.to <= window.to);
    }
  }
  fuzz::must(days <= kMostEventDays);
  take_calendar_days(school, reading->events);
  for (std::size_t i = 1; i < school.closed.size(); ++i) {
    fuzz::must(add_days(school.closed[i - 1].to, 1) < school.closed[i].from);
  }
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
