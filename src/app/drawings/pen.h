// A pen on a sheet of 200 x 130 units, laid centred in a rectangle of the page as large as fits.
// Drawings are written in the sheet's units; x grows to the right, y downwards, angles in degrees
// turn clockwise.
#pragma once

#include <initializer_list>
#include <vector>

#include "app/widgets/rect.h"
#include "app/widgets/theme.h"

struct ImDrawList;

namespace trowelbell {

struct Point {
  float x = 0, y = 0;
};

inline constexpr Point kSheet = {200, 130};
inline constexpr float kWeight = 3;  // of an outline, in units

// A line to follow: straight pieces, cubic curves and arcs, from a starting point on.
class Path {
 public:
  Path(float x, float y) : points_{{x, y}} {}
  Path(std::initializer_list<Point> points) : points_(points) {}
  Path& line(float x, float y);
  Path& curve(float ax, float ay, float bx, float by, float x, float y);
  // Goes on to, and around, the ellipse with this centre and these half axes.
  Path& arc(float x, float y, float across, float down, float from, float to);
  const std::vector<Point>& points() const { return points_; }

 private:
  std::vector<Point> points_;
};

Path oval(float x, float y, float across, float down);  // centre, half axes
Path box(float x, float y, float width, float height, float round = 0);

// A part of a blob: as wide as `width` along its path, with round ends. One point makes a disc.
struct Limb {
  Path path;
  float width;
};

class Pen {
 public:
  Pen(ImDrawList& list, Rect rect, const Palette& colors);

  // The same pen with its origin moved to a point, turned, or scaled (negative: mirrored). Shapes
  // and limbs scale; the weight of strokes does not, so that lines look of one hand.
  Pen at(float x, float y) const;
  Pen turned(float degrees) const;
  Pen scaled(float across, float down) const;
  Pen scaled(float by) const { return scaled(by, by); }

  void fill(const Path& path, Color color) const;
  void stroke(const Path& path, Color color, float weight = kWeight) const;
  // Filled, and outlined in `edge`.
  void shape(const Path& path, Color color) const;
  void disc(float x, float y, float radius, Color color) const;
  // Limbs that run into one another, with one outline around them all.
  void blob(const std::vector<Limb>& limbs, Color color) const;

  const Palette& colors;
  // Paper, cotton and hands stay pale and lines on a fill stay dark, whichever palette is on; a
  // line on the page itself is drawn in `colors.ink`.
  Color paper, edge, gold, night;

 private:
  Point map(Point point) const;
  void outline(const Path& path, bool closed, Color color, float pixels) const;

  ImDrawList* list_;
  float unit_;  // pixels
  Point origin_, right_, down_;
};

// `share` of b in a, both opaque.
Color mixed(Color a, Color b, float share);

}  // namespace trowelbell
