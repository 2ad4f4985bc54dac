// 10,000 rehearsed visits of the shipped lesson, timed: the same in the native benchmark and in the
// browser's.
#pragma once

#include <algorithm>

#include "core/staffing.h"

namespace trowelbell {

inline constexpr std::int64_t kRehearsedVisits = 10'000, kRehearsedSeconds = 45 * 60;
inline constexpr std::uint64_t kRehearsedSeed = 1;

// The best of five, in ms, and how many visits ended by the bell.
struct RehearsalFigures {
  double ms = 1e9;
  std::int64_t by_bell = 0;
};

// `clock` gives ms.
template <class Clock>
RehearsalFigures time_rehearsals(const Lesson& lesson, const Story& story, Clock clock) {
  const auto times = step_times(lesson, story, "en", 24, 4);
  RehearsalFigures figures;
  for (int pass = 0; pass < 5; ++pass) {
    const double begun = clock();
    Rehearser rehearser(lesson, times, kRehearsedSeed);
    figures.by_bell = rehearser.rehearse(kRehearsedSeconds, kRehearsedVisits).by_bell;
    figures.ms = std::min(figures.ms, clock() - begun);
  }
  return figures;
}

}  // namespace trowelbell
