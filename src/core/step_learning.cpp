#include "step_learning.h"

#include <algorithm>
#include <cmath>

#include "lesson_time.h"
#include "quantile.h"

namespace trowelbell {
namespace {

struct Measured {
  std::int64_t children = 0;
  double seconds = 0, of_plan = 0;
};

std::optional<Spread> spread(std::vector<double> values, std::size_t least) {
  if (values.size() < least || values.empty()) return std::nullopt;
  std::sort(values.begin(), values.end());
  return Spread{quantile(values, 10), quantile(values, 50), quantile(values, 90)};
}

StepSample sample(std::span<const Measured> measured, ClassBand band, std::size_t least) {
  std::vector<double> seconds, of_plan;
  for (const Measured& one : measured) {
    if (one.children < band.from || one.children > band.to) continue;
    seconds.push_back(one.seconds);
    of_plan.push_back(one.of_plan);
  }
  return {seconds.size(), spread(seconds, least), spread(of_plan, least)};
}

std::int64_t nearest(double seconds) {
  const double most = static_cast<double>(kLongestStepSeconds);
  return static_cast<std::int64_t>(std::floor(std::min(seconds, most) + 0.5));
}

StepSeconds moved(const StepSeconds& now, const Spread& of_plan, bool& at_shortest) {
  if (now.plan == 0) return now;
  const double plan = static_cast<double>(now.plan);
  StepSeconds next = now;
  next.plan = std::max<std::int64_t>(nearest(plan * of_plan.middle), 1);
  if (next.plan < now.min) {
    next.plan = now.min;
    at_shortest = true;
  }
  next.max = std::max({now.max, next.plan, nearest(plan * of_plan.high)});
  return next;
}

// The last step done where the visit has no end; else none.
std::size_t still_running(const ReportFacts& report) {
  std::size_t last = report.steps.size();
  for (std::size_t i = 0; report.ended_at == 0 && i < report.steps.size(); ++i) {
    if (report.steps[i].outcome == Outcome::done) last = i;
  }
  return last;
}

}  // namespace

LearnedTimes learn_times(const Lesson& lesson, const Story& story,
                         std::span<const ReportFacts> reports, std::size_t least) {
  LearnedTimes learned;
  std::vector<std::vector<Measured>> measured(lesson.steps.size());
  for (const ReportFacts& report : reports) {
    const std::int64_t children = report.children.came() + report.children.unknown;
    if (report.lesson != lesson.id || children == 0) continue;
    ++learned.visits;
    const auto times = step_times(lesson, story, "en", children, report.adults);
    const std::size_t running = still_running(report);
    for (std::size_t i = 0; i < report.steps.size(); ++i) {
      const StepFacts& step = report.steps[i];
      if (step.outcome != Outcome::done || step.actual_seconds == 0 || i == running) continue;
      const std::size_t index = step_index(lesson, step.id);
      if (index == lesson.steps.size()) {
        learned.unknown.insert(step.id);
      } else if (times[index].plan > 0) {
        const double took = static_cast<double>(step.actual_seconds);
        measured[index].push_back({children, took, took / static_cast<double>(times[index].plan)});
      }
    }
  }
  for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
    LearnedStep step;
    step.all = sample(measured[i], {0, kMostChildren}, least);
    for (std::size_t band = 0; band < kClassBandCount; ++band) {
      step.bands[band] = sample(measured[i], kClassBands[band], least);
    }
    if (step.all.of_plan && !lesson.steps[i].reading) {
      ProposedTimes proposed;
      const Spread& of_plan = *step.all.of_plan;
      proposed.seconds = moved(lesson.steps[i].seconds, of_plan, proposed.at_shortest);
      proposed.per_child = moved(lesson.steps[i].per_child, of_plan, proposed.at_shortest);
      step.proposed = proposed;
    }
    learned.steps.push_back(step);
  }
  return learned;
}

}  // namespace trowelbell
