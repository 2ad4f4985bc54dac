// The sheet the teacher keeps: what to do on which school day. Dates only; words come from
// content/lang.
#pragma once

#include "sprouting.h"

namespace trowelbell {

enum class SheetTask { damp_check, expect_root, expect_leaves, transplant, last_day };
enum class SheetWarning {
  too_cold,          // no dates, or leaves only after the last good day for potting
  too_warm,          // no dates
  few_sprouts,       // the published share at this warmth is below the legal minimum
  sprouts_in_break,  // from first root to leaves there is a break of more than a long weekend:
                     // from, to
  no_school_day,     // no school day when something is due; concerns all
};

struct SheetLine {
  SheetTask task = SheetTask::damp_check;
  std::string species;  // "" where it concerns all
  Date from{};
  Date to{};  // same as `from` for a single day
  bool operator==(const SheetLine&) const = default;
};

struct SheetAlert {
  SheetWarning warning = SheetWarning::too_cold;
  std::string species;  // "" where it concerns all
  Date from{};          // of the break; otherwise the visit's date
  Date to{};
  bool operator==(const SheetAlert&) const = default;
};

struct Sheet {
  std::vector<SheetLine> lines;  // by date, every date a school day
  std::vector<SheetAlert> warnings;
  std::vector<SproutForecast> forecasts;
};

// Damp checks: the next school day after the visit, then never more than two days apart where there
// is school, so always before and after a weekend; until potting (day 14 where no date is known).
// Potting (`transplant`) is for all species at once, as they share a bag: on school days from the
// latest leaves' middle date, not before day 7, to day 21 or day 14 after the earliest root's
// middle date, whichever comes first. Where that leaves no school day, the first one after, with a
// warning that says why. `last_day` repeats the end of that window.
Sheet make_sheet(const Brief& brief, std::span<const Species> species);

}  // namespace trowelbell
