// How many seeds a child needs: the binomial, with seeds that sprout or fail each on its own. Damp,
// cold and mould strike a whole bag at once, so all of this is the hopeful side
// (content/METHODS.md, "Seeds per child").
#pragma once

#include <cstdint>
#include <optional>
#include <span>

namespace trowelbell {

// Seeds of one kind in one child's bag.
struct SeedLot {
  double rate = 0;         // chance that one seed sprouts, 0..1
  std::int64_t seeds = 0;  // >= 0
};

inline constexpr std::int64_t kMostSeeds = 50;
inline constexpr std::int64_t kMostSparePots = 60;

// That a bag with these seeds shows at least one sprout.
double chance_of_sprout(std::span<const SeedLot> bag);
// That it shows at least one of every kind in it.
double chance_of_every_kind(std::span<const SeedLot> bag);
// That each of `bags` bags shows at least one sprout.
double chance_in_every_bag(std::span<const SeedLot> bag, std::int64_t bags);
// That at least `needed` of `bags` bags do.
double chance_in_enough_bags(std::span<const SeedLot> bag, std::int64_t needed, std::int64_t bags);
// That more than `k` of `bags` bags stay without; k >= 0.
double chance_of_more_without(std::span<const SeedLot> bag, std::int64_t k, std::int64_t bags);
// How many of `bags` bags stay without, on average.
double expected_without(std::span<const SeedLot> bag, std::int64_t bags);

// The least seeds of one kind a child so that all of `children` have a sprout with a chance of at
// least `assurance` (0..1); nothing if kMostSeeds are not enough.
std::optional<std::int64_t> least_seeds(double rate, std::int64_t children, double assurance);
// The least spare bags, started like the others, so that with them every child has one with a
// sprout with a chance of at least `assurance`; nothing if kMostSparePots are not enough.
std::optional<std::int64_t> least_spares(std::span<const SeedLot> bag, std::int64_t children,
                                         double assurance);

}  // namespace trowelbell
