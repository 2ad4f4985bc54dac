#include "lesson_time.h"

#include <algorithm>

namespace trowelbell {
namespace {

constexpr std::int64_t kBriskTurnSeconds = 2;

std::int64_t rounded_up(std::int64_t a, std::int64_t b) {
  return (a + b - 1) / b;
}

std::int64_t brisk_seconds(const StoryPage& page, std::string_view language) {
  return rounded_up(count_words(page.text.in(language)) * 60, kBriskWordsPerMinute) +
         kBriskTurnSeconds;
}

}  // namespace

std::int64_t page_seconds(const StoryPage& page, std::string_view language) {
  return rounded_up(count_words(page.text.in(language)) * 60, kReadAloudWordsPerMinute) +
         page.pause_seconds + kPageTurnSeconds;
}

StepSeconds story_seconds(const Story& story, std::string_view language) {
  StepSeconds time;
  for (const StoryPage& page : story.pages) {
    time.min += brisk_seconds(page, language);
    time.plan += page_seconds(page, language);
  }
  time.max = 2 * time.plan;
  return time;
}

std::vector<StepSeconds> step_times(const Lesson& lesson, const Story& story,
                                    std::string_view language, std::int64_t children,
                                    std::int64_t adults) {
  const std::int64_t served =
      rounded_up(std::max<std::int64_t>(children, 0), std::max<std::int64_t>(adults, 1));
  std::vector<StepSeconds> times;
  times.reserve(lesson.steps.size());
  for (const Step& step : lesson.steps) {
    if (step.reading) {
      times.push_back(story_seconds(story, language));
    } else {
      times.push_back({step.seconds.min + served * step.per_child.min,
                       step.seconds.plan + served * step.per_child.plan,
                       step.seconds.max + served * step.per_child.max});
    }
  }
  return times;
}

}  // namespace trowelbell
