// Breaking text into lines at a width, for one font and size.
#pragma once

#include <string_view>
#include <vector>

struct ImFont;

namespace trowelbell {

// From the top of one line to the top of the next, in parts of the font size.
inline constexpr float kLineHeight = 1.32f;

// Words too wide for one line of their place.
enum class Fit {
  shrink,   // to 80 % where one line is then enough; wrapped otherwise
  wrap,     // at once
  squeeze,  // one line, as small as it takes: numbers in a chart
};

// Text set into a width.
struct SetText {
  float size = 0;  // of its letters
  std::vector<std::string_view> lines;
  bool whole = true;  // no word is broken
  float height() const { return static_cast<float>(lines.size()) * size * kLineHeight; }
};

// Before a word is broken all the text gets smaller, down to `least`.
SetText set_text(ImFont& font, float size, float least, std::string_view text, float width,
                 Fit fit);
float line_width(ImFont& font, float size, std::string_view line);

}  // namespace trowelbell
