// The canvas: an SDL2 window that OpenGL ES 3 draws on, Dear ImGui set up for fingers, and its
// fonts.
#pragma once

#include "app/app.h"

struct SDL_Window;

namespace trowelbell {

class Screen {
 public:
  // The window covers the canvas. False: the browser has no WebGL 2. `woken` is called for every
  // event that comes in.
  bool open(void (*woken)());

  Fonts fonts() const { return fonts_; }
  // In CSS pixels; fills in width and height.
  void measure(Viewport& viewport) const;

  void begin_frame();
  // `dark`: which ground to clear with.
  void end_frame(bool dark);
  // In place of end_frame: the frame only took input.
  void drop_frame();
  // For the letters of later screens, between frames: the frame that runs out of room takes four
  // times as long as others.
  void make_room();
  // Input that Dear ImGui holds back for a later frame.
  bool input_waits() const;

 private:
  SDL_Window* window_ = nullptr;
  Fonts fonts_;
};

}  // namespace trowelbell
