#include "app/drawings/pen.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace trowelbell {
namespace {

constexpr float kStep = 3;           // units between the points of a curve
constexpr float kCorner = 0.9f;      // cosine of the turn that makes a corner
constexpr float kSamePlace = 0.05f;  // pixels; nearer points say nothing and upset the corners
constexpr float kThinnest = 1.2f;    // pixels

float distance(Point a, Point b) {
  return std::hypot(b.x - a.x, b.y - a.y);
}

float radians(float degrees) {
  return degrees * std::numbers::pi_v<float> / 180;
}

int pieces(float length) {
  return std::clamp(static_cast<int>(length / kStep), 12, 64);
}

float channel(Color color, int shift) {
  return static_cast<float>((color >> shift) & 0xFFu);
}

float lightness(Color color) {
  return 0.3f * channel(color, 0) + 0.6f * channel(color, 8) + 0.1f * channel(color, 16);
}

Color darker(Color a, Color b) {
  return lightness(a) < lightness(b) ? a : b;
}

Color lighter(Color a, Color b) {
  return lightness(a) < lightness(b) ? b : a;
}

bool is_corner(ImVec2 a, ImVec2 b, ImVec2 c) {
  const ImVec2 in(b.x - a.x, b.y - a.y), out(c.x - b.x, c.y - b.y);
  const float lengths = std::hypot(in.x, in.y) * std::hypot(out.x, out.y);
  return in.x * out.x + in.y * out.y < kCorner * lengths;
}

// A path on the page, without the points that only repeat the one before.
template <typename Map>
std::vector<ImVec2> placed(const Path& path, bool closed, Map map) {
  std::vector<ImVec2> points;
  points.reserve(path.points().size());
  const auto apart = [](ImVec2 a, ImVec2 b) {
    return std::hypot(b.x - a.x, b.y - a.y) > kSamePlace;
  };
  for (const Point point : path.points()) {
    const Point p = map(point);
    if (points.empty() || apart(points.back(), {p.x, p.y})) points.emplace_back(p.x, p.y);
  }
  while (closed && points.size() > 1 && !apart(points.front(), points.back())) points.pop_back();
  return points;
}

}  // namespace

Path& Path::line(float x, float y) {
  points_.push_back({x, y});
  return *this;
}

Path& Path::curve(float ax, float ay, float bx, float by, float x, float y) {
  const Point start = points_.back();
  const int count =
      pieces(distance(start, {ax, ay}) + distance({ax, ay}, {bx, by}) + distance({bx, by}, {x, y}));
  for (int i = 1; i <= count; ++i) {
    const float t = static_cast<float>(i) / static_cast<float>(count), s = 1 - t;
    const float a = s * s * s, b = 3 * s * s * t, c = 3 * s * t * t, d = t * t * t;
    points_.push_back(
        {a * start.x + b * ax + c * bx + d * x, a * start.y + b * ay + c * by + d * y});
  }
  return *this;
}

Path& Path::arc(float x, float y, float across, float down, float from, float to) {
  const int count = pieces(std::max(across, down) * std::abs(radians(to - from)));
  for (int i = 0; i <= count; ++i) {
    const float angle =
        radians(from + (to - from) * static_cast<float>(i) / static_cast<float>(count));
    points_.push_back({x + across * std::cos(angle), y + down * std::sin(angle)});
  }
  return *this;
}

Path oval(float x, float y, float across, float down) {
  return Path(x + across, y).arc(x, y, across, down, 0, 360);
}

Path box(float x, float y, float width, float height, float round) {
  const float r = x + width, b = y + height;
  if (round <= 0) return {{x, y}, {r, y}, {r, b}, {x, b}};
  return Path(x, y + round)
      .arc(x + round, y + round, round, round, 180, 270)
      .arc(r - round, y + round, round, round, 270, 360)
      .arc(r - round, b - round, round, round, 0, 90)
      .arc(x + round, b - round, round, round, 90, 180);
}

