// The visit report: a pure function of brief, lesson and journal. Format "trowelbell.report". Counts only, no names.
#pragma once

#include "visit_state.h"

namespace trowelbell {

inline constexpr JsonLimits kReportLimits{64 * 1024, 8};

// The report of everything in `events` (already in order), made by `device` as `revision`.
// Its bytes are dump_json of the result; integers only, so they are the same everywhere.
Json make_report(const Brief& brief, const Lesson& lesson, std::span<const Event> events, std::string_view device,
                 std::int64_t revision);

// What the collector and the roll-up read of a report; every bound is checked.
struct ReportFacts {
  std::string visit, device, lesson, school, room, sponsor;
  std::int64_t revision = 0;
  Date date{};
  std::int64_t began_at = 0, ended_at = 0, bell_at = 0;
  HeadCount children;
  std::int64_t adults = 0, adult_minutes = 0;
  KitPiles kits;
  std::map<std::string, std::int64_t> mishaps;
  std::string taken_by, note;
};
ReportFacts read_report(const Json& document, Problems& problems);

}  // namespace trowelbell
