// Every day from 2000 to 2199 against the C library's calendar (timegm, gmtime_r), and moments
// against it at seeded random times and offsets.
#include <doctest/doctest.h>

#include <cstdio>
#include <ctime>
#include <random>

#include "core/dates.h"

using namespace trowelbell;

namespace {

constexpr std::int64_t kSecondsADay = 86'400;

std::int64_t c_seconds(int year, int month, int day) {
  std::tm parts{};
  parts.tm_year = year - 1900;
  parts.tm_mon = month - 1;
  parts.tm_mday = day;
  return timegm(&parts);
}

std::tm c_parts(std::int64_t seconds) {
  const std::time_t time = seconds;
  std::tm parts{};
  gmtime_r(&time, &parts);
  return parts;
}

std::string c_date(const std::tm& parts) {
  char text[64];
  std::snprintf(text, sizeof text, "%04d-%02d-%02d", parts.tm_year + 1900, parts.tm_mon + 1,
                parts.tm_mday);
  return text;
}

}  // namespace

TEST_CASE("every day of two centuries agrees with the C library") {
  const std::int64_t first = c_seconds(2000, 1, 1);
  const std::int64_t after = c_seconds(2200, 1, 1);
  const auto start = parse_date("2000-01-01");
  REQUIRE(start);
  std::int64_t days = 0;
  std::int64_t wrong = 0;
  for (std::int64_t seconds = first; seconds < after; seconds += kSecondsADay, ++days) {
    const std::tm parts = c_parts(seconds);
    const std::string text = c_date(parts);
    const auto date = parse_date(text);
    const bool same = date && format_date(*date) == text && add_days(*start, days) == *date &&
                      days_between(*start, *date) == days &&
                      weekday_index(*date) == (parts.tm_wday + 6) % 7 &&
                      to_epoch_ms(*date, 0, 0) == seconds * 1000;
    wrong += same ? 0 : 1;
  }
  CHECK(days == 73'049);  // 200 years, 49 of them leap years
  CHECK(wrong == 0);
}

TEST_CASE("a date is refused exactly where the C library moves it to another day") {
  std::int64_t wrong = 0;
  for (int year = 2000; year < 2200; ++year) {
    for (int month = 0; month < 14; ++month) {
      for (int day = 0; day < 33; ++day) {
        char text[64];
        std::snprintf(text, sizeof text, "%04d-%02d-%02d", year, month, day);
        const bool exists = c_date(c_parts(c_seconds(year, month, day))) == text;
        wrong += parse_date(text).has_value() == exists ? 0 : 1;
      }
    }
  }
  CHECK(wrong == 0);
}

TEST_CASE("local dates and minutes of random moments agree with the C library") {
  std::mt19937_64 random(20'270'308);
  std::uniform_int_distribution<std::int64_t> seconds(c_seconds(2000, 1, 2),
                                                      c_seconds(2199, 12, 30));
  std::uniform_int_distribution<std::int64_t> milliseconds(0, 999);
  std::uniform_int_distribution<std::int64_t> offsets(-720, 840);
  for (int round = 0; round < 20'000; ++round) {
    const std::int64_t second = seconds(random);
    const std::int64_t offset = offsets(random);
    const std::int64_t moment = second * 1000 + milliseconds(random);
    const std::tm parts = c_parts(second + offset * 60);
    const Date date = local_date(moment, offset);
    const std::int64_t minutes = local_minutes(moment, offset);
    REQUIRE(format_date(date) == c_date(parts));
    REQUIRE(minutes == parts.tm_hour * 60 + parts.tm_min);
    REQUIRE(to_epoch_ms(date, minutes, offset) == (second - parts.tm_sec) * 1000);
  }
}
