// Every drawing content may name is there, and keeps to the place it is given.
#include <doctest/doctest.h>
#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <string>
#include <string_view>

#include "app/drawings/picture.h"

using namespace trowelbell;

namespace {

constexpr std::string_view kNames[] = {
    // steps
    "sign_in", "wave", "circle", "book", "seeds", "bag", "damp_cotton", "tuck_seeds", "close_bag",
    "hang_window", "wash_hands", "tidy", "handover", "goodbye",
    // story pages
    "bean_in_hand", "pot_soil", "sun", "rain", "moon", "night_window", "root", "sprout", "leaves",
    "garden", "snail", "watering_can", "waiting_child", "bell",
    // care cards
    "small_parts", "nose_ear", "raw_bean", "treated_seed", "allergy", "gloves", "plastic_bag",
    "soil_hands", "spill", "camera", "two_adults", "phone_help"};

constexpr Rect kPlaces[] = {
    {10, 20, 60, 40}, {0, 0, 200, 130}, {7, 300, 358, 130}, {40, 5, 90, 300}, {0, 0, 600, 300}};

// The edge of a shape fades out over half a pixel on either side.
constexpr float kFade = 1;

// A draw list of its own, without a window, fonts or a frame.
struct Canvas {
  Canvas() : list(&shared) {
    shared.InitialFlags = ImDrawListFlags_AntiAliasedLines | ImDrawListFlags_AntiAliasedFill;
    shared.SetCircleTessellationMaxError(0.3f);
    list._ResetForNewFrame();
    list.PushClipRect({-1000, -1000}, {2000, 2000});
  }
  // Around everything drawn; an unused list gives an inverted one.
  ImRect extent() const {
    ImRect around(1e9f, 1e9f, -1e9f, -1e9f);
    for (const ImDrawVert& vertex : list.VtxBuffer) around.Add(vertex.pos);
    return around;
  }
  ImDrawListSharedData shared;
  ImDrawList list;
};

}  // namespace

TEST_CASE("every drawing keeps inside its place and fills it well") {
  for (const std::string_view name : kNames) {
    CAPTURE(std::string(name));
    CHECK(has_picture(name));
    for (const Rect& place : kPlaces) {
      CAPTURE(place.width);
      CAPTURE(place.height);
      Canvas canvas;
      draw_picture(canvas.list, name, place, palette(false));
      REQUIRE(canvas.list.VtxBuffer.Size > 0);
      const ImRect around = canvas.extent();
      CHECK(around.Min.x >= place.x - kFade);
      CHECK(around.Min.y >= place.y - kFade);
      CHECK(around.Max.x <= place.right() + kFade);
      CHECK(around.Max.y <= place.bottom() + kFade);
      // As large as fits: the sheet is 200 by 130, and a drawing uses most of one side of it.
      const float unit = std::min(place.width / 200, place.height / 130);
      CHECK((around.GetHeight() > 0.75f * 130 * unit || around.GetWidth() > 0.75f * 200 * unit));
    }
  }
}

TEST_CASE("a drawing takes its colours from the palette") {
  for (const std::string_view name : kNames) {
    CAPTURE(std::string(name));
    Canvas light, dark;
    draw_picture(light.list, name, kPlaces[1], palette(false));
    draw_picture(dark.list, name, kPlaces[1], palette(true));
    REQUIRE(light.list.VtxBuffer.Size == dark.list.VtxBuffer.Size);
    int changed = 0;
    for (int i = 0; i < light.list.VtxBuffer.Size; ++i)
      changed += light.list.VtxBuffer[i].col != dark.list.VtxBuffer[i].col;
    CHECK(changed > light.list.VtxBuffer.Size / 2);
  }
}

TEST_CASE("an unknown drawing draws nothing") {
  for (const std::string_view name : {"", "Bean", "sun ", "no_such_drawing"}) {
    CAPTURE(std::string(name));
    CHECK_FALSE(has_picture(name));
    Canvas canvas;
    draw_picture(canvas.list, name, kPlaces[1], palette(false));
    CHECK(canvas.list.VtxBuffer.Size == 0);
  }
}

TEST_CASE("a place without room is no trouble") {
  for (const std::string_view name : kNames) {
    Canvas canvas;
    draw_picture(canvas.list, name, {5, 5, 0, 0}, palette(false));
    draw_picture(canvas.list, name, {5, 5, 1, 1}, palette(true));
    const ImRect around = canvas.extent();
    CHECK(around.GetWidth() < 40);
  }
}
