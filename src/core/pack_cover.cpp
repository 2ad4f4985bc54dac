#include "pack_cover.h"

#include <algorithm>

namespace trowelbell {
namespace {

// Least price for each piece; of equals the larger.
std::size_t best_value(std::span<const Pack> packs) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < packs.size(); ++i) {
    const std::int64_t here = packs[i].price_cents * packs[best].size;
    const std::int64_t there = packs[best].price_cents * packs[i].size;
    if (here < there || (here == there && packs[i].size > packs[best].size)) best = i;
  }
  return best;
}

}  // namespace

std::vector<std::int64_t> cheapest_packs(std::span<const Pack> packs, std::int64_t pieces) {
  std::vector<std::int64_t> counts(packs.size());
  const std::size_t best = best_value(packs);
  const std::int64_t size = packs[best].size;
  if (packs.size() == 1) {
    counts[0] = (pieces + size - 1) / size;
    return counts;
  }
  // Among any `size` packs of the other kinds some hold together a multiple of `size`, and packs of
  // the best value hold that for no more money. So fewer than `size` others are ever needed, and
  // all but this many pieces come in packs of the best value.
  std::int64_t largest = 0;
  for (const Pack& pack : packs) largest = std::max(largest, pack.size);
  const std::int64_t open = size * largest;
  counts[best] = std::max<std::int64_t>(0, (pieces - open) / size);
  const auto rest = static_cast<std::size_t>(pieces - counts[best] * size);
  // Least price of at least n pieces, and the pack to take first for it.
  std::vector<std::int64_t> price(rest + 1);
  std::vector<std::uint8_t> take(rest + 1);
  const auto without = [&](std::size_t n, std::size_t pack) {
    const auto held = static_cast<std::size_t>(packs[pack].size);
    return n > held ? n - held : 0;
  };
  for (std::size_t n = 1; n <= rest; ++n) {
    for (std::size_t pack = 0; pack < packs.size(); ++pack) {
      const std::int64_t total = packs[pack].price_cents + price[without(n, pack)];
      if (pack == 0 || total < price[n]) {
        price[n] = total;
        take[n] = static_cast<std::uint8_t>(pack);
      }
    }
  }
  for (std::size_t n = rest; n > 0; n = without(n, take[n])) ++counts[take[n]];
  return counts;
}

}  // namespace trowelbell
