// A place on the page.
#pragma once

#include "app/widgets/theme.h"

namespace trowelbell {

// CSS pixels, page coordinates.
struct Rect {
  float x = 0, y = 0, width = 0, height = 0;
  float right() const { return x + width; }
  float bottom() const { return y + height; }
  Rect inset(float by) const { return {x + by, y + by, width - 2 * by, height - 2 * by}; }
  Rect inset(float across, float down) const {
    return {x + across, y + down, width - 2 * across, height - 2 * down};
  }
  // The part `index` of `count` equal parts side by side.
  Rect column(int index, int count, float gap = kGap) const;
  // The same, one below the other.
  Rect row(int index, int count, float gap = kGap) const;
};

}  // namespace trowelbell
