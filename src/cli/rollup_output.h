// A roll-up as text for people, as JSON and as a table for spreadsheets.
#pragma once

#include <iosfwd>

#include "cli/report_files.h"
#include "core/rollup.h"
#include "core/visit_reports.h"

namespace trowelbell {

struct RollUpResult {
  ReportFiles files;
  CountedReports reports;  // indices into files.reports
  RollUp totals;
  std::vector<Grouping> by;                 // the groups asked for
  std::int64_t cents_per_hour = 0;          // 0: no rate was stated
  std::string rate_source;                  // who says so, with the year
  bool sprouts = false;                     // teachers told of some
  std::int64_t bad_sprouts = 0;             // lines of theirs that could not be read
  std::vector<std::string> unknown_visits;  // told of, but without a report
};

std::string_view grouping_name(Grouping grouping);  // "sponsor"

void write_rollup_words(std::ostream& out, const RollUpResult& result);
void write_rollup_json(std::ostream& out, const RollUpResult& result);
// RFC 4180: the whole, then a row for each group; kinds of mishaps and steps have columns of their
// own.
void write_rollup_csv(std::ostream& out, const RollUpResult& result);

}  // namespace trowelbell
