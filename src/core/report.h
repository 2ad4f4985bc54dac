// The visit report: a pure function of brief, lesson and journal. Format "trowelbell.report".
// Counts only, no names.
#pragma once

#include "visit_state.h"

namespace trowelbell {

inline constexpr JsonLimits kReportLimits{64 * 1024, 8};

// The report of everything in `events` (already in order), made by `device` as `revision`. `times`:
// step_times() for the class and team of the brief, whose plan is reported beside the time taken; a
// step beyond its end reports 0. Its bytes are dump_json of the result; integers only, so they are
// the same everywhere. It always fits kReportLimits and read_report takes it, given a brief and a
// lesson that were read without a problem.
//
// What still runs (the step, a hold, a page) counts up to the last event. Seconds and minutes are
// rounded, half up, and at most a day. `adult_minutes` is the last known team x minutes from start
// to finish; without a finish, to the bell or the last event, whichever is earlier (a lead who
// forgot the finish did not stay till evening). A step was "done" if it was entered; else
// "left_out" if the lead dropped it or a later step was entered; else "not_reached". Holds beyond
// kMostHolds are added to the last one reported.
Json make_report(const Brief& brief, const Lesson& lesson, std::span<const StepSeconds> times,
                 std::span<const Event> events, std::string_view device, std::int64_t revision);

inline constexpr std::size_t kMostHolds = 100;

// As the report has them: every field, and for kits what is unaccounted.
Json children_json(const HeadCount& count);
Json kits_json(const KitPiles& kits);

enum class Outcome { done, left_out, not_reached };

struct StepFacts {
  std::string id;
  std::int64_t planned_seconds = 0, actual_seconds = 0;
  Outcome outcome = Outcome::not_reached;
};

// What the collector, the roll-up and learning from past visits read of a report.
struct ReportFacts {
  std::string visit, device, lesson, school, room, sponsor;
  std::int64_t revision = 0;
  Date date{};
  std::int64_t began_at = 0, ended_at = 0, bell_at = 0;
  std::vector<StepFacts> steps;
  HeadCount children;
  std::int64_t adults = 0, adult_minutes = 0;
  KitPiles kits;
  std::map<std::string, std::int64_t> lacking;  // kit item: pieces short at the packing table
  std::map<std::string, std::int64_t> mishaps;
  std::string taken_by, note;
  std::int64_t events = 0;  // of the journal it was made of
};
// Every field of the format is checked, its bounds, and that children and kits add up; the facts
// count only if no problem was added.
ReportFacts read_report(const Json& document, Problems& problems);

}  // namespace trowelbell
