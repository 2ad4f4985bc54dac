#include "calendar/zone.h"

#include <absl/time/time.h>

#include <algorithm>

namespace trowelbell {

namespace {

absl::CivilDay civil_day(Date date) {
  return absl::CivilDay(static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                        static_cast<unsigned>(date.day()));
}

Date date_of(absl::CivilDay day) {
  return Date{std::chrono::year{static_cast<int>(day.year())},
              std::chrono::month{static_cast<unsigned>(day.month())},
              std::chrono::day{static_cast<unsigned>(day.day())}};
}

std::int64_t offset_minutes(absl::TimeZone zone, absl::Time at) {
  return zone.At(at).offset / 60;
}

}  // namespace

bool look_up_zone(School& school, const DateRange& window) {
  absl::TimeZone zone;
  if (!absl::LoadTimeZone(school.time_zone, &zone)) {
    return false;
  }
  // `from` is what the clock would have shown at the change, `to` what it shows; the later of the
  // two is where all doubt ends.
  absl::TimeZone::CivilTransition change;
  absl::Time at = zone.At(civil_day(window.from)).trans;
  const absl::Time end = zone.At(civil_day(window.to) + 1).trans;
  school.utc_offset_minutes = offset_minutes(zone, at);
  school.offset_changes.clear();
  while (zone.NextTransition(at, &change)) {
    at = zone.At(change.to).trans;
    if (at > end) break;
    const absl::CivilSecond settled = std::max(change.from, change.to);
    school.offset_changes.push_back({date_of(absl::CivilDay(settled)), offset_minutes(zone, at),
                                     settled.hour() * 60 + settled.minute()});
  }
  return true;
}

}  // namespace trowelbell
