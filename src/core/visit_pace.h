// The pace of a visit under way: the lesson's times, the state and the clock, turned into what
// Lesson shows.
#pragma once

#include "pacing.h"

namespace trowelbell {

struct VisitPace {
  std::vector<PacedItem> steps;  // as the lesson's; a step that is over has the time it took, why
                                 // as_planned, and is kept if it was entered
  std::vector<bool> over;        // behind us: before the current step, or everything once finished
  std::int64_t to_bell = 0;      // seconds; negative after the bell
  std::int64_t step_left = 0;    // seconds left in the current step; negative when over its time
  std::int64_t slack = 0;        // seconds to spare
  std::int64_t short_by = 0;     // seconds lacking
};

// `times` from step_times(). The current step keeps its allotment while it stays within it, and
// only its late seconds press on the rest: it is planned with at least the time already spent, out
// of the time there was when it began. Before the start the whole lesson is paced from max(now,
// start) to the bell. A step ahead that was begun before the lead went back needs only the rest of
// its time. After the bell `short_by` is how long past it (and the reserve) the musts end.
VisitPace pace_visit(const Lesson& lesson, std::span<const StepSeconds> times,
                     const VisitState& state, std::int64_t planned_start_ms, std::int64_t now_ms);

// The next step to go to from the current one (kept and not over), or lesson.steps.size() when it
// is the last.
std::size_t next_step(const VisitPace& pace, const VisitState& state);

}  // namespace trowelbell
