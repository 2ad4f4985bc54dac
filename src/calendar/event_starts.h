// When an event of a calendar begins: DTSTART, RRULE and RDATE (RFC 5545, 3.8.5), by libical.
#pragma once

#include <libical/ical.h>

#include "calendar/school_calendar.h"

namespace trowelbell {

// No event is taken to last longer: a year and a month.
inline constexpr std::int64_t kLongestEventDays = 396;

inline Date date_of(const icaltimetype& time) {
  return std::chrono::year{time.year} / time.month / time.day;
}

// Counts what the repeated events of one file take; beyond its limits it expands no more.
class EventStarts {
 public:
  // Every start, once and in order, that can matter in the window; those that are excepted or stood
  // in for, too. False where they are not understood: no good start, a rule that repeats within a
  // day, or one that takes away by rule (EXRULE, which RFC 5545 gave up).
  bool read(icalcomponent* event, const DateRange& window, std::vector<icaltimetype>& starts);
  bool within_limits() const { return within_limits_; }

 private:
  bool read_rule(const icalrecurrencetype& rule, const icaltimetype& first, const DateRange& window,
                 std::vector<icaltimetype>& starts);

  std::size_t repeated_ = 0;
  bool within_limits_ = true;
  std::chrono::steady_clock::time_point deadline_ =
      std::chrono::steady_clock::now() + kLongestReading;
};

}  // namespace trowelbell
