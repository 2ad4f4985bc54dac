// The teacher's sheet in words: the same lines on screen, on paper and in a file.
#pragma once

#include "language.h"
#include "sheet.h"
#include "visit_state.h"

namespace trowelbell {

struct SheetWords {
  std::string title, intro;
  std::vector<std::string> warnings;
  std::vector<std::pair<std::string, std::string>> dates;  // what to do, when
  std::vector<std::string> how;
  std::vector<std::string> left;  // steps that did not happen, for the teacher to do or leave
  std::string closing;
};

// From the texts "sheet.*" of the language. After the visit `state` adds the kits that wait for
// absent children, and the steps that were left out.
SheetWords sheet_words(const Brief& brief, const Lesson& lesson, const VisitState& state,
                       std::span<const Species> species, const Language& language);
std::string plain_text(const SheetWords& words, const Language& language);

}  // namespace trowelbell
