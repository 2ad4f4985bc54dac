#include "calendar/school_calendar.h"

#include <algorithm>
#include <map>
#include <memory>

#include "calendar/event_starts.h"
#include "calendar/event_words.h"

namespace trowelbell {

namespace {

constexpr std::int64_t kMinutesADay = 24 * 60;
constexpr std::size_t kSummaryBytes = 120;

struct FreeComponent {
  void operator()(icalcomponent* component) const { icalcomponent_free(component); }
};
using Component = std::unique_ptr<icalcomponent, FreeComponent>;

std::string text_of(const char* text) {
  return text == nullptr ? "" : text;
}

// Events changed or called off for one of their days: by UID, the days they stand in for.
using Replaced = std::multimap<std::string, icaltimetype>;

class CalendarReader {
 public:
  CalendarReader(const School& school, const DateRange& window)
      : school_(school), window_(window) {}

  bool read(icalcomponent* calendar);
  CalendarReading reading;

 private:
  void read_event(icalcomponent* event);
  bool within_limits() const {
    return count_ <= kMostCalendarEvents && days_ <= kMostEventDays && starts_.within_limits();
  }
  bool is_replaced(icalcomponent* event, const icaltimetype& start) const;
  DateRange days_of(const icaltimetype& start, std::int64_t seconds) const;

