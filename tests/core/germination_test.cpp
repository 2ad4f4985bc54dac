// Rates: 7 CFR 201.31 (garden bean 70 %, pea 80 %). The planning figures are worked from them by
// hand; tests/oracle/germination_boost_test.cpp checks the same functions against Boost.Math.
#include "core/germination.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

using namespace trowelbell;
using doctest::Approx;

namespace {

constexpr double kBean = 0.70;
constexpr double kPea = 0.80;

double one_kind(double rate, std::int64_t seeds) {
  const SeedLot lot{rate, seeds};
  return chance_of_sprout(std::span(&lot, 1));
}

double every_child(double rate, std::int64_t seeds, std::int64_t children) {
  const SeedLot lot{rate, seeds};
  return chance_in_every_bag(std::span(&lot, 1), children);
}

}  // namespace

TEST_CASE("a child with n seeds of one kind sees a sprout") {
  const double bean[] = {0.700, 0.910, 0.973, 0.992, 0.998};
  const double pea[] = {0.800, 0.960, 0.992, 0.998, 0.9997};
  for (std::int64_t seeds = 1; seeds <= 5; ++seeds) {
    CHECK(std::abs(one_kind(kBean, seeds) - bean[seeds - 1]) < 0.0005);
    CHECK(std::abs(one_kind(kPea, seeds) - pea[seeds - 1]) < 0.0005);
  }
  CHECK(one_kind(kBean, 0) == 0);
  CHECK(one_kind(1.0, 1) == 1);
  CHECK(one_kind(0.0, 9) == 0);
}

TEST_CASE("every one of 24 children sees a sprout") {
  const double bean[] = {0.104, 0.518, 0.823, 0.943};  // 2 to 5 seeds
  const double pea[] = {0.375, 0.825, 0.962};          // 2 to 4
  for (std::int64_t seeds = 2; seeds <= 5; ++seeds) {
    CHECK(std::abs(every_child(kBean, seeds, 24) - bean[seeds - 2]) < 0.0005);
  }
  for (std::int64_t seeds = 2; seeds <= 4; ++seeds) {
    CHECK(std::abs(every_child(kPea, seeds, 24) - pea[seeds - 2]) < 0.0005);
  }
  CHECK(least_seeds(kBean, 24, 0.95) == 6);
  CHECK(least_seeds(kPea, 24, 0.95) == 4);
  CHECK(least_seeds(kBean, 24, 0.94) == 5);
  CHECK(least_seeds(kBean, 1, 0.70) == 1);
  CHECK_FALSE(least_seeds(0.0, 1, 0.5));
  CHECK_FALSE(least_seeds(0.01, 60, 0.99));
}

TEST_CASE("children expected without a sprout") {
  const double bean[] = {7.2, 2.16, 0.648};
  const double pea[] = {4.8, 0.96, 0.192};
  for (std::int64_t seeds = 1; seeds <= 3; ++seeds) {
    const SeedLot beans{kBean, seeds};
    const SeedLot peas{kPea, seeds};
    CHECK(expected_without(std::span(&beans, 1), 24) == Approx(bean[seeds - 1]));
    CHECK(expected_without(std::span(&peas, 1), 24) == Approx(pea[seeds - 1]));
  }
}

TEST_CASE("two beans and two peas in one bag") {
  const std::vector<SeedLot> bag{{kBean, 2}, {kPea, 2}};
  CHECK(1 - chance_of_sprout(bag) == Approx(0.0036));
  CHECK(chance_of_every_kind(bag) == Approx(0.8736));  // (1 - .3^2) (1 - .2^2)
  CHECK(std::abs(chance_in_every_bag(bag, 24) - 0.917) < 0.0005);
  const std::vector<SeedLot> single{{kBean, 1}, {kPea, 1}};
  CHECK(chance_of_sprout(single) == Approx(0.94));
  CHECK(expected_without(single, 24) == Approx(1.44));
}

TEST_CASE("spare bags may fail too") {
  const std::vector<SeedLot> bag{{kBean, 2}, {kPea, 2}};
  CHECK(chance_in_enough_bags(bag, 24, 24) == Approx(chance_in_every_bag(bag, 24)));
  // One spare: no failure, or exactly one, among 25: .9964^25 + 25 x .0036 x .9964^24.
  CHECK(chance_in_enough_bags(bag, 24, 25) == Approx(0.99632).epsilon(1e-5));
  CHECK(least_spares(bag, 24, 0.91) == 0);
  CHECK(least_spares(bag, 24, 0.95) == 1);
  CHECK(least_spares(bag, 24, 0.999) == 2);
  CHECK(chance_in_enough_bags(bag, 0, 24) == 1);
  CHECK(chance_in_enough_bags(bag, 25, 24) == 0);
  const std::vector<SeedLot> empty;
  CHECK(chance_in_enough_bags(empty, 1, 24) == 0);
  CHECK_FALSE(least_spares(empty, 24, 0.5));
}