Pen::Pen(ImDrawList& list, Rect rect, const Palette& palette)
    : colors(palette),
      paper(lighter(palette.ink, palette.card)),
      edge(darker(palette.ink, palette.ground)),
      gold(lighter(palette.marigold, palette.marigold_fill)),
      night(darker(palette.water, mixed(palette.card, palette.water, 0.2f))),
      list_(&list),
      unit_(std::min(rect.width / kSheet.x, rect.height / kSheet.y)),
      origin_{rect.x + (rect.width - kSheet.x * unit_) / 2,
              rect.y + (rect.height - kSheet.y * unit_) / 2},
      right_{unit_, 0},
      down_{0, unit_} {}

Point Pen::map(Point p) const {
  return {origin_.x + p.x * right_.x + p.y * down_.x, origin_.y + p.x * right_.y + p.y * down_.y};
}

Pen Pen::at(float x, float y) const {
  Pen pen = *this;
  pen.origin_ = map({x, y});
  return pen;
}

Pen Pen::turned(float degrees) const {
  const float c = std::cos(radians(degrees)), s = std::sin(radians(degrees));
  Pen pen = *this;
  pen.right_ = {c * right_.x + s * down_.x, c * right_.y + s * down_.y};
  pen.down_ = {c * down_.x - s * right_.x, c * down_.y - s * right_.y};
  return pen;
}

Pen Pen::scaled(float across, float down) const {
  Pen pen = *this;
  pen.right_ = {right_.x * across, right_.y * across};
  pen.down_ = {down_.x * down, down_.y * down};
  return pen;
}

void Pen::fill(const Path& path, Color color) const {
  std::vector<ImVec2> points = placed(path, true, [&](Point p) { return map(p); });
  if (points.size() < 3) return;
  // ImGui wants them clockwise; a mirrored pen turns them round.
  float area = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const ImVec2 a = points[i], b = points[(i + 1) % points.size()];
    area += a.x * b.y - b.x * a.y;
  }
  if (area < 0) std::reverse(points.begin(), points.end());
  list_->AddConcavePolyFilled(points.data(), static_cast<int>(points.size()), color);
}

// ImGui's joins are pointed: break the line at its corners and put a disc on each, and on the ends.
void Pen::outline(const Path& path, bool closed, Color color, float pixels) const {
  std::vector<ImVec2> points = placed(path, closed, [&](Point p) { return map(p); });
  const auto knob = [&](ImVec2 p) { list_->AddCircleFilled(p, pixels / 2, color); };
  if (points.size() < 3) closed = false;
  if (closed) {
    points.push_back(points[0]);
    points.push_back(points[1]);
  } else {
    knob(points.front());
    if (points.size() < 2) return;
    knob(points.back());
  }
  std::size_t from = 0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const bool last = i + 1 == points.size();
    const bool corner = !last && is_corner(points[i - 1], points[i], points[i + 1]);
    if (corner) knob(points[i]);
    if (!corner && !last) continue;
    list_->AddPolyline(&points[from], static_cast<int>(i - from + 1), color, ImDrawFlags_None,
                       pixels);
    from = i;
  }
}

void Pen::stroke(const Path& path, Color color, float weight) const {
  outline(path, false, color, std::max(kThinnest, weight * unit_));
}

void Pen::shape(const Path& path, Color color) const {
  fill(path, color);
  outline(path, true, edge, std::max(kThinnest, kWeight * unit_));
}

void Pen::disc(float x, float y, float radius, Color color) const {
  fill(oval(x, y, radius, radius), color);
}

void Pen::blob(const std::vector<Limb>& limbs, Color color) const {
  const float scale = std::sqrt(std::abs(right_.x * down_.y - right_.y * down_.x));
  const float line = std::max(kThinnest, kWeight * unit_);
  for (const Limb& limb : limbs) outline(limb.path, false, edge, limb.width * scale + line);
  for (const Limb& limb : limbs)
    outline(limb.path, false, color, std::max(0.5f, limb.width * scale - line));
}

Color mixed(Color a, Color b, float share) {
  Color out = 0xFF000000u;
  for (const int shift : {0, 8, 16}) {
    const float from = channel(a, shift), to = channel(b, shift);
    out |= static_cast<Color>(std::lround(from + (to - from) * share)) << shift;
  }
  return out;
}

}  // namespace trowelbell
