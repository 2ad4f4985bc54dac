#include "core/lesson_time.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

std::string words(int count) {
  std::string text;
  for (int i = 0; i < count; ++i) text += i == 0 ? "Bean" : " bean";
  return text + ".";
}

StoryPage page(int english, int spanish, std::int64_t pause) {
  StoryPage page;
  page.text = {words(english), words(spanish)};
  page.pause_seconds = pause;
  return page;
}

}  // namespace

TEST_CASE("a page takes its words at 130 a minute rounded up, its pause and its turn") {
  // 130 words a minute and four seconds a turn are our own planning figures, not published ones.
  CHECK(page_seconds(page(13, 0, 0), "en") == 6 + 4);  // 13 / 130 of a minute
  CHECK(page_seconds(page(14, 0, 0), "en") == 7 + 4);  // 6.46 s
  CHECK(page_seconds(page(130, 0, 20), "en") == 60 + 20 + 4);
  CHECK(page_seconds(page(13, 26, 5), "es") == 12 + 5 + 4);
  StoryPage picture;
  picture.pause_seconds = 15;
  CHECK(page_seconds(picture, "en") == 15 + 4);
}

TEST_CASE("a prompt is part of the pause, not of the words") {
  StoryPage asked = page(13, 13, 10);
  asked.prompt = {words(50), words(50)};
  CHECK(page_seconds(asked, "en") == page_seconds(page(13, 13, 10), "en"));
}

TEST_CASE("a story's shortest time is a brisk reading without pauses, its longest twice the plan") {
  Story story;
  story.pages = {page(16, 32, 30), page(80, 80, 0)};
  // Brisk, 160 a minute: 6 + 2 and 30 + 2. Planned: 7.4 and 36.9 s, rounded up, with pause and
  // turns.
  CHECK(story_seconds(story, "en") == StepSeconds{8 + 32, 8 + 34 + 37 + 4, 2 * 83});
  CHECK(story_seconds(story, "es") == StepSeconds{14 + 32, 15 + 34 + 37 + 4, 2 * 90});
  CHECK(story_seconds(Story{}, "en") == StepSeconds{0, 0, 0});
}

TEST_CASE("the shortest time of any page is less than its plan") {
  for (int count = 0; count <= 400; ++count) {
    Story story;
    story.pages = {page(count, 0, 0)};
    const StepSeconds time = story_seconds(story, "en");
    CHECK(time.min < time.plan);
    CHECK(time.plan <= time.max);
  }
}

TEST_CASE("work with each child is shared among the adults, and a part child is a whole turn") {
  Lesson lesson;
  lesson.steps.resize(3);
  lesson.steps[0].seconds = {60, 120, 180};
  lesson.steps[1].seconds = {30, 60, 90};
  lesson.steps[1].per_child = {10, 20, 40};
  lesson.steps[2].reading = true;
  Story story;
  story.pages = {page(13, 13, 0)};
  const StepSeconds whole_group{60, 120, 180}, read{5 + 2, 6 + 4, 20};

  struct Row {
    std::int64_t children, adults, turns;
  };
  // ceil(children / adults)
  for (const Row& row :
       {Row{24, 3, 8}, Row{24, 4, 6}, Row{25, 4, 7}, Row{23, 4, 6}, Row{24, 1, 24}, Row{2, 8, 1},
        Row{1, 1, 1}, Row{60, 20, 3}, Row{0, 3, 0}, Row{24, 0, 24}, Row{-5, 3, 0}}) {
    CAPTURE(row.children);
    CAPTURE(row.adults);
    const auto times = step_times(lesson, story, "en", row.children, row.adults);
    REQUIRE(times.size() == 3);
    CHECK(times[0] == whole_group);
    CHECK(times[1] == StepSeconds{30 + row.turns * 10, 60 + row.turns * 20, 90 + row.turns * 40});
    CHECK(times[2] == read);
  }
}
