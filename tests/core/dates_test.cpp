// Weekdays and leap years checked here are in any printed calendar; tests/oracle/calendar_test.cpp
// walks every day.
#include "core/dates.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

Date date(std::string_view text) {
  const auto parsed = parse_date(text);
  REQUIRE(parsed);
  return *parsed;
}

}  // namespace

TEST_CASE("a date is read only as ISO 8601 writes it, and only if it exists") {
  for (const char* good : {"2000-01-01", "2024-02-29", "2000-02-29", "2027-12-31", "2199-12-31"}) {
    CAPTURE(good);
    CHECK(format_date(date(good)) == good);
  }
  for (const char* bad : {"", "2027", "2027-2-3", "2027-02-30", "2027-02-29", "2100-02-29",
                          "2027-00-10", "2027-13-01", "2027-01-00", "2027-01-32", "1999-12-31",
                          "2200-01-01", "2027/01/02", "2027-01-02 ", " 2027-01-02", "2027-01-0a",
                          "+027-01-02", "2027--1-02", "2027-01-02T00:00"}) {
    CAPTURE(bad);
    CHECK_FALSE(parse_date(bad));
  }
}

TEST_CASE("a clock time is two digits, a colon and two digits") {
  CHECK(parse_clock("00:00") == 0);
  CHECK(parse_clock("09:05") == 545);
  CHECK(parse_clock("23:59") == 1439);
  for (const char* bad :
       {"", "9:05", "24:00", "12:60", "12.30", "-1:30", "12:3", "12:300", "ab:cd"}) {
    CAPTURE(bad);
    CHECK_FALSE(parse_clock(bad));
  }
  for (std::int64_t minute = 0; minute < 1440; ++minute) {
    CHECK(parse_clock(format_clock(minute)) == minute);
  }
}

TEST_CASE("days are counted over month ends, leap days and years") {
  CHECK(format_date(add_days(date("2028-02-28"), 1)) == "2028-02-29");
  CHECK(format_date(add_days(date("2027-02-28"), 1)) == "2027-03-01");
  CHECK(format_date(add_days(date("2027-12-31"), 1)) == "2028-01-01");
  CHECK(format_date(add_days(date("2027-01-01"), -1)) == "2026-12-31");
  CHECK(days_between(date("2027-01-01"), date("2028-01-01")) == 365);
  CHECK(days_between(date("2028-01-01"), date("2029-01-01")) == 366);
  CHECK(days_between(date("2027-03-12"), date("2027-03-08")) == -4);
}

TEST_CASE("weeks begin on Monday") {
  CHECK(weekday_index(date("2000-01-01")) == 5);  // a Saturday
  CHECK(weekday_index(date("2027-03-08")) == 0);
  CHECK(weekday_index(date("2027-03-14")) == 6);
}

TEST_CASE("a moment is a local date and minute at the brief's offset") {
  CHECK(to_epoch_ms(date("2000-01-01"), 0, 0) == 946'684'800'000);  // POSIX seconds since the epoch
  // 19:30 on the 7th at UTC-5 is half past midnight on the 8th in UTC.
  CHECK(to_epoch_ms(date("2027-03-07"), 19 * 60 + 30, -300) ==
        to_epoch_ms(date("2027-03-08"), 30, 0));
  const std::int64_t last_ms = to_epoch_ms(date("2027-03-08"), 0, -300) - 1;
  CHECK(local_date(last_ms, -300) == date("2027-03-07"));
  CHECK(local_minutes(last_ms, -300) == 1439);
  for (const std::int64_t offset : {-720, -300, 0, 345, 840}) {
    const std::int64_t moment = to_epoch_ms(date("2027-03-08"), 605, offset);
    CHECK(local_date(moment, offset) == date("2027-03-08"));
    CHECK(local_minutes(moment, offset) == 605);
  }
}

TEST_CASE("moments before 1970 fall on their own day") {
  CHECK(format_date(local_date(-1, 0)) == "1969-12-31");
  CHECK(local_minutes(-1, 0) == 1439);
  CHECK(format_date(local_date(0, -1)) == "1969-12-31");
}
