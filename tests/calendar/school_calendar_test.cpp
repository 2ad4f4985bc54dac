// What RFC 5545 says of events, and what districts write in them (common practice).
#include "calendar/school_calendar.h"

#include "tests/calendar/ics.h"

using namespace trowelbell;
using namespace trowelbell::ics;

namespace {

DayKind kind(const std::string& lines) {
  const CalendarReading reading =
      read(calendar({"DTSTART;VALUE=DATE:20270105\n" + lines}), kSchoolYear);
  REQUIRE(reading.events.size() == 1);
  return reading.events[0].kind;
}

std::string refused(const std::string& text) {
  Problems problems;
  CHECK_FALSE(read_school_calendar(text, school(), kSchoolYear, problems).has_value());
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].path.empty());
  return problems[0].what;
}

bool has(const std::string& text, const char* part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("whole words in the summary or the categories decide, whatever their case") {
  CHECK(kind("SUMMARY:No School") == DayKind::closed);
  CHECK(kind("SUMMARY:WINTER BREAK (all schools)") == DayKind::closed);
  CHECK(kind("SUMMARY:Staff day\nCATEGORIES:Meetings,NO SCHOOL") == DayKind::closed);
  CHECK(kind("SUMMARY:Early release, 12:10") == DayKind::half_day);
  CHECK(kind("SUMMARY:MEDIO DÍA") == DayKind::half_day);
  CHECK(kind("SUMMARY:Early release before winter break") == DayKind::half_day);
  CHECK(kind("SUMMARY:Breakfast with books") == DayKind::other);
  CHECK(kind("SUMMARY:Daybreak walk") == DayKind::other);
  CHECK(kind("SUMMARY:Picture day\nDESCRIPTION:There is no school lunch") == DayKind::other);
  CHECK(kind("CATEGORIES:Sports") == DayKind::other);
  CHECK(kind("SUMMARY:Sin clases") == DayKind::other);  // not among this school's words
}

TEST_CASE("the acceptance sample: one all-day event, DTEND exclusive, escaped text") {
  const std::string sample =
      "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//example//visit facilitator//EN\r\n"
      "NAME:Seedling care\r\nCOLOR:green\r\nBEGIN:VEVENT\r\n"
      "UID:5fc53010-1267-4f8e-bc28-1d7ae55a7c99\r\nDTSTAMP:20270301T150000Z\r\n"
      "DTSTART;VALUE=DATE:20270312\r\nDTEND;VALUE=DATE:20270313\r\n"
      "SUMMARY:Move bean bags to cups\\; water\\, set in light\r\nTRANSP:TRANSPARENT\r\n"
      "END:VEVENT\r\nEND:VCALENDAR\r\n";
  const CalendarReading reading = read(sample, kSchoolYear);
  REQUIRE(reading.events.size() == 1);
  CHECK(reading.events[0].summary == "Move bean bags to cups; water, set in light");
  CHECK(days_text(reading.events[0].days) == "2027-03-12");
  CHECK(reading.events[0].kind == DayKind::other);
}

TEST_CASE("all-day events: no end is one day, an end is exclusive, a duration counts (3.6.1)") {
  CHECK(days_of("DTSTART;VALUE=DATE:20270105") == "2027-01-05");
  CHECK(days_of("DTSTART;VALUE=DATE:20270105\nDTEND;VALUE=DATE:20270106") == "2027-01-05");
  CHECK(days_of("DTSTART;VALUE=DATE:20270105\nDTEND;VALUE=DATE:20270109") ==
        "2027-01-05/2027-01-08");
  CHECK(days_of("DTSTART;VALUE=DATE:20270105\nDURATION:P2D") == "2027-01-05/2027-01-06");
  CHECK(days_of("DTSTART;VALUE=DATE:20270227\nDTEND;VALUE=DATE:20270302") ==
        "2027-02-27/2027-03-01");
  // An end before the start is no reason to lose the day.
  CHECK(days_of("DTSTART;VALUE=DATE:20270105\nDTEND;VALUE=DATE:20270104") == "2027-01-05");
}

TEST_CASE("times count on the days that they touch, midnight belonging to the day before it") {
  CHECK(days_of("DTSTART:20270105T080000\nDTEND:20270105T150000") == "2027-01-05");
  CHECK(days_of("DTSTART:20270105T000000\nDTEND:20270106T000000") == "2027-01-05");
  CHECK(days_of("DTSTART:20270105T220000\nDTEND:20270106T000001") == "2027-01-05/2027-01-06");
  CHECK(days_of("DTSTART:20270105T080000") == "2027-01-05");
  // A zone the file does not describe: as written.
  CHECK(days_of("DTSTART;TZID=Some/Where:20270105T233000\nDTEND;TZID=Some/Where:20270105T235900") ==
        "2027-01-05");
  // 25 hours, from midnight to midnight by the wall: clocks go back on 2026-11-01.
  CHECK(days_of("DTSTART;TZID=America/Denver:20261101T000000\n"
                "DTEND;TZID=America/Denver:20261102T000000") == "2026-11-01");
}

TEST_CASE("a time in UTC is put on the school's clock") {
  // Five hours behind: 02:00Z is 21:00 the day before.
  CHECK(days_of("DTSTART:20270105T020000Z\nDTEND:20270105T043000Z") == "2027-01-04");
  CHECK(days_of("DTSTART:20270105T050000Z\nDTEND:20270106T050000Z") == "2027-01-05");
  School east = school();
  east.utc_offset_minutes = 600;
  CHECK(days_of("DTSTART:20270105T140000Z\nDTEND:20270105T150000Z", east) == "2027-01-06");
}

TEST_CASE("repeated events keep their wall-clock day when clocks change") {
  // Late on Monday evenings, over the second Sunday of March.
  CHECK(days_of("DTSTART;TZID=America/Denver:20270301T233000\n"
                "DTEND;TZID=America/Denver:20270301T235900\nRRULE:FREQ=WEEKLY;COUNT=4") ==
        "2027-03-01 2027-03-08 2027-03-15 2027-03-22");
}

TEST_CASE("added and excepted days (3.8.5.1, 3.8.5.2)") {
  CHECK(days_of("DTSTART;VALUE=DATE:20270101\nRDATE;VALUE=DATE:20270107,20270105") ==
        "2027-01-01 2027-01-05 2027-01-07");
  CHECK(days_of("DTSTART;VALUE=DATE:20270106\nRRULE:FREQ=WEEKLY;COUNT=4\n"
                "EXDATE;VALUE=DATE:20270113,20270127") == "2027-01-06 2027-01-20");
  CHECK(days_of("DTSTART;TZID=America/Denver:20270106T133000\nRRULE:FREQ=WEEKLY;COUNT=3\n"
                "EXDATE;TZID=America/Denver:20270113T133000") == "2027-01-06 2027-01-20");
  // The same moment in UTC: 13:30 there is 20:30Z.
  CHECK(days_of("DTSTART;TZID=America/Denver:20270106T133000\nRRULE:FREQ=WEEKLY;COUNT=3\n"
                "EXDATE:20270113T203000Z") == "2027-01-06 2027-01-20");
  CHECK(days_of("DTSTART;VALUE=DATE:20270106\nRRULE:FREQ=WEEKLY;COUNT=2\n"
                "RDATE;VALUE=DATE:20270113") ==
        "2027-01-06 2027-01-13");  // once, though named twice
}

TEST_CASE("a moved or cancelled day stands in for the one it names (3.8.4.4, 3.8.1.11)") {
  const std::string series =
      "UID:weekly\nDTSTART;VALUE=DATE:20270106\nRRULE:FREQ=WEEKLY;COUNT=4\nSUMMARY:Early release";
  const std::string moved =
      "UID:weekly\nRECURRENCE-ID;VALUE=DATE:20270113\nDTSTART;VALUE=DATE:20270114\n"
      "SUMMARY:Early release";
  const std::string cancelled =
      "UID:weekly\nRECURRENCE-ID;VALUE=DATE:20270120\nDTSTART;VALUE=DATE:20270120\n"
      "STATUS:CANCELLED\nSUMMARY:Early release";
  // Also where the change comes before the series in the file.
  const CalendarReading reading = read(calendar({moved, series, cancelled}), kSchoolYear);
  REQUIRE(reading.events.size() == 2);
  CHECK(days_text(reading.events[0].days) == "2027-01-14");
  CHECK(days_text(reading.events[1].days) == "2027-01-06 2027-01-27");
  CHECK(days_of("DTSTART;VALUE=DATE:20270105\nSTATUS:CANCELLED").empty());
  CHECK(days_of("DTSTART;VALUE=DATE:20270105\nSTATUS:CONFIRMED") == "2027-01-05");
}

TEST_CASE("only days within the window, cut at its ends") {
  CHECK(days_of("DTSTART;VALUE=DATE:20260731").empty());
  CHECK(days_of("DTSTART;VALUE=DATE:20260715\nDTEND;VALUE=DATE:20260804") ==
        "2026-08-01/2026-08-03");
  CHECK(days_of("DTSTART;VALUE=DATE:20270731\nRRULE:FREQ=DAILY") == "2027-07-31");
  CHECK(days_of("DTSTART;VALUE=DATE:20200101\nRRULE:FREQ=YEARLY;BYMONTH=1;BYDAY=3MO") ==
        "2027-01-18");
}

TEST_CASE("what is no school day's rule is counted, not guessed at") {
  for (const char* event : {"SUMMARY:No school", "DTSTART:soon\nSUMMARY:No school",
                            "DTSTART:20270105T080000\nRRULE:FREQ=HOURLY",
                            "DTSTART:20270105T080000\nRRULE:FREQ=DAILY;BYHOUR=8,9",
                            "DTSTART;VALUE=DATE:20270105\nRRULE:FREQ=DAILY\nEXRULE:FREQ=WEEKLY"}) {
    CAPTURE(event);
    const CalendarReading reading = read(calendar({event}), kSchoolYear);
    CHECK(reading.events.empty());
    CHECK(reading.not_understood == 1);
  }
}

TEST_CASE("several calendars in one file, folded lines, and zones described in it") {
  const std::string zone =
      "BEGIN:VTIMEZONE\r\nTZID:X\r\nBEGIN:STANDARD\r\nDTSTART:19700101T000000\r\n"
      "TZOFFSETFROM:-0600\r\nTZOFFSETTO:-0700\r\nRRULE:FREQ=SECONDLY\r\nEND:STANDARD\r\n"
      "END:VTIMEZONE\r\nEND:VCALENDAR\r\n";
  std::string first =
      calendar({"DTSTART;TZID=X:20270105T080000\nEXDATE:20270105T070000Z\nSUMMARY:No sch\n ool"});
  first.replace(first.rfind("END:VCALENDAR"), std::string::npos, zone);
  const CalendarReading reading =
      read(first + calendar({"DTSTART;VALUE=DATE:20270106\nSUMMARY:Break"}), kSchoolYear);
  REQUIRE(reading.events.size() == 2);
  CHECK(reading.events[0].summary == "No school");
  CHECK(days_text(reading.events[0].days) == "2027-01-05");
  CHECK(days_text(reading.events[1].days) == "2027-01-06");
}

TEST_CASE("a long summary is cut between characters") {
  std::string summary(119, 'x');
  summary += "ñññ";
  const CalendarReading reading =
      read(calendar({"DTSTART;VALUE=DATE:20270105\nSUMMARY:" + summary}), kSchoolYear);
  CHECK(reading.events.at(0).summary == std::string(119, 'x'));
}

TEST_CASE("no calendar, and too much of one, are refused with a reason") {
  CHECK(has(refused(""), "BEGIN:VCALENDAR"));
  CHECK(has(refused("{\"format\": \"trowelbell.county\"}"), "BEGIN:VCALENDAR"));
  CHECK(has(refused("BEGIN:VCARD\r\nVERSION:4.0\r\nFN:A\r\nEND:VCARD\r\n"), "BEGIN:VCALENDAR"));
  CHECK(has(refused(std::string(kCalendarBytes + 1, 'x')), "1048576 bytes"));
  const std::string daily = "DTSTART;VALUE=DATE:20260801\nRRULE:FREQ=DAILY";
  CHECK(has(refused(calendar(std::vector<std::string>(60, daily))), "20000 days"));
  const std::string once = "DTSTART;VALUE=DATE:20200101";
  CHECK(read(calendar(std::vector<std::string>(kMostCalendarEvents, once)), kSchoolYear)
            .events.empty());
  CHECK(has(refused(calendar(std::vector<std::string>(kMostCalendarEvents + 1, once))),
            "3000 events"));
  const std::string yearly = "DTSTART;VALUE=DATE:20260901\nRRULE:FREQ=YEARLY";
  CHECK(has(refused(calendar(std::vector<std::string>(kMostRepeatedEvents + 1, yearly))),
            "500 of them repeated"));
}

TEST_CASE("rules that never come true do not hold the reader up for long") {
  const std::string never = "DTSTART;VALUE=DATE:20000101\nRRULE:FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30";
  CHECK(days_of(never).empty());
  CHECK(has(refused(calendar(std::vector<std::string>(kMostRepeatedEvents, never))), "3 seconds"));
}

TEST_CASE("days taken over join those that the county lists") {
  School at = school();
  at.closed = {{date("2027-03-29"), date("2027-03-31")}, {date("2026-12-21"), date("2026-12-31")}};
  at.half_days = {date("2027-03-12")};
  const auto range = [](const char* from, const char* to) {
    return DateRange{date(from), date(to)};
  };
  take_calendar_days(at, {{"a", DayKind::closed, {range("2027-04-01", "2027-04-02")}},
                          {"b", DayKind::closed, {range("2026-12-25", "2026-12-26")}},
                          {"c", DayKind::closed, {range("2027-01-18", "2027-01-18")}},
                          // A Friday to a Monday.
                          {"d", DayKind::half_day, {range("2027-03-12", "2027-03-15")}},
                          {"e", DayKind::other, {range("2027-02-01", "2027-02-02")}}});
  CHECK(days_text(at.closed) == "2026-12-21/2026-12-31 2027-01-18 2027-03-29/2027-04-02");
  REQUIRE(at.half_days.size() == 2);
  CHECK(format_date(at.half_days[0]) == "2027-03-12");
  CHECK(format_date(at.half_days[1]) == "2027-03-15");
  CHECK_FALSE(at.calendar.has_value());
}
