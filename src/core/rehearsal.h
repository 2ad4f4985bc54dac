// A visit played through many times, with luck: how often does it end by the bell? Seeded, in whole
// numbers, so that phone and command line give the same answer to the last digit.
#pragma once

#include "lesson.h"

namespace trowelbell {

struct Rehearsal {
  std::int64_t visits = 0;
  std::int64_t by_bell = 0;  // ended by the bell
  std::int64_t whole = 0;    // of those, with no step left out

  double chance() const;          // of ending by the bell; 0 where nothing was rehearsed
  double standard_error() const;  // of that chance, sqrt(p (1 - p) / visits)
};

// Milliseconds a step takes by the n-th luck of `seed`: between its shortest and its longest time,
// most often near `aim_ms`, which lies between them. Two-sided power distribution of power 5 (van
// Dorp and Kotz 2002): its mean, (shortest + 4 aim + longest) / 6, is the one planners know as
// PERT.
std::int64_t step_by_luck(const StepSeconds& time, std::int64_t aim_ms, std::uint64_t seed,
                          std::uint64_t n);

// The team follows the page: before each step the rest is paced to the bell (pace_to_bell, the
// reserve kept free), steps are left out as it says, and the step aims at the time it shows. Then
// luck has it. The n-th visit meets the same luck whatever the times and the bell, so that answers
// can be compared.
class Rehearser {
 public:
  // `times` from step_times(). The lesson must outlive this.
  Rehearser(const Lesson& lesson, std::vector<StepSeconds> times, std::uint64_t seed);

  // `seconds` from the start to the bell: up to a day, negative counts as none.
  Rehearsal rehearse(std::int64_t seconds, std::int64_t visits);

 private:
  // From `step` on, with so much time: the next step to take and the time shown for it.
  struct Next {
    std::int32_t step = -1;  // not asked yet; the number of steps: none
    std::int32_t ms = 0;
  };
  Next next(std::size_t step, std::int64_t available);

  const Lesson* lesson_;
  std::vector<StepSeconds> times_;
  std::uint64_t seed_;
  std::vector<std::int64_t> plans_from_;  // seconds planned from each step on; more changes nothing
  std::vector<std::vector<Next>> known_;  // answers so far, by step and available seconds
};

}  // namespace trowelbell
