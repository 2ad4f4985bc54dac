// The smallest page that Dear ImGui and SDL2 make: one window with a line of text, a button and a
// field, drawn as often as the browser asks. What the app's size and speed are measured against.
#include <GLES3/gl3.h>
#include <SDL.h>
#include <emscripten.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>
#include <imgui_impl_sdl2.h>

EM_JS(int, js_font_bytes, (), { return Module['font'].length; });
EM_JS(void, js_copy_font, (void* into), { HEAPU8.set(Module['font'], into); });
EM_JS(void, js_drawn, (), { Module['drawn'](); });

namespace {

SDL_Window* window = nullptr;

void frame() {
  SDL_Event event;
  while (SDL_PollEvent(&event) != 0) ImGui_ImplSDL2_ProcessEvent(&event);
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplSDL2_NewFrame();
  ImGui::NewFrame();
  static int taps = 0;
  static char text[64] = "";
  ImGui::Begin("Hello");
  ImGui::Text("%d taps", taps);
  if (ImGui::Button("Tap")) ++taps;
  ImGui::InputText("Text", text, sizeof text);
  ImGui::End();
  ImGui::Render();
  int width = 0;
  int height = 0;
  SDL_GL_GetDrawableSize(window, &width, &height);
  glViewport(0, 0, width, height);
  glClearColor(1, 1, 1, 1);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  SDL_GL_SwapWindow(window);
  js_drawn();
}

}  // namespace

int main() {
  if (SDL_Init(SDL_INIT_VIDEO) != 0) return 1;
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_ES);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_DEPTH_SIZE, 0);
  SDL_GL_SetAttribute(SDL_GL_STENCIL_SIZE, 0);
  window = SDL_CreateWindow("", SDL_WINDOWPOS_UNDEFINED, SDL_WINDOWPOS_UNDEFINED, 390, 844,
                            SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
  SDL_GLContext context = SDL_GL_CreateContext(window);
  ImGui::CreateContext();
  ImGui::GetIO().IniFilename = nullptr;
  ImGui_ImplSDL2_InitForOpenGL(window, context);
  ImGui_ImplOpenGL3_Init("#version 300 es");
  const int bytes = js_font_bytes();
  void* font = ImGui::MemAlloc(static_cast<std::size_t>(bytes));
  js_copy_font(font);
  ImGui::GetIO().Fonts->AddFontFromMemoryTTF(font, bytes);
  emscripten_set_main_loop(frame, 0, 0);
  return 0;
}
