// The app: owns what is open, draws the screens, turns taps into journal events. Knows the core and
// the host, no platform.
#pragma once

#include <memory>

#include "host/host.h"

struct ImFont;

namespace trowelbell {

struct Fonts {
  ImFont* regular = nullptr;
  ImFont* bold = nullptr;
};

// The part of the page the app may draw on, CSS pixels; `bottom_covered` is what a soft keyboard
// hides.
struct Viewport {
  float width = 390;
  float height = 844;
  float inset_top = 0, inset_right = 0, inset_bottom = 0, inset_left = 0;
  float bottom_covered = 0;
};

struct AppState;

class App final : public HostListener {
 public:
  explicit App(Host& host);
  ~App() override;

  // Starts loading the app's files and what the phone has stored. `fragment`: the page's, "" or
  // "#b=...".
  void open(std::string_view fragment);
  // A link opened while the app runs.
  void open_link(std::string_view fragment);

  // Draws one frame between ImGui::NewFrame and ImGui::Render. Returns in how many ms the next
  // frame is due by itself (0: at once, an animation): when the minute turns, or a time on screen
  // reads differently.
  std::int64_t frame(const Viewport& viewport, const Fonts& fonts);

  // From the mirror: a click or key on a node, focus coming to it or leaving ("" for none), text
  // typed in its field.
  void activate(std::string_view node);
  void focus(std::string_view node);
  void type(std::string_view node, std::string_view text);

  void back();               // the back gesture
  void shown(bool visible);  // the page came to the front or went away
  void online();             // the network is back
  void phone_changed();      // its language, colors or motion, of which it prefers another

  std::span<const Node> nodes() const;
  // Words that did not fit their place in the last frame.
  const std::vector<std::string>& spilled() const;

  void stream_opened(std::string_view stream, std::vector<std::string> records,
                     StreamHealth health) override;
  void writes_here(bool here) override;
  void appended(std::int64_t token, bool ok) override;
  void names_opened(std::string text) override;
  void storage_told(StorageUse use) override;
  void fetched(std::string_view path, bool ok, std::string text) override;
  void sent(const SendResult& result) override;
  void file_opened(std::string text) override;

 private:
  std::unique_ptr<AppState> state_;
};

}  // namespace trowelbell
