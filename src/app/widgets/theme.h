// The almanac look: two palettes, the type scale, and the few measures every screen shares.
#pragma once

#include <cstdint>

namespace trowelbell {

// 0xAABBGGRR, as Dear ImGui packs a colour.
using Color = std::uint32_t;

struct Palette {
  Color ground, card, ink, ink_soft, line;
  Color leaf, on_leaf;            // go, done
  Color marigold, marigold_fill;  // time; the fill carries `ink` text
  Color brick, on_brick;          // care
  Color water, soil, soil_bare;   // drawings and the bed
};

const Palette& palette(bool dark);

// Sizes in CSS pixels at text scale 1.
// `reading`: a story's page, large but not bold. From `strong` on they are bold.
// `big` and `huge` are read at arm's length.
enum class Type { tiny, small, body, reading, strong, large, title, big, huge };
float type_size(Type type);
bool type_bold(Type type);

// Between words and edges; the least side of anything that can be tapped.
inline constexpr float kMargin = 16;
inline constexpr float kGap = 10;
inline constexpr float kTarget = 48;
inline constexpr float kRound = 16;

// `color` with its alpha multiplied, 0..1.
Color faded(Color color, float alpha);

}  // namespace trowelbell
