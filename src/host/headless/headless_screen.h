// A phone's screen without a GPU: Dear ImGui draws for real, nothing is shown, and fingers go
// through its input queue.
//
//   MemoryStore store;
//   HeadlessHost host(TROWELBELL_CONTENT_DIR, store);
//   HeadlessScreen screen(host, TROWELBELL_FONT_DIR);
//   App app(host);
//   host.listen(&app);
//   app.open("");
//   screen.pump(app);
//   REQUIRE(screen.tap(app, screen.find(Role::button, "Next")));
//
// Clocks stand still unless the test moves them (HeadlessHost::pass); an animation sees 60 frames a
// second.
#pragma once

#include <optional>

#include "app/app.h"
#include "host/headless/headless_host.h"

struct ImGuiContext;

namespace trowelbell {

class HeadlessScreen {
 public:
  // `fonts`: build/fonts, made by wasm/build.sh. Width and height in CSS pixels.
  HeadlessScreen(HeadlessHost& host, const std::filesystem::path& fonts, float width = 390,
                 float height = 844);
  ~HeadlessScreen();
  HeadlessScreen(const HeadlessScreen&) = delete;
  HeadlessScreen& operator=(const HeadlessScreen&) = delete;

  Viewport viewport;

  // Draws frames, each after the answers that wait have been delivered. What the last App::frame
  // returned.
  std::int64_t pump(App& app, int frames = 3);

  // Nodes of the last frame. A name matches as a whole; nothing where there is none.
  std::optional<Node> find(Role role, std::string_view name) const;
  std::optional<Node> find_id(std::string_view id) const;

  // A finger down and up in the middle of the node, after scrolling it into view. False: no such
  // node, disabled, or its middle is outside the screen.
  bool tap(App& app, const std::optional<Node>& node);
  bool tap(App& app, std::string_view id) { return tap(app, find_id(id)); }
  // The whole text of a field becomes `text`.
  bool type(App& app, const std::optional<Node>& node, std::string_view text);
  // A finger moves from one point to another in `frames` frames.
  void drag(App& app, float from_x, float from_y, float to_x, float to_y, int frames = 10);

 private:
  void touch(float x, float y, bool down);
  void lift();
  HeadlessHost& host_;
  ImGuiContext* context_;
  Fonts fonts_;
};

}  // namespace trowelbell
