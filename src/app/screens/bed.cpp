// The bed at the top of Lesson.
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "app/screens/screens.h"

namespace trowelbell {
namespace {

constexpr float kWalkMs = 600;  // of the sprout, from one mound to the next
constexpr float kBellWidth = 34;

// A mound rising from `base`: its height grows with its width, up to the bed's.
void draw_mound(ImDrawList& list, float x, float width, float base, float height, Color color) {
  const float rise =
      std::min(height, 7 + width * 0.9f) * 1.33f;  // a cubic reaches three quarters of its handles
  list.PathLineTo({x, base});
  list.PathBezierCubicCurveTo({x + width * 0.12f, base - rise}, {x + width * 0.88f, base - rise},
                              {x + width, base});
  list.PathFillConvex(color);
}

float mound_height(float width, float height) {
  return std::min(height, 7 + width * 0.9f);
}

void draw_leaf_pair(ImDrawList& list, float x, float y, float size, Color color) {
  for (const float side : {-1.0f, 1.0f}) {
    list.PathLineTo({x, y});
    list.PathBezierQuadraticCurveTo({x + side * size * 0.7f, y - size * 0.9f},
                                    {x + side * size, y - size * 0.1f});
    list.PathBezierQuadraticCurveTo({x + side * size * 0.5f, y + size * 0.35f}, {x, y});
    list.PathFillConvex(color);
  }
}

void draw_bell(ImDrawList& list, float x, float base, const Palette& colors, bool late) {
  const float top = base - 26;
  list.PathLineTo({x - 13, base});
  list.PathBezierCubicCurveTo({x - 9, base - 6}, {x - 10, top}, {x, top});
  list.PathBezierCubicCurveTo({x + 10, top}, {x + 9, base - 6}, {x + 13, base});
  list.PathFillConvex(late ? colors.brick : colors.marigold_fill);
  list.PathLineTo({x - 13, base});
  list.PathBezierCubicCurveTo({x - 9, base - 6}, {x - 10, top}, {x, top});
  list.PathBezierCubicCurveTo({x + 10, top}, {x + 9, base - 6}, {x + 13, base});
  list.PathStroke(colors.ink, ImDrawFlags_Closed, 2.0f);
  list.AddCircleFilled({x, base + 3}, 4, colors.ink);
}

}  // namespace

void draw_bed(AppState& app, const VisitPace& pace, Rect strip) {
  Ui& ui = app.ui;
  const Palette& colors = ui.colors();
  ImDrawList& list = ui.draw();
  const VisitState& state = app.visit->state();
  const auto& steps = app.visit->lesson()->steps;
  const float base = strip.bottom() - 12;
  const float length = strip.width - kBellWidth - 6;

  // A step left out keeps a narrow bare mound, so that the bed tells what is missing.
  std::vector<float> width(steps.size());
  float total = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    width[i] = pace.steps[i].kept || pace.over[i]
                   ? std::max(18.0f, static_cast<float>(pace.steps[i].ms) / 1000.0f)
                   : 40;
    total += width[i];
  }
  std::vector<float> left(steps.size());
  float x = strip.x;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    width[i] *= length / total;
    left[i] = x;
    x += width[i];
  }
  const float most = strip.height - 50;
  list.AddRectFilled({strip.x - 2, base}, {strip.x + length + 2, base + 8}, colors.soil, 4);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const bool bare = !pace.steps[i].kept && !pace.over[i];
    draw_mound(list, left[i], width[i] - 1, base, bare ? most * 0.4f : most,
               bare ? colors.soil_bare : colors.soil);
    if (pace.over[i] && state.steps[i].entered) {
      draw_leaf_pair(list, left[i] + width[i] / 2, base - mound_height(width[i], most) + 1,
                     std::clamp(width[i] * 0.55f, 3.0f, 8.0f), colors.leaf);
    }
  }
  draw_bell(list, strip.right() - kBellWidth / 2 + 2, base, colors, pace.to_bell < 0);

  // The sprout walks from the mound it left to the one it is on.
  if (state.phase != Phase::before && state.step < steps.size()) {
    if (app.walked_to != state.step) {
      app.walked_from = app.walked_to;
      app.walked_to = state.step;
      app.walk_began = ui.now();
    }
    float t = ui.still()
                  ? 1.0f
                  : std::clamp(static_cast<float>(ui.now() - app.walk_began) / kWalkMs, 0.0f, 1.0f);
    if (t < 1) ui.animate();
    t = t * t * (3 - 2 * t);
    const auto centre = [&](std::size_t i) { return left[i] + width[i] / 2; };
    const float at =
        centre(app.walked_from) + (centre(app.walked_to) - centre(app.walked_from)) * t;
    const float ground = base - mound_height(width[state.step], most) + 2;
    const float hop = std::abs(std::sin(t * 9.42f)) * (1 - t) * 8;
    list.AddLine({at, ground}, {at, ground - 20 - hop}, colors.leaf, 4);
    draw_leaf_pair(list, at, ground - 19 - hop, 19, colors.leaf);
  }

  const std::size_t done =
      static_cast<std::size_t>(std::count(pace.over.begin(), pace.over.end(), true));
  Node node{.id = "lesson.bed", .role = Role::progress, .name = app.say("bed.name")};
  node.value =
      app.say("bed.value", {{"done", std::to_string(done)}, {"all", std::to_string(steps.size())}});
  node.fraction = steps.empty() ? 0 : static_cast<float>(done) / static_cast<float>(steps.size());
  ui.emit(node, strip);
}

}  // namespace trowelbell
