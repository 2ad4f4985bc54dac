#include "app/widgets/theme.h"

#include <cstddef>

namespace trowelbell {
namespace {

// "0xRRGGBB" as designers write it, opaque, in ImGui's byte order.
constexpr Color rgb(std::uint32_t hex) {
  return 0xFF000000u | ((hex & 0xFFu) << 16) | (hex & 0xFF00u) | (hex >> 16);
}

constexpr Palette kLight = {.ground = rgb(0xFBF6EA),
                            .card = rgb(0xFFFDF6),
                            .ink = rgb(0x3B2A1E),
                            .ink_soft = rgb(0x6B5847),
                            .line = rgb(0x8C7A64),
                            .leaf = rgb(0x2F6B3A),
                            .on_leaf = rgb(0xFFFFFF),
                            .marigold = rgb(0xB8730A),
                            .marigold_fill = rgb(0xF4C24D),
                            .brick = rgb(0xA03A2C),
                            .on_brick = rgb(0xFFFFFF),
                            .water = rgb(0x24627F),
                            .soil = rgb(0x7A5A41),
                            .soil_bare = rgb(0xB9A58C)};

constexpr Palette kDark = {.ground = rgb(0x1E1A16),
                           .card = rgb(0x2A241E),
                           .ink = rgb(0xF5ECDC),
                           .ink_soft = rgb(0xCDBFA9),
                           .line = rgb(0x8A7B68),
                           .leaf = rgb(0x8FCF94),
                           .on_leaf = rgb(0x14210F),
                           .marigold = rgb(0xF2B84B),
                           .marigold_fill = rgb(0x8A6210),
                           .brick = rgb(0xF2907C),
                           .on_brick = rgb(0x2B0F0A),
                           .water = rgb(0x8CC4DE),
                           .soil = rgb(0xA9815F),
                           .soil_bare = rgb(0x6E5C49)};

}  // namespace

const Palette& palette(bool dark) {
  return dark ? kDark : kLight;
}

float type_size(Type type) {
  constexpr float kSizes[] = {13, 15, 18, 23, 18, 21, 28, 32, 60};
  return kSizes[static_cast<std::size_t>(type)];
}

bool type_bold(Type type) {
  return type >= Type::strong;
}

Color faded(Color color, float alpha) {
  const auto a = static_cast<Color>(static_cast<float>(color >> 24) * alpha);
  return (color & 0x00FFFFFFu) | (a << 24);
}

}  // namespace trowelbell
