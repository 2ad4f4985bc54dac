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

std::int64_t short_handed(std::int64_t adults) {
  return std::max<std::int64_t>(adults - 2, 1);
}

Staffing::Staffing(const Lesson& lesson, const Story& story, std::string_view language,
                   StaffingQuestion question)
    : lesson_(&lesson), question_(std::move(question)) {
  for (std::int64_t adults = 1; adults <= question_.most_adults; ++adults) {
    times_.push_back(step_times(lesson, story, language, question_.children, adults));
    rows_.push_back({adults, lesson_pace(lesson, times_.back(), question_.seconds), {}});
  }
  if (question_.minutes_late.empty()) row_ = rows_.size();
}

void Staffing::rehearse_next() {
  if (done()) return;
  if (!rehearser_) rehearser_.emplace(*lesson_, times_[row_], question_.seed);
  auto& late = rows_[row_].late;
  const std::int64_t minutes = question_.minutes_late[late.size()];
  late.push_back(rehearser_->rehearse(question_.seconds - minutes * 60, question_.visits));
  if (late.size() < question_.minutes_late.size()) return;
  rehearser_.reset();
  ++row_;
}

std::vector<StaffingRow> staffing(const Lesson& lesson, const Story& story,
                                  std::string_view language, const StaffingQuestion& question) {
  Staffing staffing(lesson, story, language, question);
  while (!staffing.done()) staffing.rehearse_next();
  return {staffing.rows().begin(), staffing.rows().end()};
}

std::optional<std::int64_t> least_adults(const Lesson& lesson, std::span<const StaffingRow> rows) {
  for (const StaffingRow& row : rows) {
    if (row.adults >= lesson.least_adults && row.fits()) return row.adults;
  }
  return std::nullopt;
}

}  // namespace trowelbell
