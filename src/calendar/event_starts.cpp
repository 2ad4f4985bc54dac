#include "calendar/event_starts.h"

#include <algorithm>
#include <memory>

namespace trowelbell {

namespace {

struct FreeIterator {
  void operator()(icalrecur_iterator* iterator) const { icalrecur_iterator_free(iterator); }
};

bool is_for_days(const icalrecurrencetype& rule) {
  const bool daily_or_rarer =
      rule.freq == ICAL_DAILY_RECURRENCE || rule.freq == ICAL_WEEKLY_RECURRENCE ||
      rule.freq == ICAL_MONTHLY_RECURRENCE || rule.freq == ICAL_YEARLY_RECURRENCE;
  return daily_or_rarer && rule.by_hour[0] == ICAL_RECURRENCE_ARRAY_MAX &&
         rule.by_minute[0] == ICAL_RECURRENCE_ARRAY_MAX &&
         rule.by_second[0] == ICAL_RECURRENCE_ARRAY_MAX;
}

void sort_once(std::vector<icaltimetype>& starts) {
  std::sort(starts.begin(), starts.end(), [](const icaltimetype& a, const icaltimetype& b) {
    return icaltime_compare(a, b) < 0;
  });
  const auto same = [](const icaltimetype& a, const icaltimetype& b) {
    return icaltime_compare(a, b) == 0;
  };
  starts.erase(std::unique(starts.begin(), starts.end(), same), starts.end());
}

}  // namespace

bool EventStarts::read(icalcomponent* event, const DateRange& window,
                       std::vector<icaltimetype>& starts) {
  const icaltimetype first = icalcomponent_get_dtstart(event);
  if (icaltime_is_null_time(first) || !icaltime_is_valid_time(first) || !date_of(first).ok() ||
      icalcomponent_get_first_property(event, ICAL_EXRULE_PROPERTY) != nullptr) {
    return false;
  }
  icalproperty* rule = icalcomponent_get_first_property(event, ICAL_RRULE_PROPERTY);
  if (rule == nullptr) starts.push_back(first);
  for (; rule != nullptr; rule = icalcomponent_get_next_property(event, ICAL_RRULE_PROPERTY)) {
    if (!read_rule(icalproperty_get_rrule(rule), first, window, starts)) return false;
  }
  for (icalproperty* added = icalcomponent_get_first_property(event, ICAL_RDATE_PROPERTY);
       added != nullptr; added = icalcomponent_get_next_property(event, ICAL_RDATE_PROPERTY)) {
    const icaldatetimeperiodtype at = icalproperty_get_rdate(added);
    const icaltimetype start = icaltime_is_null_time(at.time) ? at.period.start : at.time;
    if (icaltime_is_null_time(start) || !date_of(start).ok()) return false;
    starts.push_back(start);
  }
  sort_once(starts);
  return true;
}

bool EventStarts::read_rule(const icalrecurrencetype& rule, const icaltimetype& first,
                            const DateRange& window, std::vector<icaltimetype>& starts) {
  within_limits_ = within_limits_ && ++repeated_ <= kMostRepeatedEvents;
  if (!within_limits_ || !is_for_days(rule)) return false;
  const std::unique_ptr<icalrecur_iterator, FreeIterator> iterator(
      icalrecur_iterator_new(rule, first));
  if (!iterator) return false;
  // A day more at the end, since what is tomorrow in UTC may be today at the school.
  const Date earliest = add_days(window.from, -kLongestEventDays - 1);
  const Date latest = add_days(window.to, 1);
  for (;;) {
    const icaltimetype next = icalrecur_iterator_next(iterator.get());
    if (icaltime_is_null_time(next) || !date_of(next).ok() || date_of(next) > latest) break;
    if (date_of(next) >= earliest) starts.push_back(next);
  }
  within_limits_ = std::chrono::steady_clock::now() < deadline_;
  return within_limits_;
}

}  // namespace trowelbell