  const School& school_;
  const DateRange window_;
  Replaced replaced_;
  EventStarts starts_;
  std::size_t count_ = 0;
  std::size_t days_ = 0;
};

template <class Use>
void for_each_event(icalcomponent* calendar, Use use) {
  if (icalcomponent_isa(calendar) == ICAL_VEVENT_COMPONENT) use(calendar);
  for (icalcomponent* inner = icalcomponent_get_first_component(calendar, ICAL_ANY_COMPONENT);
       inner != nullptr; inner = icalcomponent_get_next_component(calendar, ICAL_ANY_COMPONENT)) {
    const auto kind = icalcomponent_isa(inner);
    if (kind == ICAL_VEVENT_COMPONENT) use(inner);
    if (kind == ICAL_VCALENDAR_COMPONENT) for_each_event(inner, use);
  }
}

bool is_cancelled(icalcomponent* event) {
  return icalcomponent_get_status(event) == ICAL_STATUS_CANCELLED;
}

// In seconds of one clock's hands, so that a day on which clocks change is a day like others; at
// least one, at most a year and a month.
std::int64_t length_of(const icaltimetype& start, const icaltimetype& end) {
  if (icaltime_is_null_time(end)) return 1;
  const bool same_clock = start.zone == end.zone;
  const std::int64_t length = same_clock ? icaltime_as_timet(end) - icaltime_as_timet(start)
                                         : icaltime_as_timet_with_zone(end, end.zone) -
                                               icaltime_as_timet_with_zone(start, start.zone);
  return std::clamp<std::int64_t>(length, 1, kLongestEventDays * kMinutesADay * 60);
}

bool CalendarReader::read(icalcomponent* calendar) {
  for_each_event(calendar, [&](icalcomponent* event) {
    const icaltimetype instead_of = icalcomponent_get_recurrenceid(event);
    if (!icaltime_is_null_time(instead_of)) {
      replaced_.emplace(text_of(icalcomponent_get_uid(event)), instead_of);
    }
    ++count_;
  });
  for_each_event(calendar, [&](icalcomponent* event) {
    if (within_limits() && !is_cancelled(event)) read_event(event);
  });
  return within_limits();
}

void CalendarReader::read_event(icalcomponent* event) {
  std::vector<icaltimetype> starts;
  if (!starts_.read(event, window_, starts)) {
    ++reading.not_understood;
    return;
  }
  const icaltimetype start = icalcomponent_get_dtstart(event);
  const std::int64_t seconds = length_of(start, icalcomponent_get_dtend(event));
  CalendarEvent found;
  for (const icaltimetype& each : starts) {
    if (is_replaced(event, each)) continue;
    icaltimetype first = start, other = each;
    if (icalproperty_recurrence_is_excluded(event, &first, &other) != 0) continue;
    const DateRange days = days_of(each, seconds);
    if (days.to < window_.from || window_.to < days.from) continue;
    found.days.push_back({std::max(days.from, window_.from), std::min(days.to, window_.to)});
  }
  days_ += found.days.size();
  if (found.days.empty()) return;
  const EventWords words = words_of(event);
  found.kind = kind_of(words, *school_.calendar);
  found.summary = shortened(words.summary, kSummaryBytes);
  reading.events.push_back(std::move(found));
}

bool CalendarReader::is_replaced(icalcomponent* event, const icaltimetype& start) const {
  if (!icaltime_is_null_time(icalcomponent_get_recurrenceid(event))) return false;
  const auto [from, to] = replaced_.equal_range(text_of(icalcomponent_get_uid(event)));
  return std::any_of(from, to,
                     [&](const auto& each) { return icaltime_compare(each.second, start) == 0; });
}

DateRange CalendarReader::days_of(const icaltimetype& start, std::int64_t seconds) const {
  std::int64_t minutes = start.is_date != 0 ? 0 : start.hour * 60 + start.minute;
  if (start.is_date == 0 && icaltime_is_utc(start) != 0) {
    minutes += utc_offset_at(school_, date_of(start), minutes);
  }
  const Date from = add_days(date_of(start), minutes < 0 ? -1 : minutes / kMinutesADay);
  minutes = (minutes + kMinutesADay) % kMinutesADay;
  return {from, add_days(from, (minutes * 60 + seconds - 1) / (kMinutesADay * 60))};
}

// What a file says of its zones is not needed for days, and may be built to take forever.
void drop_zones(icalcomponent* calendar) {
  icalcomponent* inner = icalcomponent_get_first_component(calendar, ICAL_ANY_COMPONENT);
  while (inner != nullptr) {
    icalcomponent* const next = icalcomponent_get_next_component(calendar, ICAL_ANY_COMPONENT);
    if (icalcomponent_isa(inner) == ICAL_VTIMEZONE_COMPONENT) {
      icalcomponent_remove_component(calendar, inner);
      icalcomponent_free(inner);
    } else if (icalcomponent_isa(inner) == ICAL_VCALENDAR_COMPONENT) {
      drop_zones(inner);
    }
    inner = next;
  }
}

std::optional<CalendarReading> refused(Problems& problems, std::string what) {
  add_problems(problems, {{"", std::move(what)}});
  return std::nullopt;
}

}  // namespace

std::optional<CalendarReading> read_school_calendar(std::string_view text, const School& school,
                                                    const DateRange& window, Problems& problems) {
  if (text.size() > kCalendarBytes) {
    return refused(problems,
                   "is too long; at most " + std::to_string(kCalendarBytes) + " bytes are read");
  }
  icalerror_set_errors_are_fatal(0);
  const std::string whole(text.substr(0, text.find('\0')));
  const Component calendar(icalparser_parse_string(whole.c_str()));
  const auto kind = calendar ? icalcomponent_isa(calendar.get()) : ICAL_NO_COMPONENT;
  if (kind != ICAL_VCALENDAR_COMPONENT && kind != ICAL_XROOT_COMPONENT) {
    return refused(problems,
                   "is not an iCalendar file; it must begin with BEGIN:VCALENDAR (save the "
                   "district's calendar as .ics)");
  }
  drop_zones(calendar.get());
  CalendarReader reader(school, window);
  if (!reader.read(calendar.get())) {
    return refused(problems, "has too much in it; at most " + std::to_string(kMostCalendarEvents) +
                                 " events, " + std::to_string(kMostRepeatedEvents) +
                                 " of them repeated, and " + std::to_string(kMostEventDays) +
                                 " days of events are read, in " +
                                 std::to_string(kLongestReading.count()) + " seconds");
  }
  return std::move(reader.reading);
}

void take_calendar_days(School& school, const std::vector<CalendarEvent>& events) {
  for (const CalendarEvent& event : events) {
    for (const DateRange& days : event.days) {
      if (event.kind == DayKind::closed) school.closed.push_back(days);
      for (Date day = days.from; event.kind == DayKind::half_day && day <= days.to;
           day = add_days(day, 1)) {
        if (weekday_index(day) < 5) school.half_days.push_back(day);
      }
    }
  }
  std::sort(school.half_days.begin(), school.half_days.end());
  school.half_days.erase(std::unique(school.half_days.begin(), school.half_days.end()),
                         school.half_days.end());
  std::sort(school.closed.begin(), school.closed.end(),
            [](const DateRange& a, const DateRange& b) { return a.from < b.from; });
  std::vector<DateRange> joined;
  for (const DateRange& range : school.closed) {
    if (!joined.empty() && range.from <= add_days(joined.back().to, 1)) {
      joined.back().to = std::max(joined.back().to, range.to);
    } else {
      joined.push_back(range);
    }
  }
  school.closed = std::move(joined);
  school.calendar.reset();
}

}  // namespace trowelbell
