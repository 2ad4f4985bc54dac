// Whatever the reports say, the proposed times make a lesson (rapidcheck).
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>

#include "core/step_learning.h"

using namespace trowelbell;

namespace {

std::int64_t number(std::int64_t from, std::int64_t to) {
  return *rc::gen::inRange<std::int64_t>(from, to + 1);
}

StepSeconds any_seconds(std::int64_t most) {
  StepSeconds seconds;
  seconds.min = number(0, most);
  seconds.plan = seconds.min + number(0, most);
  seconds.max = seconds.plan + number(0, most);
  return seconds;
}

Lesson any_lesson() {
  Lesson lesson;
  lesson.id = "l";
  for (const char* id : {"one", "two", "three"}) {
    Step step;
    step.id = id;
    step.seconds = any_seconds(number(0, 1) == 1 ? 3 : 2000);
    if (number(0, 1) == 1) step.per_child = any_seconds(30);
    if (step.seconds.plan + step.per_child.plan == 0) step.seconds = {0, 1, 1};
    lesson.steps.push_back(step);
  }
  return lesson;
}

ReportFacts any_report() {
  ReportFacts facts;
  facts.lesson = "l";
  facts.children.present = number(0, 60);
  facts.children.places = facts.children.present;
  facts.adults = number(1, 20);
  facts.ended_at = number(0, 3);
  for (const char* id : {"one", "two", "three"}) {
    const std::int64_t most = number(0, 9) == 0 ? 86'400 : 900;
    facts.steps.push_back({id, 0, number(0, most), static_cast<Outcome>(number(0, 2))});
  }
  return facts;
}

void check_part(const StepSeconds& now, const StepSeconds& next) {
  RC_ASSERT(next.min == now.min);
  RC_ASSERT(next.min <= next.plan);
  RC_ASSERT(next.plan <= next.max);
  RC_ASSERT(next.max >= now.max);
  RC_ASSERT(next.max <= kLongestStepSeconds);
  RC_ASSERT((next.plan == 0) == (now.plan == 0));
}

}  // namespace

TEST_CASE("proposed times keep shortest <= planned <= longest, and what the lesson file allows") {
  CHECK(rc::check([] {
    const Lesson lesson = any_lesson();
    std::vector<ReportFacts> reports(static_cast<std::size_t>(number(0, 30)));
    std::generate(reports.begin(), reports.end(), any_report);
    const LearnedTimes learned = learn_times(lesson, {}, reports, 5);
    RC_ASSERT(learned.steps.size() == lesson.steps.size());
    for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
      const LearnedStep& step = learned.steps[i];
      std::size_t in_bands = 0;
      for (const StepSample& band : step.bands) in_bands += band.visits;
      RC_ASSERT(in_bands == step.all.visits);
      RC_ASSERT(step.proposed.has_value() == (step.all.visits >= 5));
      if (!step.proposed) continue;
      RC_ASSERT(step.all.seconds->low <= step.all.seconds->middle);
      RC_ASSERT(step.all.seconds->middle <= step.all.seconds->high);
      check_part(lesson.steps[i].seconds, step.proposed->seconds);
      check_part(lesson.steps[i].per_child, step.proposed->per_child);
    }
  }));
}
