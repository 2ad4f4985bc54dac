#include "app/widgets/lines.h"

#include <imgui.h>

#include <algorithm>

namespace trowelbell {
namespace {

constexpr float kSmallestFit = 0.8f;  // words shrink this far before they wrap

std::vector<std::string_view> break_lines(ImFont& font, float size, std::string_view text,
                                          float width) {
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    const std::size_t newline = text.find('\n');
    std::string_view paragraph = text.substr(0, newline);
    text = newline == std::string_view::npos ? std::string_view{} : text.substr(newline + 1);
    do {
      const char* begin = paragraph.data();
      const char* end = begin + paragraph.size();
      const char* at = font.CalcWordWrapPosition(size, begin, end, width);
      if (at == begin && begin != end) ++at;  // narrower than one letter: still move on
      lines.push_back(paragraph.substr(0, static_cast<std::size_t>(at - begin)));
      paragraph.remove_prefix(static_cast<std::size_t>(at - begin));
      while (!paragraph.empty() && paragraph.front() == ' ') paragraph.remove_prefix(1);
    } while (!paragraph.empty());
  }
  return lines;
}

// A letter, a digit, a plus; every letter beyond ASCII is more than one byte.
bool in_word(char c) {
  return c == '+' || (c >= '0' && c <= '9') || ((c | 0x20) >= 'a' && (c | 0x20) <= 'z') ||
         (c & 0x80) != 0;
}

bool breaks_word(std::string_view text, const std::vector<std::string_view>& lines) {
  return std::any_of(lines.begin(), lines.end(), [&](std::string_view line) {
    const char* end = line.data() + line.size();
    return end != text.data() + text.size() && !line.empty() && in_word(end[-1]) && in_word(*end);
  });
}

float widest_word(ImFont& font, float size, std::string_view text) {
  float widest = 0;
  while (!text.empty()) {
    const std::size_t end = text.find_first_of(" \n");
    widest = std::max(widest, line_width(font, size, text.substr(0, end)));
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
  }
  return widest;
}

}  // namespace

float line_width(ImFont& font, float size, std::string_view line) {
  if (line.empty()) return 0;
  return font.CalcTextSizeA(size, 1e9f, 0.0f, line.data(), line.data() + line.size()).x;
}

SetText set_text(ImFont& font, float size, float least, std::string_view text, float width,
                 Fit fit) {
  SetText set{.size = size};
  width = std::max(width, 1.0f);
  if (fit != Fit::wrap) {
    const float needed = line_width(font, size, text);
    if (needed > width && (fit == Fit::squeeze || needed * kSmallestFit <= width))
      set.size = size * width / needed;
  }
  const float room = width + 0.5f;  // a line that just fits is not broken by rounding
  set.lines = break_lines(font, set.size, text, room);
  if (breaks_word(text, set.lines)) {
    const float word = widest_word(font, set.size, text);
    set.size = std::max(std::min(set.size * width / word, set.size), std::min(least, set.size));
    set.lines = break_lines(font, set.size, text, room);
    set.whole = !breaks_word(text, set.lines);
  }
  return set;
}

}  // namespace trowelbell
