// What many visits add up to, in whole numbers: every group's totals add up to the whole's, and the
// whole's to the reports'.
#pragma once

#include <array>
#include <map>
#include <span>

#include "report.h"

namespace trowelbell {

// What a teacher told of one visit, weeks later.
struct SproutCount {
  std::int64_t sprouted = 0;
  std::int64_t children = 0;  // of whom the teacher told
};
using SproutCounts = std::map<std::string, SproutCount, std::less<>>;  // by visit id

struct Totals {
  std::int64_t visits = 0;
  std::int64_t ended = 0;    // visits whose end was tapped
  std::int64_t by_bell = 0;  // of those, not after the bell
  HeadCount children;
  KitPiles kits;
  std::int64_t adult_minutes = 0;
  std::int64_t value_cents = 0;  // of the adults' time; 0 without a rate
  std::map<std::string, std::int64_t> mishaps;
  // Visits in which a step was left out, by lesson and step.
  std::map<std::pair<std::string, std::string>, std::int64_t> left_out;
  std::int64_t told = 0;  // visits of which a teacher told the sprouts
  SproutCount sprouts;

  Totals& operator+=(const Totals& more);
};

// A rate as it is written, "31.80" or "31", in cents: 1 to 999,999; or nothing.
std::optional<std::int64_t> parse_cents(std::string_view text);
// Minutes at cents an hour, half a cent rounded up.
std::int64_t value_cents(std::int64_t minutes, std::int64_t cents_per_hour);

// One report. The value is rounded to the cent here, so that sums of visits need no rounding.
Totals totals_of(const ReportFacts& report, std::int64_t cents_per_hour,
                 const SproutCounts& sprouts);

enum class Grouping { sponsor, school, month };
// The sponsor's or the school's name, or the month as "2027-03".
std::string group_name(const ReportFacts& report, Grouping grouping);

struct RollUp {
  Totals all;
  std::array<std::map<std::string, Totals>, 3> groups;  // by name; indexed by Grouping
};
// One report a visit: see count_reports().
RollUp roll_up(std::span<const ReportFacts> reports, std::int64_t cents_per_hour,
               const SproutCounts& sprouts);

}  // namespace trowelbell
