// The coordinator's own file: sponsors, schools and the season's visits; briefs are made from it.
// Format "trowelbell.county".
#pragma once

#include "brief.h"

namespace trowelbell {

struct Sponsor {
  std::string id;
  std::string name;
};

// Where clocks change with the season: from this day on the school's clock has this offset.
struct OffsetChange {
  Date from{};
  std::int64_t utc_offset_minutes = 0;
};

struct School {
  std::string id;
  std::string name;
  std::int64_t utc_offset_minutes = 0;       // before the first change
  std::vector<OffsetChange> offset_changes;  // JSON "utc_offset_changes", 0..40 by rising date
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

// The brief of one planned visit. With `date` or `start` (minutes after midnight) it is moved
// there; the bell keeps the length of the slot. Nothing, and a problem, for an unknown visit or a
// slot that would run past midnight.
std::optional<Brief> make_brief(const County& county, std::string_view visit,
                                std::optional<Date> date, std::optional<std::int64_t> start,
                                std::string_view key, Problems& problems);

}  // namespace trowelbell
