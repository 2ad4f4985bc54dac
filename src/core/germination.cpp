#include "germination.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace trowelbell {
namespace {

double power(double base, std::int64_t exponent) {
  return std::pow(base, static_cast<double>(exponent));
}

double chance_of_none(std::span<const SeedLot> bag) {
  double chance = 1;
  for (const SeedLot& lot : bag) chance *= power(1 - lot.rate, lot.seeds);
  return chance;
}

}  // namespace

double chance_of_sprout(std::span<const SeedLot> bag) {
  return 1 - chance_of_none(bag);
}

double chance_of_every_kind(std::span<const SeedLot> bag) {
  double chance = 1;
  for (const SeedLot& lot : bag) chance *= 1 - power(1 - lot.rate, lot.seeds);
  return chance;
}

double chance_in_every_bag(std::span<const SeedLot> bag, std::int64_t bags) {
  return power(chance_of_sprout(bag), bags);
}

double chance_in_enough_bags(std::span<const SeedLot> bag, std::int64_t needed, std::int64_t bags) {
  if (needed <= 0) return 1;
  if (needed > bags) return 0;
  // Bag by bag, the chance of each number of failures that can still be borne: no factorials to
  // overflow.
  const double failing = chance_of_none(bag);
  std::vector<double> failures(static_cast<std::size_t>(bags - needed) + 1, 0.0);
  failures[0] = 1;
  for (std::int64_t done = 0; done < bags; ++done) {
    for (std::size_t count = failures.size() - 1; count > 0; --count) {
      failures[count] = failures[count] * (1 - failing) + failures[count - 1] * failing;
    }
    failures[0] *= 1 - failing;
  }
  double chance = 0;
  for (const double share : failures) chance += share;
  return std::min(1.0, chance);
}

double chance_of_more_without(std::span<const SeedLot> bag, std::int64_t k, std::int64_t bags) {
  return k >= bags ? 0 : std::max(0.0, 1 - chance_in_enough_bags(bag, bags - k, bags));
}

double expected_without(std::span<const SeedLot> bag, std::int64_t bags) {
  return chance_of_none(bag) * static_cast<double>(bags);
}

std::optional<std::int64_t> least_seeds(double rate, std::int64_t children, double assurance) {
  for (std::int64_t seeds = 1; seeds <= kMostSeeds; ++seeds) {
    const SeedLot lot{rate, seeds};
    if (chance_in_every_bag(std::span(&lot, 1), children) >= assurance) return seeds;
  }
  return std::nullopt;
}

std::optional<std::int64_t> least_spares(std::span<const SeedLot> bag, std::int64_t children,
                                         double assurance) {
  for (std::int64_t spares = 0; spares <= kMostSparePots; ++spares) {
    if (chance_in_enough_bags(bag, children, children + spares) >= assurance) return spares;
  }
  return std::nullopt;
}

}  // namespace trowelbell
