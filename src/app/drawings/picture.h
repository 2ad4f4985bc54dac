// The drawings of steps, story pages and care cards: vector, in the palette's colours, by name.
#pragma once

#include <string_view>

#include "app/widgets/rect.h"
#include "app/widgets/theme.h"

struct ImDrawList;

namespace trowelbell {

// Draws `name` centred in `rect`, as large as fits. An unknown name draws nothing.
void draw_picture(ImDrawList& list, std::string_view name, Rect rect, const Palette& colors);
bool has_picture(std::string_view name);

}  // namespace trowelbell
