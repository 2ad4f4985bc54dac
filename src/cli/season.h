// The visits that supplies are counted for: from briefs, a county file or a spreadsheet.
#pragma once

#include "cli/program.h"
#include "core/content.h"
#include "core/supply_plan.h"

namespace trowelbell {

struct SeasonOptions {
  std::vector<std::string> briefs;
  std::string county;
  std::string season;  // a spreadsheet
  std::string from;    // a date, or "": visits before it are left out
  std::string stock;   // a spreadsheet of what is on the shelf, or ""
  std::optional<std::int64_t> spares;
};

struct SeasonVisit {
  std::string id;
  std::string lesson;
  std::int64_t start_minutes = 0;  // 0 where it is not known
  SupplyVisit supply;
};

// All visits of the files, by date and hour. Nothing, and the reasons on `streams.err`, where a
// file cannot be read, a visit is there twice, or its lesson is not in the content: an order that
// forgets a visit is worse than none.
std::optional<std::vector<SeasonVisit>> read_season(const SeasonOptions& options,
                                                    std::optional<Date> from,
                                                    const Content& content, const Streams& streams);

// What is on the shelf, by index in lesson.kit. Columns: id, pieces, and parts for what is cut.
std::optional<std::vector<Shelf>> read_stock(const std::string& name, const Lesson& lesson,
                                             const Streams& streams);

}  // namespace trowelbell
