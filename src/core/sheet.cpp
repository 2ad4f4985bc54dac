#include "sheet.h"

#include <algorithm>

#include "school_days.h"

namespace trowelbell {
namespace {

constexpr std::int64_t kFirstPottingDay = 7;
constexpr std::int64_t kLastPottingDay = 21;
// Nothing feeds a seed in its bag but its own store.
constexpr std::int64_t kDaysAfterRoot = 14;
constexpr std::int64_t kDaysBetweenChecks = 2;
constexpr std::int64_t kChecksWithoutDates = 14;
constexpr std::int64_t kLongWeekend = 3;  // days without school that damp cotton lasts

struct SheetMaker {
  const Brief& brief;
  Sheet sheet;

  void warn(const SheetAlert& alert) {
    const auto& told = sheet.warnings;
    if (std::find(told.begin(), told.end(), alert) == told.end()) sheet.warnings.push_back(alert);
  }
  void warn(SheetWarning warning, const std::string& species = "") {
    warn({warning, species, brief.date, brief.date});
  }

  // What falls on a day without school is seen, or done, on the next school day.
  void expect(SheetTask task, const std::string& species, const DayRange& range) {
    const auto from = school_day_from(brief, range.earliest);
    const auto to = school_day_from(brief, range.latest);
    if (from && to) {
      sheet.lines.push_back({task, species, *from, *to});
    } else {
      warn(SheetWarning::no_school_day);
    }
  }

  // Breaks from first root to leaves: the cotton dries out with nobody there.
  void warn_of_breaks(const SproutForecast& seen) {
    Date day = seen.root.earliest;
    while (day <= seen.leaves.latest) {
      const auto before = school_day_until(brief, day);
      const auto after = school_day_from(brief, day);
      if (!before || !after) return warn(SheetWarning::no_school_day);
      if (days_between(*before, *after) - 1 > kLongWeekend) {
        warn({SheetWarning::sprouts_in_break, seen.species, add_days(*before, 1),
              add_days(*after, -1)});
      }
      day = add_days(*after, 1);
    }
  }

  void add_species(const Species& species) {
    const SproutForecast seen = forecast(species, brief);
    sheet.forecasts.push_back(seen);
    if (seen.warmth != Warmth::known) {
      return warn(seen.warmth == Warmth::too_cold ? SheetWarning::too_cold : SheetWarning::too_warm,
                  species.id);
    }
    if (seen.germination_percent < species.legal_minimum_percent) {
      warn(SheetWarning::few_sprouts, species.id);
    }
    expect(SheetTask::expect_root, species.id, seen.root);
    expect(SheetTask::expect_leaves, species.id, seen.leaves);
    warn_of_breaks(seen);
  }

  // The first potting day; nothing where no date is known.
  std::optional<Date> add_potting() {
    std::optional<Date> first;
    Date last = add_days(brief.date, kLastPottingDay);
    std::string slowest;
    for (const SproutForecast& seen : sheet.forecasts) {
      if (seen.warmth != Warmth::known) continue;
      if (!first || seen.leaves.middle > *first) {
        first = seen.leaves.middle;
        slowest = seen.species;
      }
      last = std::min(last, add_days(seen.root.middle, kDaysAfterRoot));
    }
    if (!first) return std::nullopt;
    if (*first > last) warn(SheetWarning::too_cold, slowest);
    first = std::max(*first, add_days(brief.date, kFirstPottingDay));
    const auto from = school_day_from(brief, *first);
    if (!from) {
      warn(SheetWarning::no_school_day);
      return std::nullopt;
    }
    const Date to = std::max(*from, school_day_until(brief, last).value_or(*from));
    if (*first <= last && to > last) warn(SheetWarning::no_school_day);
    sheet.lines.push_back({SheetTask::transplant, "", *from, to});
    sheet.lines.push_back({SheetTask::last_day, "", to, to});
    return from;
  }

  void add_damp_checks(Date until) {
    Date checked = brief.date;
    for (auto day = school_day_from(brief, add_days(brief.date, 1)); day && *day < until;) {
      const auto next = school_day_from(brief, add_days(*day, 1));
      if (checked == brief.date || !next || days_between(checked, *next) > kDaysBetweenChecks) {
        sheet.lines.push_back({SheetTask::damp_check, "", *day, *day});
        checked = *day;
      }
      day = next;
    }
  }
};

}  // namespace

Sheet make_sheet(const Brief& brief, std::span<const Species> species) {
  SheetMaker maker{brief, {}};
  for (const Species& one : species) maker.add_species(one);
  const auto potting = maker.add_potting();
  maker.add_damp_checks(potting.value_or(add_days(brief.date, kChecksWithoutDates)));
  std::stable_sort(
      maker.sheet.lines.begin(), maker.sheet.lines.end(),
      [](const SheetLine& left, const SheetLine& right) { return left.from < right.from; });
  return maker.sheet;
}

}  // namespace trowelbell
