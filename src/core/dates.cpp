#include "dates.h"

#include <cstdlib>

namespace trowelbell {
namespace {

constexpr std::int64_t kMinutesADay = 24 * 60;
constexpr std::int64_t kMsAMinute = 60 * 1000;
constexpr int kFirstYear = 2000;
constexpr int kLastYear = 2199;

// The number written by exactly `text`'s digits, or nothing.
std::optional<int> digits(std::string_view text) {
  int number = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + (c - '0');
  }
  return number;
}

void append_digits(std::string& text, std::int64_t number, std::size_t width) {
  const std::string plain = std::to_string(number);
  if (plain.size() < width) text.append(width - plain.size(), '0');
  text += plain;
}

std::int64_t day_number(Date date) {
  return std::chrono::sys_days{date}.time_since_epoch().count();
}

Date date_of_day(std::int64_t day) {
  return Date{std::chrono::sys_days{std::chrono::days{static_cast<int>(day)}}};
}

// Division that rounds down, so that moments before 1970 fall on the day they belong to.
std::int64_t floor_div(std::int64_t value, std::int64_t by) {
  return value / by - (value % by < 0 ? 1 : 0);
}

std::int64_t local_minute_number(std::int64_t epoch_ms, std::int64_t utc_offset_minutes) {
  return floor_div(epoch_ms, kMsAMinute) + utc_offset_minutes;
}

}  // namespace

std::optional<Date> parse_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = digits(text.substr(0, 4));
  const auto month = digits(text.substr(5, 2));
  const auto day = digits(text.substr(8, 2));
  if (!year || !month || !day || *year < kFirstYear || *year > kLastYear) return std::nullopt;
  const Date date{std::chrono::year{*year}, std::chrono::month{static_cast<unsigned>(*month)},
                  std::chrono::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return std::nullopt;
  return date;
}

std::string format_date(Date date) {
  std::string text;
  append_digits(text, static_cast<int>(date.year()), 4);
  text += '-';
  append_digits(text, static_cast<unsigned>(date.month()), 2);
  text += '-';
  append_digits(text, static_cast<unsigned>(date.day()), 2);
  return text;
}

std::optional<std::int64_t> parse_clock(std::string_view text) {
  if (text.size() != 5 || text[2] != ':') return std::nullopt;
  const auto hours = digits(text.substr(0, 2));
  const auto minutes = digits(text.substr(3, 2));
  if (!hours || !minutes || *hours > 23 || *minutes > 59) return std::nullopt;
  return *hours * 60 + *minutes;
}

std::string format_clock(std::int64_t minutes) {
  std::string text;
  append_digits(text, minutes / 60, 2);
  text += ':';
  append_digits(text, minutes % 60, 2);
  return text;
}

std::string minutes_seconds(std::int64_t seconds) {
  const std::int64_t size = std::abs(seconds);
  std::string text = seconds < 0 ? "-" : "";
  append_digits(text, size / 60, 1);
  text += ':';
  append_digits(text, size % 60, 2);
  return text;
}

Date add_days(Date date, std::int64_t days) {
  return date_of_day(day_number(date) + days);
}

std::int64_t days_between(Date from, Date to) {
  return day_number(to) - day_number(from);
}

int weekday_index(Date date) {
  return static_cast<int>(std::chrono::weekday{std::chrono::sys_days{date}}.iso_encoding() - 1);
}

std::int64_t to_epoch_ms(Date date, std::int64_t minutes, std::int64_t utc_offset_minutes) {
  return (day_number(date) * kMinutesADay + minutes - utc_offset_minutes) * kMsAMinute;
}

Date local_date(std::int64_t epoch_ms, std::int64_t utc_offset_minutes) {
  return date_of_day(floor_div(local_minute_number(epoch_ms, utc_offset_minutes), kMinutesADay));
}

std::int64_t local_minutes(std::int64_t epoch_ms, std::int64_t utc_offset_minutes) {
  const std::int64_t minute = local_minute_number(epoch_ms, utc_offset_minutes);
  return minute - floor_div(minute, kMinutesADay) * kMinutesADay;
}

}  // namespace trowelbell
