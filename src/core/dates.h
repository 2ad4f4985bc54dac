// Calendar dates and clock times as the school writes them. No time zones here: a brief carries its
// own UTC offset.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace trowelbell {

using Date = std::chrono::year_month_day;

// "2027-03-08" (ISO 8601, years 2000..2199), or nothing. Never a date that does not exist.
std::optional<Date> parse_date(std::string_view text);
std::string format_date(Date date);
// "09:05" as minutes after midnight, 0..1439, or nothing.
std::optional<std::int64_t> parse_clock(std::string_view text);
std::string format_clock(std::int64_t minutes);
// A span of time: "9:31", "-0:15".
std::string minutes_seconds(std::int64_t seconds);

Date add_days(Date date, std::int64_t days);
std::int64_t days_between(Date from, Date to);  // to - from
// Monday 0 .. Sunday 6.
int weekday_index(Date date);

// Milliseconds since 1970-01-01T00:00Z of a local date and minute, at an offset in minutes east of
// UTC.
std::int64_t to_epoch_ms(Date date, std::int64_t minutes, std::int64_t utc_offset_minutes);
Date local_date(std::int64_t epoch_ms, std::int64_t utc_offset_minutes);
std::int64_t local_minutes(std::int64_t epoch_ms, std::int64_t utc_offset_minutes);

}  // namespace trowelbell
