// The tables of drawings by name, one for each place they are used.
#pragma once

#include <span>
#include <string_view>

#include "app/drawings/pen.h"

namespace trowelbell {

struct Drawing {
  std::string_view name;
  void (*draw)(const Pen& pen);
};

std::span<const Drawing> step_pictures();
std::span<const Drawing> story_pictures();
std::span<const Drawing> care_pictures();

}  // namespace trowelbell
