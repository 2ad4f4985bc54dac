#include "app/widgets/lines.h"

#include <imgui.h>

namespace trowelbell {

float line_width(ImFont& font, float size, std::string_view line) {
  if (line.empty()) return 0;
  return font.CalcTextSizeA(size, 1e9f, 0.0f, line.data(), line.data() + line.size()).x;
}

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

}  // namespace trowelbell
