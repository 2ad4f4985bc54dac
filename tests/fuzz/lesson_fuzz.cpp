// A lesson, and a story: their times can be worked out and paced whatever they hold.
#include "core/content.h"
#include "core/lesson_time.h"
#include "core/pacing.h"
#include "fuzz.h"

using namespace trowelbell;

static void fuzz_one(std::string_view text) {
  fuzz::read_document(text, kContentLimits, read_lesson, [](const Json&, const Lesson& lesson) {
    const auto times = step_times(lesson, Story{}, "en", 60, 1);
    fuzz::must(times.size() == lesson.steps.size());
    std::vector<PaceItem> items;
    for (std::size_t i = 0; i < times.size(); ++i) {
      fuzz::must(times[i].min <= times[i].plan && times[i].plan <= times[i].max);
      items.push_back({times[i], lesson.steps[i].keep, lesson.steps[i].worth, Choice::automatic});
    }
    fuzz::must(pace_to_bell(items, 2700, lesson.comfort_percent).items.size() == items.size());
    check_references(lesson, Content{});
  });
  fuzz::read_document(text, kContentLimits, read_story, [](const Json&, const Story& story) {
    const StepSeconds seconds = story_seconds(story, "es");
    fuzz::must(seconds.min <= seconds.plan && seconds.plan <= seconds.max);
    check_references(story);
  });
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
