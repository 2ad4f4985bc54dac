// Dear ImGui's SDL2 backend asks for gamepads; the page has none. These answer for the part of SDL2
// that is left out of the build.
#include <SDL.h>

int SDL_NumJoysticks(void) {
  return 0;
}
SDL_bool SDL_IsGameController(int index) {
  (void)index;
  return SDL_FALSE;
}
SDL_GameController* SDL_GameControllerOpen(int index) {
  (void)index;
  return NULL;
}
void SDL_GameControllerClose(SDL_GameController* pad) {
  (void)pad;
}
Uint8 SDL_GameControllerGetButton(SDL_GameController* pad, SDL_GameControllerButton button) {
  (void)pad;
  (void)button;
  return 0;
}
Sint16 SDL_GameControllerGetAxis(SDL_GameController* pad, SDL_GameControllerAxis axis) {
  (void)pad;
  (void)axis;
  return 0;
}
