#include "app/drawings/picture.h"

namespace trowelbell {

void draw_picture(ImDrawList&, std::string_view, Rect, const Palette&) {}
bool has_picture(std::string_view) {
  return false;
}

}  // namespace trowelbell
