// Breaking text into lines at a width, for one font and size.
#pragma once

#include <string_view>
#include <vector>

struct ImFont;

namespace trowelbell {

// From the top of one line to the top of the next, in parts of the font size.
inline constexpr float kLineHeight = 1.32f;

std::vector<std::string_view> break_lines(ImFont& font, float size, std::string_view text,
                                          float width);
float line_width(ImFont& font, float size, std::string_view line);

}  // namespace trowelbell
