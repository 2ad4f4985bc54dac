// The rehearsal's chance against the exact one on small lessons. A visit paced to the bell is a
// chain: all that is to come depends on the step and the time left. So the distribution of the time
// left is carried from step to step by convolution with the distribution of the step, on
// a grid of ten milliseconds, and the chance is what is left at the end.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <map>

#include "core/pacing.h"
#include "core/rehearsal.h"
#include "random_lessons.h"

using namespace trowelbell;

namespace {

constexpr std::int64_t kGrid = 10;  // ms

// The two-sided power distribution function of power 5 (source in tests/core/rehearsal_test.cpp).
double two_sided_power(double x, double low, double mode, double high) {
  if (x <= low) return 0;
  if (x >= high) return 1;
  return x < mode ? (mode - low) / (high - low) * std::pow((x - low) / (mode - low), 5)
                  : 1 - (high - mode) / (high - low) * std::pow((high - x) / (high - mode), 5);
}

struct Chance {
  double by_bell = 0, whole = 0;
};

// From `step` on with the times left in `left` (grid -> chance), all of visits that are still whole
// or not.
Chance play(const std::vector<PaceItem>& items, const Lesson& lesson, std::int64_t seconds) {
  // The chance of each [step][whole so far][time left on the grid].
  using Left = std::map<std::int64_t, double>;
  std::vector<std::array<Left, 2>> at(items.size() + 1);
  at[0][1][seconds * 1000 / kGrid] = 1;
  Chance chance;
  for (std::size_t step = 0; step <= items.size(); ++step) {
    for (const bool whole : {false, true}) {
      for (const auto& [left, likely] : at[step][whole]) {
        const std::int64_t ms = left * kGrid;
        std::size_t taken = step;
        Pace pace;
        if (step < items.size()) {
          pace = pace_to_bell(std::span(items).subspan(step), ms / 1000 - lesson.reserve_seconds,
                              lesson.comfort_percent);
          while (taken < items.size() && !pace.items[taken - step].kept) ++taken;
        }
        const bool still_whole = whole && taken == step;
        if (taken == items.size()) {
          if (ms >= 0) chance.by_bell += likely;
          if (ms >= 0 && still_whole) chance.whole += likely;
          continue;
        }
        const double low = 1e3 * static_cast<double>(items[taken].seconds.min);
        const double high = 1e3 * static_cast<double>(items[taken].seconds.max);
        const double mode = static_cast<double>(pace.items[taken - step].ms);
        Left& after = at[taken + 1][still_whole];
        for (std::int64_t took = items[taken].seconds.min * 1000 / kGrid;
             took <= items[taken].seconds.max * 1000 / kGrid; ++took) {
          const double from = static_cast<double>(took * kGrid) - kGrid / 2.0, to = from + kGrid;
          const double share = low == high ? 1
                                           : two_sided_power(to, low, mode, high) -
                                                 two_sided_power(from, low, mode, high);
          after[left - took] += likely * share;
        }
      }
      at[step][whole].clear();
    }
  }
  return chance;
}

}  // namespace

TEST_CASE("rehearsed chances are the exact ones") {
  RandomLessons lessons(4004);
  int doubtful = 0;
  for (int round = 0; round < 24; ++round) {
    Lesson lesson;
    lesson.reserve_seconds = lessons.between(0, 2);
    lesson.comfort_percent = lessons.comfort_percent();
    std::vector<PaceItem> items;
    std::vector<StepSeconds> times;
    std::int64_t shortest = 0, plans = 0;
    for (int i = 0; i < 4; ++i) {
      Step step;
      step.keep = static_cast<Keep>(lessons.between(0, 2));
      step.worth = lessons.between(0, 3);
      const std::int64_t min = lessons.between(0, 3), plan = min + lessons.between(0, 3);
      times.push_back({min, plan, plan + lessons.between(0, 4)});
      items.push_back({times.back(), step.keep, step.worth});
      shortest += step.keep == Keep::must ? min : 0;
      plans += plan;
      lesson.steps.push_back(step);
    }
    const std::int64_t seconds = lessons.between(shortest, plans + 3);
    const Rehearsal rehearsal = Rehearser(lesson, times, 5).rehearse(seconds, 100'000);
    const Chance exact = play(items, lesson, seconds);
    CAPTURE(round);
    CAPTURE(seconds);
    // Five standard errors, and the grid: half of ten milliseconds at each turn, of spreads of
    // seconds.
    CHECK(std::abs(rehearsal.chance() - exact.by_bell) < 5 * rehearsal.standard_error() + 0.005);
    const double whole =
        static_cast<double>(rehearsal.whole) / static_cast<double>(rehearsal.visits);
    CHECK(std::abs(whole - exact.whole) <
          0.0133);  // five of the largest standard errors, and the grid
    doubtful += exact.by_bell > 0.05 && exact.by_bell < 0.95;
  }
  CHECK(doubtful > 5);
}
