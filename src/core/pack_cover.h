// Which packs to buy where an item comes in several sizes: a small integer problem, solved exactly.
#pragma once

#include <span>

#include "lesson.h"

namespace trowelbell {

// Where there is a choice of sizes, none is larger: the search grows with the square of it.
inline constexpr std::int64_t kLargestPackOfSeveral = 1000;

// How many of each of `packs` (one, or several that all have a price and at most that size) hold at
// least `pieces` (0..10^9) at the least price together. Of several such choices always the same.
std::vector<std::int64_t> cheapest_packs(std::span<const Pack> packs, std::int64_t pieces);

}  // namespace trowelbell
