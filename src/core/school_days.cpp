#include "school_days.h"

#include <algorithm>

namespace trowelbell {
namespace {

constexpr int kSaturday = 5;
constexpr std::int64_t kDaysLookedAt = 120;

std::optional<Date> nearest_school_day(const Brief& brief, Date date, std::int64_t step) {
  for (std::int64_t away = 0; away <= kDaysLookedAt; ++away) {
    const Date candidate = add_days(date, away * step);
    if (is_school_day(brief, candidate)) return candidate;
  }
  return std::nullopt;
}

}  // namespace

bool is_school_day(const Brief& brief, Date date) {
  if (weekday_index(date) >= kSaturday) return false;
  return std::none_of(brief.closed.begin(), brief.closed.end(), [date](const DateRange& range) {
    return range.from <= date && date <= range.to;
  });
}

bool is_half_day(const Brief& brief, Date date) {
  return is_school_day(brief, date) &&
         std::find(brief.half_days.begin(), brief.half_days.end(), date) != brief.half_days.end();
}

std::optional<Date> school_day_from(const Brief& brief, Date date) {
  return nearest_school_day(brief, date, 1);
}

std::optional<Date> school_day_until(const Brief& brief, Date date) {
  return nearest_school_day(brief, date, -1);
}

}  // namespace trowelbell
