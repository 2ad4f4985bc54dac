#include "core/school_days.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

Date date(std::string_view text) {
  return parse_date(text).value_or(Date{});
}

// Closed Monday 15 to Friday 19 March 2027; Wednesday 10 and the closed Tuesday 16 are listed as
// half days.
Brief with_break() {
  Brief brief;
  brief.closed = {{date("2027-03-15"), date("2027-03-19")}};
  brief.half_days = {date("2027-03-10"), date("2027-03-16")};
  return brief;
}

}  // namespace

TEST_CASE("school is on weekdays outside the closed days, first and last day included") {
  const Brief brief = with_break();
  for (const char* open : {"2027-03-08", "2027-03-10", "2027-03-12", "2027-03-22"}) {
    CAPTURE(open);
    CHECK(is_school_day(brief, date(open)));
  }
  for (const char* shut : {"2027-03-13", "2027-03-14", "2027-03-15", "2027-03-17", "2027-03-19",
                           "2027-03-20", "2027-03-21"}) {
    CAPTURE(shut);
    CHECK_FALSE(is_school_day(brief, date(shut)));
  }
}

TEST_CASE("a half day is a listed day that has school at all") {
  const Brief brief = with_break();
  CHECK(is_half_day(brief, date("2027-03-10")));
  CHECK_FALSE(is_half_day(brief, date("2027-03-11")));
  CHECK_FALSE(is_half_day(brief, date("2027-03-16")));
}

TEST_CASE("the nearest school day is the day itself, or lies beyond the break") {
  const Brief brief = with_break();
  CHECK(school_day_from(brief, date("2027-03-12")) == date("2027-03-12"));
  CHECK(school_day_from(brief, date("2027-03-13")) == date("2027-03-22"));
  CHECK(school_day_until(brief, date("2027-03-21")) == date("2027-03-12"));
  CHECK(school_day_until(brief, date("2027-03-22")) == date("2027-03-22"));
}

TEST_CASE("a calendar without school is given up after 120 days") {
  Brief brief;
  brief.closed = {{date("2027-06-01"), date("2027-09-29")}};
  // 121 days: from 1 June to 29 September.
  CHECK_FALSE(school_day_from(brief, date("2027-06-01")));
  CHECK(school_day_from(brief, date("2027-06-02")) == date("2027-09-30"));
  CHECK_FALSE(school_day_until(brief, date("2027-09-29")));
  CHECK(school_day_until(brief, date("2027-09-28")) == date("2027-05-31"));
}

TEST_CASE("overlapping and reversed closed ranges do no harm") {
  Brief brief;
  brief.closed = {{date("2027-03-09"), date("2027-03-11")},
                  {date("2027-03-10"), date("2027-03-12")},
                  {date("2027-03-31"), date("2027-03-01")}};
  CHECK(is_school_day(brief, date("2027-03-08")));
  CHECK(school_day_from(brief, date("2027-03-09")) == date("2027-03-15"));
}
