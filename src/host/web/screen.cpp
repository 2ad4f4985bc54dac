#include "host/web/screen.h"

#include <GLES3/gl3.h>
#include <SDL.h>
#include <emscripten/html5.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>
#include <imgui_impl_sdl2.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cfloat>

#include "host/web/web_host.h"

namespace trowelbell {
namespace {

constexpr float kLongestStep =
    0.1f;  // after a rest, an animation starts; it does not jump to its end

int on_event(void* woken, SDL_Event*) {
  reinterpret_cast<void (*)()>(woken)();
  return 0;
}

ImFont* add_font(int face) {
  int size = 0;
  void* bytes = font_bytes(face, size);
  return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(bytes, size);
}

// Two faults of touch as SDL2 reports it: the row that was touched last stays highlighted, so the
// pointer leaves the screen with the last finger; and then SDL2 reports no motion for a second tap
// at the same point, so it is told here.
void pass_to_imgui(const SDL_Event& event) {
  ImGuiIO& io = ImGui::GetIO();
  if (event.type == SDL_MOUSEBUTTONDOWN && event.button.which == SDL_TOUCH_MOUSEID) {
    io.AddMousePosEvent(static_cast<float>(event.button.x), static_cast<float>(event.button.y));
  }
  ImGui_ImplSDL2_ProcessEvent(&event);
  if (event.type == SDL_FINGERUP && SDL_GetNumTouchFingers(event.tfinger.touchId) == 0) {
    io.AddMousePosEvent(-FLT_MAX, -FLT_MAX);
  }
}

// New letters lie close together: one rectangle around them all is handed over sooner than each.
void join_updates(ImTextureData& letters) {
  if (letters.Updates.Size < 2) return;
  letters.Updates.resize(1);
  letters.Updates[0] = letters.UpdateRect;
}

}  // namespace

bool Screen::open(void (*woken)()) {
  // Without this, SDL2 takes the keys of the page's own fields.
  SDL_SetHint(SDL_HINT_EMSCRIPTEN_KEYBOARD_ELEMENT, "#canvas");
  // Without this, polling posts an event of its own, and waking for it would never end.
  SDL_SetHint(SDL_HINT_POLL_SENTINEL, "0");
  if (SDL_Init(SDL_INIT_VIDEO) != 0) return false;
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_ES);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 0);
  SDL_GL_SetAttribute(SDL_GL_DEPTH_SIZE, 0);
  SDL_GL_SetAttribute(SDL_GL_STENCIL_SIZE, 0);
  window_ = SDL_CreateWindow("", SDL_WINDOWPOS_UNDEFINED, SDL_WINDOWPOS_UNDEFINED, 390, 844,
                             SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
  SDL_GLContext context = window_ == nullptr ? nullptr : SDL_GL_CreateContext(window_);
  if (context == nullptr) return false;

  IMGUI_CHECKVERSION();
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.LogFilename = nullptr;
  io.ConfigInputTextCursorBlink = false;  // a blink would draw for ever
  ImGui_ImplSDL2_InitForOpenGL(window_, context);
  ImGui_ImplOpenGL3_Init("#version 300 es");
  ImGui_ImplOpenGL3_CreateDeviceObjects();  // now, while the page waits for its files
  // Holds what the first screen writes: growing costs a copy, and so does room that is not used.
  io.Fonts->TexMinHeight = emscripten_get_device_pixel_ratio() > 2 ? 512 : 256;
  fonts_ = {add_font(0), add_font(1)};
  SDL_AddEventWatch(on_event, reinterpret_cast<void*>(woken));
  return true;
}

void Screen::measure(Viewport& viewport) const {
  int width = 0;
  int height = 0;
  SDL_GetWindowSize(window_, &width, &height);
  viewport.width = static_cast<float>(width);
  viewport.height = static_cast<float>(height);
}

void Screen::begin_frame() {
  SDL_Event event;
  while (SDL_PollEvent(&event) != 0) pass_to_imgui(event);
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplSDL2_NewFrame();
  ImGuiIO& io = ImGui::GetIO();
  io.DeltaTime = std::min(io.DeltaTime, kLongestStep);
  ImGui::NewFrame();
}

void Screen::end_frame(bool dark) {
  ImGui::Render();
  join_updates(*ImGui::GetIO().Fonts->TexData);
  if (dark) {
    glClearColor(0x1E / 255.0f, 0x1A / 255.0f, 0x16 / 255.0f, 1);
  } else {
    glClearColor(0xFB / 255.0f, 0xF6 / 255.0f, 0xEA / 255.0f, 1);
  }
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  SDL_GL_SwapWindow(window_);
}

void Screen::drop_frame() {
  ImGui::EndFrame();
}

void Screen::make_room() {
  ImFontAtlas& letters = *ImGui::GetIO().Fonts;
  ImFontAtlasTextureGrow(&letters);
  ImGui_ImplOpenGL3_UpdateTexture(letters.TexData);
}

bool Screen::input_waits() const {
  return ImGui::GetCurrentContext()->InputEventsQueue.Size > 0;
}

}  // namespace trowelbell
