#include "visit_pace.h"

#include <algorithm>

namespace trowelbell {
namespace {

// Rounded down on both sides of zero: a late second counts as soon as it begins.
std::int64_t whole_seconds(std::int64_t ms) {
  return ms / 1000 - (ms % 1000 < 0 ? 1 : 0);
}

StepSeconds at_least(const StepSeconds& time, std::int64_t spent) {
  return {std::max(time.min, spent), std::max(time.plan, spent), std::max(time.max, spent)};
}

// What a step still needs that was begun before the lead went back.
StepSeconds after(const StepSeconds& time, std::int64_t spent) {
  const auto left = [spent](std::int64_t seconds) {
    return std::max<std::int64_t>(seconds - spent, 0);
  };
  return {left(time.min), left(time.plan), left(time.max)};
}

}  // namespace

VisitPace pace_visit(const Lesson& lesson, std::span<const StepSeconds> times,
                     const VisitState& state, std::int64_t planned_start_ms, std::int64_t now_ms) {
  const std::size_t count = lesson.steps.size();
  const bool under_way = state.phase == Phase::running || state.phase == Phase::held;
  const std::size_t first = under_way ? state.step : state.phase == Phase::finished ? count : 0;
  const auto spent_ms = [&](std::size_t i) {
    return std::max<std::int64_t>(state.step_ms(i, now_ms), 0);
  };

  VisitPace visit;
  visit.to_bell = whole_seconds(state.bell_at - now_ms);
  visit.over.assign(count, false);
  std::vector<PaceItem> ahead;
  for (std::size_t i = 0; i < count; ++i) {
    if (i < first) {
      visit.over[i] = true;
      visit.steps.push_back({state.steps[i].entered, spent_ms(i), PaceWhy::as_planned});
    } else {
      const Step& step = lesson.steps[i];
      const bool current = under_way && i == first;
      ahead.push_back({current ? times[i] : after(times[i], spent_ms(i) / 1000), step.keep,
                       step.worth, current ? Choice::keep : state.choices[i]});
    }
  }
  if (ahead.empty()) return visit;

  // The time there was when the current step began, holds taken off: it stands still while the
  // step's clock runs.
  const std::int64_t spent = under_way ? spent_ms(first) : 0;
  const std::int64_t from =
      state.phase == Phase::before ? std::max(now_ms, planned_start_ms) : now_ms;
  const std::int64_t available =
      whole_seconds(state.bell_at - from + spent) - lesson.reserve_seconds;
  Pace pace = pace_to_bell(ahead, available, lesson.comfort_percent);
  visit.step_left = whole_seconds(pace.items[0].ms - spent);
  if (visit.step_left < 0) {
    ahead[0].seconds = at_least(times[first], std::min(spent / 1000, kMostStepSeconds));
    pace = pace_to_bell(ahead, available, lesson.comfort_percent);
  }
  visit.steps.insert(visit.steps.end(), pace.items.begin(), pace.items.end());
  visit.slack = pace.slack;
  // pace_to_bell counts time that has run out as none; here it is lacking too.
  visit.short_by = pace.short_by + std::max<std::int64_t>(-available, 0);
  return visit;
}

std::size_t next_step(const VisitPace& pace, const VisitState& state) {
  std::size_t step = state.step + 1;
  while (step < pace.steps.size() && (pace.over[step] || !pace.steps[step].kept)) ++step;
  return std::min(step, pace.steps.size());
}

}  // namespace trowelbell
