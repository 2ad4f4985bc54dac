// An independent reader of QR codes (ZBar), and what Dear ImGui drew of a code as pixels for it.
#pragma once

#include <imgui.h>
#include <zbar.h>

#include <algorithm>
#include <memory>
#include <string>
#include <vector>

namespace trowelbell {

struct GreyPicture {
  int width = 0, height = 0;
  std::vector<unsigned char> pixels;
  void fill(float left, float top, float right, float bottom, unsigned char grey) {
    for (int y = std::max(0, static_cast<int>(top));
         y < std::min<int>(height, static_cast<int>(bottom)); ++y)
      for (int x = std::max(0, static_cast<int>(left));
           x < std::min<int>(width, static_cast<int>(right)); ++x)
        pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
               static_cast<std::size_t>(x)] = grey;
  }
};

inline GreyPicture grey_picture(int width, int height, unsigned char grey) {
  return {width, height,
          std::vector<unsigned char>(
              static_cast<std::size_t>(width) * static_cast<std::size_t>(height), grey)};
}

// The texts of all QR codes in the picture.
inline std::vector<std::string> read_codes(const GreyPicture& picture) {
  const std::unique_ptr<zbar::zbar_image_scanner_t, void (*)(zbar::zbar_image_scanner_t*)> scanner(
      zbar::zbar_image_scanner_create(), zbar::zbar_image_scanner_destroy);
  zbar::zbar_image_scanner_set_config(scanner.get(), zbar::ZBAR_NONE, zbar::ZBAR_CFG_ENABLE, 0);
  zbar::zbar_image_scanner_set_config(scanner.get(), zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_ENABLE, 1);
  const std::unique_ptr<zbar::zbar_image_t, void (*)(zbar::zbar_image_t*)> image(
      zbar::zbar_image_create(), zbar::zbar_image_destroy);
  zbar::zbar_image_set_format(image.get(), zbar_fourcc('Y', '8', '0', '0'));
  zbar::zbar_image_set_size(image.get(), static_cast<unsigned>(picture.width),
                            static_cast<unsigned>(picture.height));
  zbar::zbar_image_set_data(image.get(), picture.pixels.data(), picture.pixels.size(), nullptr);
  zbar::zbar_scan_image(scanner.get(), image.get());
  std::vector<std::string> texts;
  for (const auto* symbol = zbar::zbar_image_first_symbol(image.get()); symbol != nullptr;
       symbol = zbar::zbar_symbol_next(symbol))
    texts.emplace_back(zbar::zbar_symbol_get_data(symbol),
                       zbar::zbar_symbol_get_data_length(symbol));
  return texts;
}

// The black and white rectangles of the last frame, as the screen shows them at `density`; all else
// is grey.
inline GreyPicture drawn_code(float width, float height, float density) {
  GreyPicture picture =
      grey_picture(static_cast<int>(width * density), static_cast<int>(height * density), 128);
  for (const ImDrawList* list : ImGui::GetDrawData()->CmdLists) {
    const auto& vertices = list->VtxBuffer;
    for (int i = 0; i + 3 < vertices.Size; ++i) {
      const ImDrawVert &a = vertices[i], &b = vertices[i + 1], &c = vertices[i + 2];
      const bool plain = a.col == IM_COL32_BLACK || a.col == IM_COL32_WHITE;
      const bool square = a.col == c.col && a.uv.x == c.uv.x && a.pos.y == b.pos.y &&
                          b.pos.x == c.pos.x && a.pos.x < c.pos.x && a.pos.y < c.pos.y;
      if (!plain || !square) continue;
      picture.fill(a.pos.x * density + 0.5f, a.pos.y * density + 0.5f, c.pos.x * density + 0.5f,
                   c.pos.y * density + 0.5f, a.col == IM_COL32_BLACK ? 0 : 255);
      i += 3;
    }
  }
  return picture;
}

}  // namespace trowelbell
