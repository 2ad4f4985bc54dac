// What past visits taught, as text for people and as JSON.
#pragma once

#include <iosfwd>

#include "core/step_learning.h"

namespace trowelbell {

struct LearnedResult {
  const Lesson& lesson;
  LearnedTimes times;
  std::size_t reports = 0;   // that could be read
  std::size_t left_out = 0;  // that could not
  std::size_t least = 0;
};

void write_learned_words(std::ostream& out, const LearnedResult& learned);
void write_learned_json(std::ostream& out, const LearnedResult& learned);

}  // namespace trowelbell
