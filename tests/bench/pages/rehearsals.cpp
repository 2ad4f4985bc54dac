// The rehearsal benchmark in the browser: the page's JavaScript gives the documents and reads the
// figures.
#include "tests/bench/rehearsals.h"

#include <emscripten.h>

using namespace trowelbell;

namespace {

RehearsalFigures figures;

}  // namespace

extern "C" {

// Milliseconds, or -1 where a document is not as it should be.
EMSCRIPTEN_KEEPALIVE double bench_rehearsals(const char* lesson_text, const char* story_text) {
  Problems problems;
  const auto lesson_json = parse_json(lesson_text, {}, problems);
  const auto story_json = parse_json(story_text, {}, problems);
  if (!problems.empty()) return -1;
  const Lesson lesson = read_lesson(*lesson_json, problems);
  const Story story = read_story(*story_json, problems);
  if (!problems.empty()) return -1;
  figures = time_rehearsals(lesson, story, emscripten_get_now);
  return figures.ms;
}

// How many of those visits ended by the bell.
EMSCRIPTEN_KEEPALIVE double bench_by_bell() {
  return static_cast<double>(figures.by_bell);
}

}  // extern "C"

int main() {
  return 0;
}
