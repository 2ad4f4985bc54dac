// Small signs beside words: drawn as strokes in one colour, centred on a point.
#pragma once

#include <string_view>

#include "app/widgets/theme.h"

struct ImDrawList;

namespace trowelbell {

// lesson (also book), room, care, handover, report, brief; back, undo, hold, play, check, cross,
// plus, minus, down; clock, say, do, ask, page, send, file, dot, leaf, sprout.
void draw_icon(ImDrawList& list, std::string_view name, float x, float y, float size, Color color);
bool has_icon(std::string_view name);

}  // namespace trowelbell
