// What the page never uses of SDL2 is left out of its build (CMakeLists.txt): gestures, and drawing
// by copying pixels. For the parts that stay, these answer that there is none.
#include <SDL.h>

#include "events/SDL_gesture_c.h"
#include "render/SDL_sysrender.h"
#include "video/SDL_sysvideo.h"
#include "video/emscripten/SDL_emscriptenframebuffer.h"

// Gestures of several fingers: touch passes each finger on to them.
int SDL_GestureAddTouch(SDL_TouchID touch) {
  return 0;
}
int SDL_GestureDelTouch(SDL_TouchID touch) {
  return 0;
}
void SDL_GestureProcessEvent(SDL_Event* event) {}
void SDL_GestureQuit(void) {}

// Pixels: a window may have a renderer or an image of its own, a cursor a picture.
SDL_Renderer* SDL_GetRenderer(SDL_Window* window) {
  return NULL;
}
int SDL_GetRendererOutputSize(SDL_Renderer* renderer, int* width, int* height) {
  return SDL_Unsupported();
}
void SDL_DestroyRendererWithoutFreeing(SDL_Renderer* renderer) {}
SDL_Surface* SDL_CreateRGBSurface(Uint32 flags, int width, int height, int depth, Uint32 red,
                                  Uint32 green, Uint32 blue, Uint32 alpha) {
  return NULL;
}
void SDL_FreeSurface(SDL_Surface* surface) {}
SDL_Surface* SDL_ConvertSurfaceFormat(SDL_Surface* surface, Uint32 format, Uint32 flags) {
  return NULL;
}
int Emscripten_CreateWindowFramebuffer(_THIS, SDL_Window* window, Uint32* format, void** pixels,
                                       int* pitch) {
  return SDL_Unsupported();
}
int Emscripten_UpdateWindowFramebuffer(_THIS, SDL_Window* window, const SDL_Rect* rectangles,
                                       int count) {
  return SDL_Unsupported();
}
void Emscripten_DestroyWindowFramebuffer(_THIS, SDL_Window* window) {}
