// The sheet the teacher keeps: what to do on which school day. Dates only; words come from content/lang.
#pragma once

#include <span>

#include "sprouting.h"

namespace trowelbell {

enum class SheetTask { damp_check, expect_root, expect_leaves, transplant, last_day };
enum class SheetWarning { too_cold, too_warm, sprouts_in_break, no_school_day };

struct SheetLine {
  SheetTask task = SheetTask::damp_check;
  std::string species;  // "" where it concerns all
  Date from{};
  Date to{};            // same as `from` for a single day
};

struct Sheet {
  std::vector<SheetLine> lines;  // by date
  std::vector<SheetWarning> warnings;
  std::vector<SproutForecast> forecasts;
};

// Damp checks every second school day until transplanting; the transplant window is on school days, from the later of
// the leaves' middle date and day 7 to day 21, potted by day 14 after the first root where school days allow.
Sheet make_sheet(const Brief& brief, std::span<const Species> species);

}  // namespace trowelbell
