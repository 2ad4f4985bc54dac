// When the page draws: three frames after anything that happened, one when the app's next moment
// comes, none otherwise and none while the page is hidden. At rest no animation frame is pending
// and at most one timer.
#pragma once

#include <cstdint>

namespace trowelbell {

class FramePacing {
 public:
  // How the page is asked for one frame soon, and for one call of `timer` after some ms (which
  // replaces the one asked for before; -1 only takes that back).
  struct Page {
    void (*request_frame)();
    void (*set_timer)(std::int64_t ms);
  };
  explicit FramePacing(Page page) : page_(page) {}

  // Something happened. Dear ImGui needs up to three frames to settle after it.
  void wake() {
    frames_left_ = kFramesAfterAnEvent;
    ask();
  }

  // Something will change in `ms` (0: at once), or -1: nothing will.
  void wake_after(std::int64_t ms) {
    if (frames_left_ > 0 || ms == 0) {
      frames_left_ = frames_left_ > 0 ? frames_left_ : 1;
      ask();
    } else if (!hidden_) {
      page_.set_timer(ms);
    }
  }

  // The timer has run out: one frame, for what changes by itself needs no settling.
  void timer() {
    if (frames_left_ == 0) frames_left_ = 1;
    ask();
  }

  // The frame that was asked for begins. False: not now, the page is hidden.
  bool begin_frame() {
    asked_ = false;
    if (hidden_) return false;
    if (frames_left_ > 0) --frames_left_;
    return true;
  }

  bool hidden() const { return hidden_; }

  void shown(bool visible) {
    hidden_ = !visible;
    if (visible) {
      wake();
    } else {
      page_.set_timer(-1);
    }
  }

 private:
  static constexpr int kFramesAfterAnEvent = 3;

  void ask() {
    if (asked_ || hidden_) return;
    asked_ = true;
    page_.request_frame();
  }

  Page page_;
  int frames_left_ = 0;
  bool asked_ = false;  // a frame is on its way
  bool hidden_ = false;
};

}  // namespace trowelbell
