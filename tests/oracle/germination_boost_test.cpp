// Seeds per child against Boost.Math's binomial distribution, over a grid and seeded random bags.
#include <doctest/doctest.h>

#include <boost/math/distributions/binomial.hpp>
#include <cmath>
#include <random>
#include <vector>

#include "core/germination.h"

using namespace trowelbell;
using boost::math::binomial_distribution;
using boost::math::cdf;
using boost::math::complement;

namespace {

// P(at least `least` successes of `tries`).
double at_least(std::int64_t tries, double chance, std::int64_t least) {
  if (least <= 0) return 1;
  return cdf(complement(binomial_distribution<double>(static_cast<double>(tries), chance),
                        static_cast<double>(least - 1)));
}

bool near(double left, double right) {
  return std::abs(left - right) < 1e-11;
}

}  // namespace

TEST_CASE("one kind of seed: at least one sprout, and in every bag") {
  for (int percent = 5; percent <= 100; percent += 5) {
    const double rate = percent / 100.0;
    for (std::int64_t seeds = 1; seeds <= 12; ++seeds) {
      const SeedLot lot{rate, seeds};
      const std::span<const SeedLot> bag(&lot, 1);
      const double one = at_least(seeds, rate, 1);
      CHECK(near(chance_of_sprout(bag), one));
      CHECK(near(chance_of_every_kind(bag), one));
      for (const std::int64_t children : {1, 24, 60}) {
        CHECK(near(chance_in_every_bag(bag, children), at_least(children, one, children)));
        for (const std::int64_t k : {0, 1, 2, 30}) {
          CHECK(near(chance_of_more_without(bag, k, children),
                     k < children ? at_least(children, 1 - one, k + 1) : 0));
        }
      }
    }
  }
}

TEST_CASE("mixed bags, and spare bags that may fail like any other") {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> rates(0.05, 0.99);
  std::uniform_int_distribution<std::int64_t> counts(0, 4);
  std::uniform_int_distribution<std::int64_t> classes(1, 60);
  std::uniform_int_distribution<std::int64_t> extras(0, 20);
  for (int round = 0; round < 2'000; ++round) {
    std::vector<SeedLot> bag(static_cast<std::size_t>(1 + round % 4));
    double none = 1;
    for (SeedLot& lot : bag) {
      lot = {rates(random), counts(random)};
      none *= 1 - at_least(lot.seeds, lot.rate, 1) * (lot.seeds > 0 ? 1 : 0);
    }
    const std::int64_t children = classes(random);
    const std::int64_t bags = children + extras(random);
    REQUIRE(near(chance_of_sprout(bag), 1 - none));
    REQUIRE(near(chance_in_enough_bags(bag, children, bags), at_least(bags, 1 - none, children)));
    REQUIRE(near(expected_without(bag, bags),
                 static_cast<double>(bags) -
                     mean(binomial_distribution<double>(static_cast<double>(bags), 1 - none))));
  }
}

TEST_CASE("the least seeds and spares are the least") {
  for (int percent = 30; percent <= 95; percent += 5) {
    const double rate = percent / 100.0;
    for (const std::int64_t children : {1, 12, 24, 60}) {
      for (const double assurance : {0.5, 0.9, 0.95, 0.99}) {
        const auto seeds = least_seeds(rate, children, assurance);
        REQUIRE(seeds);
        const auto all = [&](std::int64_t count) {
          return at_least(children, at_least(count, rate, 1), children);
        };
        CHECK(all(*seeds) >= assurance);
        if (*seeds > 1) CHECK(all(*seeds - 1) < assurance);

        const SeedLot lot{rate, 2};
        const auto spares = least_spares(std::span(&lot, 1), children, assurance);
        const double one = at_least(2, rate, 1);
        const auto enough = [&](std::int64_t extra) {
          return at_least(children + extra, one, children);
        };
        if (!spares) {
          CHECK(enough(kMostSparePots) < assurance);
          continue;
        }
        CHECK(enough(*spares) >= assurance);
        if (*spares > 0) CHECK(enough(*spares - 1) < assurance);
      }
    }
  }
}
