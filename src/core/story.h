// A story read aloud, page by page. Format "trowelbell.story".
#pragma once

#include "json.h"

namespace trowelbell {

struct StoryPage {
  LocalText text;
  LocalText prompt;                // a question for the children; may be empty
  std::int64_t pause_seconds = 0;  // for the picture and the prompt, 0..120
  std::string picture;             // name of a drawing, or ""
};

struct Story {
  std::string id;
  LocalText title;
  std::vector<StoryPage> pages;  // 1..60
};

Story read_story(const Json& document, Problems& problems);

// Words as a reader speaks them: runs of characters between white space that hold a letter or
// digit.
std::int64_t count_words(std::string_view text);

}  // namespace trowelbell
