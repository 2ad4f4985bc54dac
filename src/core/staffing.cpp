#include "staffing.h"

#include <algorithm>

namespace trowelbell {

bool StaffingRow::fits() const {
  return pace.short_by == 0 && std::all_of(pace.items.begin(), pace.items.end(),
                                           [](const PacedItem& item) { return item.kept; });
}

Pace lesson_pace(const Lesson& lesson, std::span<const StepSeconds> times, std::int64_t seconds) {
  std::vector<PaceItem> items;
  for (std::size_t i = 0; i < times.size(); ++i) {
    items.push_back({times[i], lesson.steps[i].keep, lesson.steps[i].worth});
  }
  return pace_to_bell(items, seconds - lesson.reserve_seconds, lesson.comfort_percent);
}

std::vector<StaffingRow> staffing(const Lesson& lesson, const Story& story,
                                  std::string_view language, const StaffingQuestion& question) {
  std::vector<StaffingRow> rows;
  for (std::int64_t adults = 1; adults <= question.most_adults; ++adults) {
    StaffingRow row;
    row.adults = adults;
    const auto times = step_times(lesson, story, language, question.children, adults);
    row.pace = lesson_pace(lesson, times, question.seconds);
    Rehearser rehearser(lesson, times, question.seed);
    for (const std::int64_t minutes : question.minutes_late) {
      row.late.push_back(rehearser.rehearse(question.seconds - minutes * 60, question.visits));
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

std::optional<std::int64_t> least_adults(const Lesson& lesson, std::span<const StaffingRow> rows) {
  for (const StaffingRow& row : rows) {
    if (row.adults >= lesson.least_adults && row.fits()) return row.adults;
  }
  return std::nullopt;
}

}  // namespace trowelbell
