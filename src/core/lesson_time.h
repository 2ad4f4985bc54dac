// Step times for this class and team: whole-group part, work shared among the adults, and the
// story's reading time.
#pragma once

#include "lesson.h"
#include "story.h"

namespace trowelbell {

// Words a minute for a five-year-old audience; our own assumption (FACTS has no published rate for
// read-alouds).
inline constexpr std::int64_t kReadAloudWordsPerMinute = 130;
inline constexpr std::int64_t kBriskWordsPerMinute =
    160;  // the least a step's time may shrink to, prompts left out
inline constexpr std::int64_t kPageTurnSeconds = 4;

// Planned seconds of a page: words at the rate, the page's pause, the turn; rounded up.
std::int64_t page_seconds(const StoryPage& page, std::string_view language);
StepSeconds story_seconds(const Story& story, std::string_view language);

// As many as the lesson's steps. `children` >= 0 in the room, `adults` >= 1.
// step = group + ceil(children / adults) * per_child; a reading step = story_seconds.
std::vector<StepSeconds> step_times(const Lesson& lesson, const Story& story,
                                    std::string_view language, std::int64_t children,
                                    std::int64_t adults);

}  // namespace trowelbell
