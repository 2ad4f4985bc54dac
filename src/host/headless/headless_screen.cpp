#include "host/headless/headless_screen.h"

#include <imgui.h>

#include <cfloat>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iterator>

namespace trowelbell {
namespace {

ImFont* load_font(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  if (bytes.empty()) {
    std::fprintf(stderr, "%s is missing or empty. Run: bash wasm/build.sh\n", path.c_str());
    std::abort();  // no test of a screen means anything without its text
  }
  void* owned = ImGui::MemAlloc(bytes.size());  // the atlas frees it
  std::memcpy(owned, bytes.data(), bytes.size());
  return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(owned, static_cast<int>(bytes.size()));
}

// What a GPU backend would do with the font atlas: say yes.
void accept_textures() {
  for (ImTextureData* texture : ImGui::GetPlatformIO().Textures) {
    switch (texture->Status) {
      case ImTextureStatus_WantCreate:
        texture->SetTexID(1);
        texture->SetStatus(ImTextureStatus_OK);
        break;
      case ImTextureStatus_WantUpdates:
        texture->SetStatus(ImTextureStatus_OK);
        break;
      case ImTextureStatus_WantDestroy:
        texture->SetTexID(ImTextureID_Invalid);
        texture->SetStatus(ImTextureStatus_Destroyed);
        break;
      default:
        break;
    }
  }
}

}  // namespace

HeadlessScreen::HeadlessScreen(HeadlessHost& host, const std::filesystem::path& fonts, float width,
                               float height)
    : host_(host), context_(ImGui::CreateContext()) {
  ImGui::SetCurrentContext(context_);
  viewport.width = width;
  viewport.height = height;
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.LogFilename = nullptr;
  io.BackendFlags |= ImGuiBackendFlags_RendererHasTextures;
  io.DisplayFramebufferScale = {2, 2};
  fonts_ = {load_font(fonts / "trowelbell-text-regular.ttf"),
            load_font(fonts / "trowelbell-text-bold.ttf")};
}

HeadlessScreen::~HeadlessScreen() {
  ImGui::SetCurrentContext(context_);
  for (ImTextureData* texture : ImGui::GetPlatformIO().Textures) {
    texture->SetTexID(ImTextureID_Invalid);
    texture->SetStatus(ImTextureStatus_Destroyed);
  }
  ImGui::DestroyContext(context_);
}

std::int64_t HeadlessScreen::pump(App& app, int frames) {
  ImGui::SetCurrentContext(context_);
  std::int64_t due = -1;
  for (int i = 0; i < frames; ++i) {
    host_.deliver();
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = {viewport.width, viewport.height};
    io.DeltaTime = 1.0f / 60;
    ImGui::NewFrame();
    due = app.frame(viewport, fonts_);
    ImGui::Render();
    accept_textures();
  }
  return due;
}

std::optional<Node> HeadlessScreen::find(Role role, std::string_view name) const {
  for (const Node& node : host_.nodes) {
    if (node.role == role && node.name == name) return node;
  }
  return std::nullopt;
}

std::optional<Node> HeadlessScreen::find_id(std::string_view id) const {
  for (const Node& node : host_.nodes) {
    if (node.id == id) return node;
  }
  return std::nullopt;
}

bool HeadlessScreen::tap(App& app, const std::optional<Node>& node) {
  if (!node) return false;
  app.focus(node->id);
  pump(app);
  app.focus("");
  const auto seen = find_id(node->id);
  if (!seen || seen->disabled) return false;
  const float x = seen->x + seen->width / 2;
  const float y = seen->y + seen->height / 2;
  if (x < 0 || y < 0 || x >= viewport.width || y >= viewport.height) return false;
  touch(x, y, false);
  pump(app, 1);
  touch(x, y, true);
  pump(app, 2);
  touch(x, y, false);
  pump(app, 2);
  lift();
  pump(app);
  return true;
}

bool HeadlessScreen::type(App& app, const std::optional<Node>& node, std::string_view text) {
  if (!node || node->role != Role::textbox || node->disabled) return false;
  app.focus(node->id);
  pump(app);
  app.type(node->id, text);
  pump(app);
  app.focus("");
  pump(app);
  return true;
}

void HeadlessScreen::drag(App& app, float from_x, float from_y, float to_x, float to_y,
                          int frames) {
  touch(from_x, from_y, false);
  pump(app, 1);
  touch(from_x, from_y, true);
  pump(app, 2);
  for (int i = 1; i <= frames; ++i) {
    const float part = static_cast<float>(i) / static_cast<float>(frames);
    touch(from_x + (to_x - from_x) * part, from_y + (to_y - from_y) * part, true);
    pump(app, 1);
  }
  touch(to_x, to_y, false);
  pump(app, 2);
  lift();
  pump(app);
}

void HeadlessScreen::touch(float x, float y, bool down) {
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.AddMouseSourceEvent(ImGuiMouseSource_TouchScreen);
  io.AddMousePosEvent(x, y);
  if (io.MouseDown[0] != down) io.AddMouseButtonEvent(0, down);
}

void HeadlessScreen::lift() {
  ImGui::SetCurrentContext(context_);
  ImGui::GetIO().AddMousePosEvent(-FLT_MAX, -FLT_MAX);
}

}  // namespace trowelbell
