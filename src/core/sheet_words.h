// The teacher's sheet in words: the same lines on screen, on paper and in a file.
#pragma once

#include "language.h"
#include "sheet.h"

namespace trowelbell {

struct SheetWords {
  std::string title, intro;
  std::vector<std::string> warnings;
  std::vector<std::pair<std::string, std::string>> dates;  // what to do, when
  std::vector<std::string> how;
  std::vector<std::string> left;  // steps that did not happen, for the teacher to do or leave
  std::string closing;
};

// From the texts "sheet.*" of the language. `left` stays empty: only the visit's journal knows it.
SheetWords sheet_words(const Brief& brief, std::span<const Species> species,
                       std::int64_t kits_with_teacher, const Language& language);
std::string plain_text(const SheetWords& words, const Language& language);

}  // namespace trowelbell
