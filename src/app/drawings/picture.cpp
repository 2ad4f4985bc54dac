#include "app/drawings/picture.h"

#include "app/drawings/pictures.h"

namespace trowelbell {
namespace {

const Drawing* find(std::string_view name) {
  for (const auto table : {step_pictures(), story_pictures(), care_pictures()}) {
    for (const Drawing& drawing : table) {
      if (drawing.name == name) return &drawing;
    }
  }
  return nullptr;
}

}  // namespace

void draw_picture(ImDrawList& list, std::string_view name, Rect rect, const Palette& colors) {
  if (const Drawing* drawing = find(name)) drawing->draw(Pen(list, rect, colors));
}

bool has_picture(std::string_view name) {
  return find(name) != nullptr;
}

}  // namespace trowelbell
