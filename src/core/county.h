// The coordinator's own file: sponsors, schools and the season's visits; briefs are made from it.
// Format "trowelbell.county".
#pragma once

#include "brief.h"

namespace trowelbell {

struct Sponsor {
  std::string id;
  std::string name;
};

// Where clocks change with the season: from this day and minute on the school's clock has this
// offset.
struct OffsetChange {
  Date from{};
  std::int64_t utc_offset_minutes = 0;
  // After midnight, by the later of the two clocks: what is not there yet, or there a second time,
  // comes before it. 0, midnight, in a county file.
  std::int64_t from_minutes = 0;
};

// A district's own calendar: an iCalendar file beside the county file, and the words by which its
// events tell that a school is closed or ends early.
struct CalendarFile {
  std::string file;  // a plain name, no folders
  std::vector<std::string> closed_words;
  std::vector<std::string> half_day_words;
};

// A time zone and a calendar file are names of things that core cannot read. src/calendar looks
// them up and puts what it finds into the fields below; until then there is no brief.
struct School {
  std::string id;
  std::string name;
  std::string time_zone;                           // "America/Denver", or "": the offsets are given
  std::optional<std::int64_t> utc_offset_minutes;  // before the first change; none: not looked up
  std::vector<OffsetChange> offset_changes;  // JSON "utc_offset_changes", 0..40 by rising date
  std::optional<CalendarFile> calendar;      // none: there is none, or its days are in `closed`
  RoomWarmth warmth;
  std::vector<DateRange> closed;
  std::vector<Date> half_days;
  std::vector<std::string> school_asks;
  std::string sheet_language = "en";
};

struct PlannedVisit {
  std::string id;
  std::string school;  // id
  std::string room;
  std::string sponsor;  // id, or "" for none
  std::string lesson;   // id
  std::int64_t children = 0, adults = 0, tables = 1, kits = 0;
  Date date{};
  std::int64_t start_minutes = 0;
  std::int64_t bell_minutes = 0;
};

struct County {
  std::string name;
  std::vector<Sponsor> sponsors;     // 0..100
  std::vector<School> schools;       // 1..500
  std::vector<PlannedVisit> visits;  // 0..5000, each of a school and a sponsor that are here
};

inline constexpr JsonLimits kCountyLimits{4 * 1024 * 1024, 8};

County read_county(const Json& document, Problems& problems);
const PlannedVisit* find_visit(const County& county, std::string_view id);
const School* find_school(const County& county, std::string_view id);

// A brief carries the days without school from this long before its visit to this long after.
inline constexpr std::int64_t kCalendarDaysBefore = 14;
inline constexpr std::int64_t kCalendarDaysAfter = 120;

// The offset from UTC, in minutes, when the school's clock shows this. A time that is skipped has
// the offset before the change, one that comes twice is the first of the two (RFC 5545, 3.3.5).
std::int64_t utc_offset_at(const School& school, Date date, std::int64_t minutes);
enum class ClockTime { once, skipped, twice };
ClockTime clock_time(const School& school, Date date, std::int64_t minutes);

// The brief of one planned visit. With `date` or `start` (minutes after midnight) it is moved
// there; the bell keeps the length of the slot. Nothing, and a problem, for an unknown visit, a
// slot that would run past midnight, or a school whose calendar or zone is not looked up.
std::optional<Brief> make_brief(const County& county, std::string_view visit,
                                std::optional<Date> date, std::optional<std::int64_t> start,
                                std::string_view key, Problems& problems);

}  // namespace trowelbell
