// The rules of time are those of RFC 5545, section 3.3.5, with its own examples for New York.
#include "calendar/zone.h"

#include "tests/calendar/ics.h"

using namespace trowelbell;
using ics::date;

namespace {

School at_zone(const char* name, const char* from, const char* to) {
  School school;
  school.time_zone = name;
  REQUIRE(look_up_zone(school, {date(from), date(to)}));
  REQUIRE(school.utc_offset_minutes.has_value());
  return school;
}

}  // namespace

TEST_CASE("a time that is skipped has the offset before the change") {
  const School school = at_zone("America/New_York", "2007-01-01", "2007-12-31");
  // The standard's example: 2007-03-11 02:30 is 03:30 at UTC-4, 07:30Z.
  CHECK(utc_offset_at(school, date("2007-03-11"), 150) == -300);
  CHECK(clock_time(school, date("2007-03-11"), 150) == ClockTime::skipped);
  CHECK(clock_time(school, date("2007-03-11"), 119) == ClockTime::once);
  CHECK(clock_time(school, date("2007-03-11"), 120) == ClockTime::skipped);
  CHECK(clock_time(school, date("2007-03-11"), 179) == ClockTime::skipped);
  CHECK(clock_time(school, date("2007-03-11"), 180) == ClockTime::once);
  CHECK(utc_offset_at(school, date("2007-03-11"), 180) == -240);
}

TEST_CASE("of a time that comes twice the first is meant") {
  const School school = at_zone("America/New_York", "2007-01-01", "2007-12-31");
  // The standard's example: 2007-11-04 01:30 is at UTC-4.
  CHECK(utc_offset_at(school, date("2007-11-04"), 90) == -240);
  CHECK(clock_time(school, date("2007-11-04"), 90) == ClockTime::twice);
  CHECK(clock_time(school, date("2007-11-04"), 59) == ClockTime::once);
  CHECK(clock_time(school, date("2007-11-04"), 120) == ClockTime::once);
  CHECK(utc_offset_at(school, date("2007-11-04"), 120) == -300);
  CHECK(utc_offset_at(school, date("2007-11-03"), 1439) == -240);
}

TEST_CASE("the window's own first and last day are covered") {
  const School first = at_zone("America/Denver", "2027-03-14", "2027-03-14");
  CHECK(utc_offset_at(first, date("2027-03-14"), 0) == -420);
  CHECK(utc_offset_at(first, date("2027-03-14"), 540) == -360);
  const School none = at_zone("America/Phoenix", "2000-01-01", "2030-12-31");
  CHECK(none.offset_changes.empty());
  CHECK(none.utc_offset_minutes == -420);
}

TEST_CASE("an unknown zone changes nothing") {
  School school;
  school.offset_changes = {{date("2027-03-14"), -360, 0}};
  for (const char* name : {"America/Alderquill", "Denver", "zone.tab"}) {
    CAPTURE(name);
    school.time_zone = name;
    CHECK_FALSE(look_up_zone(school, {date("2027-01-01"), date("2027-12-31")}));
    CHECK_FALSE(school.utc_offset_minutes.has_value());
    CHECK(school.offset_changes.size() == 1);
  }
}
