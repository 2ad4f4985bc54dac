// Recurrence rules with the dates that RFC 5545 prints for them, section 3.8.5.3 ("Examples"), all
// at 9:00 in New York. Rules that repeat within a day are none of ours.
#include <doctest/doctest.h>

#include "calendar/school_calendar.h"
#include "tests/calendar/ics.h"

using namespace trowelbell;

namespace {

constexpr Date day(int year, unsigned month, unsigned number) {
  return Date{std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{number}};
}

struct Example {
  const char* start;  // DTSTART's date
  const char* lines;  // the rule, and what else the example has
  Date until;         // the last day that the standard prints, or long after the rule's end
  const char* days;   // "1997: 9/2 9/3; 1998: 1/5"
};

const Example kExamples[] = {
    {"19970902", "RRULE:FREQ=DAILY;COUNT=10", day(1998, 12, 31),
     "1997: 9/2 9/3 9/4 9/5 9/6 9/7 9/8 9/9 9/10 9/11"},
    {"19970902", "RRULE:FREQ=DAILY;INTERVAL=10;COUNT=5", day(1998, 12, 31),
     "1997: 9/2 9/12 9/22 10/2 10/12"},
    {"19970902", "RRULE:FREQ=WEEKLY;COUNT=10", day(1998, 12, 31),
     "1997: 9/2 9/9 9/16 9/23 9/30 10/7 10/14 10/21 10/28 11/4"},
    {"19970902", "RRULE:FREQ=WEEKLY;UNTIL=19971224T000000Z", day(1998, 12, 31),
     "1997: 9/2 9/9 9/16 9/23 9/30 10/7 10/14 10/21 10/28 11/4 11/11 11/18 11/25 12/2 12/9 12/16 "
     "12/23"},
    {"19970902", "RRULE:FREQ=WEEKLY;INTERVAL=2;WKST=SU", day(1998, 2, 3),
     "1997: 9/2 9/16 9/30 10/14 10/28 11/11 11/25 12/9 12/23; 1998: 1/6 1/20 2/3"},
    {"19970902", "RRULE:FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH", day(1998, 12, 31),
     "1997: 9/2 9/4 9/9 9/11 9/16 9/18 9/23 9/25 9/30 10/2"},
    {"19970901", "RRULE:FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR",
     day(1998, 12, 31),
     "1997: 9/1 9/3 9/5 9/15 9/17 9/19 9/29 10/1 10/3 10/13 10/15 10/17 10/27 10/29 10/31 11/10 "
     "11/12 11/14 11/24 11/26 11/28 12/8 12/10 12/12 12/22"},
    {"19970902", "RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH", day(1998, 12, 31),
     "1997: 9/2 9/4 9/16 9/18 9/30 10/2 10/14 10/16"},
    {"19970905", "RRULE:FREQ=MONTHLY;COUNT=10;BYDAY=1FR", day(1999, 12, 31),
     "1997: 9/5 10/3 11/7 12/5; 1998: 1/2 2/6 3/6 4/3 5/1 6/5"},
    {"19970905", "RRULE:FREQ=MONTHLY;UNTIL=19971224T000000Z;BYDAY=1FR", day(1999, 12, 31),
     "1997: 9/5 10/3 11/7 12/5"},
    {"19970907", "RRULE:FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU", day(1999, 12, 31),
     "1997: 9/7 9/28 11/2 11/30; 1998: 1/4 1/25 3/1 3/29 5/3 5/31"},
    {"19970922", "RRULE:FREQ=MONTHLY;COUNT=6;BYDAY=-2MO", day(1999, 12, 31),
     "1997: 9/22 10/20 11/17 12/22; 1998: 1/19 2/16"},
    {"19970928", "RRULE:FREQ=MONTHLY;BYMONTHDAY=-3", day(1998, 2, 26),
     "1997: 9/28 10/29 11/28 12/29; 1998: 1/29 2/26"},
    {"19970902", "RRULE:FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15", day(1999, 12, 31),
     "1997: 9/2 9/15 10/2 10/15 11/2 11/15 12/2 12/15; 1998: 1/2 1/15"},
    {"19970930", "RRULE:FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1", day(1999, 12, 31),
     "1997: 9/30 10/1 10/31 11/1 11/30 12/1 12/31; 1998: 1/1 1/31 2/1"},
    {"19970910", "RRULE:FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15",
     day(2001, 12, 31), "1997: 9/10 9/11 9/12 9/13 9/14 9/15; 1999: 3/10 3/11 3/12 3/13"},
    {"19970902", "RRULE:FREQ=MONTHLY;INTERVAL=2;BYDAY=TU", day(1998, 3, 31),
     "1997: 9/2 9/9 9/16 9/23 9/30 11/4 11/11 11/18 11/25; 1998: 1/6 1/13 1/20 1/27 3/3 3/10 3/17 "
     "3/24 3/31"},
    {"19970610", "RRULE:FREQ=YEARLY;COUNT=10;BYMONTH=6,7", day(2005, 12, 31),
     "1997: 6/10 7/10; 1998: 6/10 7/10; 1999: 6/10 7/10; 2000: 6/10 7/10; 2001: 6/10 7/10"},
    {"19970310", "RRULE:FREQ=YEARLY;INTERVAL=2;COUNT=10;BYMONTH=1,2,3", day(2009, 12, 31),
     "1997: 3/10; 1999: 1/10 2/10 3/10; 2001: 1/10 2/10 3/10; 2003: 1/10 2/10 3/10"},
    {"19970101", "RRULE:FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200", day(2012, 12, 31),
     "1997: 1/1 4/10 7/19; 2000: 1/1 4/9 7/18; 2003: 1/1 4/10 7/19; 2006: 1/1"},
    {"19970519", "RRULE:FREQ=YEARLY;BYDAY=20MO", day(1999, 12, 31),
     "1997: 5/19; 1998: 5/18; 1999: 5/17"},
    {"19970512", "RRULE:FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO", day(1999, 12, 31),
     "1997: 5/12; 1998: 5/11; 1999: 5/17"},
    {"19970313", "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=TH", day(1999, 12, 31),
     "1997: 3/13 3/20 3/27; 1998: 3/5 3/12 3/19 3/26; 1999: 3/4 3/11 3/18 3/25"},
    {"19970605", "RRULE:FREQ=YEARLY;BYDAY=TH;BYMONTH=6,7,8", day(1998, 12, 31),
     "1997: 6/5 6/12 6/19 6/26 7/3 7/10 7/17 7/24 7/31 8/7 8/14 8/21 8/28; 1998: 6/4 6/11 6/18 "
     "6/25 7/2 7/9 7/16 7/23 7/30 8/6 8/13 8/20 8/27"},
    {"19970902",
     "EXDATE;TZID=America/New_York:19970902T090000\r\nRRULE:FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13",
     day(2000, 12, 31), "1998: 2/13 3/13 11/13; 1999: 8/13; 2000: 10/13"},
    {"19970913", "RRULE:FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13", day(1998, 6, 30),
     "1997: 9/13 10/11 11/8 12/13; 1998: 1/10 2/7 3/7 4/11 5/9 6/13"},
    {"19961105", "RRULE:FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8",
     day(2004, 12, 31), "1996: 11/5; 2000: 11/7; 2004: 11/2"},
    {"19970904", "RRULE:FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3", day(1999, 12, 31),
     "1997: 9/4 10/7 11/6"},
    {"19970929", "RRULE:FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2", day(1998, 3, 31),
     "1997: 9/29 10/30 11/27 12/30; 1998: 1/29 2/26 3/30"},
    {"19970805", "RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", day(1998, 12, 31),
     "1997: 8/5 8/10 8/19 8/24"},
    {"19970805", "RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", day(1998, 12, 31),
     "1997: 8/5 8/17 8/19 8/31"},
    {"20070115", "RRULE:FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5", day(2008, 12, 31),
     "2007: 1/15 1/30 2/15 3/15 3/30"},
};

// As in the examples: the year where it begins, then month/day.
std::string printed(const std::vector<DateRange>& days) {
  std::string text;
  int year = 0;
  for (const DateRange& each : days) {
    if (static_cast<int>(each.from.year()) != year) {
      year = static_cast<int>(each.from.year());
      text += (text.empty() ? "" : "; ") + std::to_string(year) + ":";
    }
    text += " " + std::to_string(static_cast<unsigned>(each.from.month())) + "/" +
            std::to_string(static_cast<unsigned>(each.from.day()));
    CHECK(each.to == each.from);
  }
  return text;
}

}  // namespace

TEST_CASE("the standard's own examples of recurrence rules") {
  for (const Example& example : kExamples) {
    CAPTURE(example.lines);
    const std::string text =
        ics::calendar({"DTSTART;TZID=America/New_York:" + std::string(example.start) + "T090000\n" +
                       "DURATION:PT1H\n" + example.lines + "\nSUMMARY:No school"});
    const DateRange window{day(1996, 1, 1), example.until};
    const CalendarReading reading = ics::read(text, window);
    REQUIRE(reading.events.size() == 1);
    CHECK(printed(reading.events[0].days) == example.days);
  }
}
