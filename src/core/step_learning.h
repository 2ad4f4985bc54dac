// What past visits teach about a lesson's times: how long its steps took, and times to propose.
#pragma once

#include <set>
#include <span>

#include "lesson.h"
#include "report.h"
#include "story.h"

namespace trowelbell {

// Sizes of classes, by the children who were there: a small class, a usual one, a full one.
struct ClassBand {
  std::int64_t from = 0, to = 0;
};
inline constexpr ClassBand kClassBands[] = {{1, 15}, {16, 22}, {23, kMostChildren}};
inline constexpr std::size_t kClassBandCount = std::size(kClassBands);

inline constexpr std::int64_t kLeastVisits = 5;  // for a quantile to be worth showing

// 10, 50 and 90 of 100 visits did not exceed these.
struct Spread {
  double low = 0, middle = 0, high = 0;
};

struct StepSample {
  std::size_t visits = 0;
  // Nothing where the visits are too few.
  std::optional<Spread> seconds;  // that the step took
  std::optional<Spread> of_plan;  // the same as a share of the lesson's time for the children and
                                  // adults there were: 1.2 is a fifth longer
};

struct ProposedTimes {
  StepSeconds seconds, per_child;
  bool at_shortest = false;  // a plan would have gone under its shortest time, which stays
};

struct LearnedStep {
  StepSample all;
  StepSample bands[kClassBandCount];
  // Nothing where the visits are too few, and for the story, whose time comes from its pages.
  std::optional<ProposedTimes> proposed;
};

struct LearnedTimes {
  std::vector<LearnedStep> steps;  // as the lesson's
  std::size_t visits = 0;          // of this lesson, with children
  std::set<std::string> unknown;   // steps that were done and that the lesson no longer has
};

// One report a visit (count_reports()); those of other lessons are passed over. A step counts where
// it was done and took time; the last one done of a visit without an end does not, since its clock
// ran on. Children whose presence is not known count as there, as they do for the page. Proposed
// are plan x the middle share and, if that is more than now, longest x the high share of the plan;
// the group's part and each child's by the same share, to the nearest second. The shortest time
// stays as it is: reports of hurried visits must not teach the next ones to hurry. `least`: visits
// for a quantile, at least 1.
LearnedTimes learn_times(const Lesson& lesson, const Story& story,
                         std::span<const ReportFacts> reports, std::size_t least);

}  // namespace trowelbell
