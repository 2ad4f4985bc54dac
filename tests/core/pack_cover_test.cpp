// Small cases worked by hand; tests/oracle has GLPK judge the rest.
#include "core/pack_cover.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

using Counts = std::vector<std::int64_t>;

Counts packs_for(std::vector<Pack> packs, std::int64_t pieces) {
  return cheapest_packs(packs, pieces);
}

}  // namespace

TEST_CASE("one size is rounded up, with or without a price") {
  CHECK(packs_for({{25, 0}}, 0) == Counts{0});
  CHECK(packs_for({{25, 0}}, 1) == Counts{1});
  CHECK(packs_for({{25, 0}}, 25) == Counts{1});
  CHECK(packs_for({{25, 0}}, 26) == Counts{2});
  CHECK(packs_for({{10'000, 0}}, 1'000'000'000) == Counts{100'000});
}

TEST_CASE("the cheapest packs are neither the fewest nor the best value") {
  // 60 pieces: two of 50 at 3.00 are 6.00, one of 200 at 5.50 is less, though 140 are too many.
  CHECK(packs_for({{50, 300}, {200, 550}}, 60) == Counts{0, 1});
  CHECK(packs_for({{50, 300}, {200, 999}}, 60) == Counts{2, 0});
  // 7 of packs of 5 (best value) and 3: 5 + 3 at 75 beat 5 + 5 at 80, and three of 3 at 105.
  CHECK(packs_for({{5, 40}, {3, 35}}, 7) == Counts{1, 1});
  // 9 of 5 and 3: three of 3 at 75 beat 5 + 5 at 80.
  CHECK(packs_for({{5, 40}, {3, 25}}, 9) == Counts{0, 3});
  CHECK(packs_for({{5, 40}, {3, 25}}, 0) == Counts{0, 0});
}

TEST_CASE("a very large order is all of the best value but for its last pieces") {
  const Counts counts = packs_for({{1000, 1000}, {999, 998}, {1, 2}}, 1'000'000'000);
  CHECK(counts[0] * 1000 + counts[1] * 999 + counts[2] >= 1'000'000'000);
  // 999 for 998 is the best value: 1,001,001 of them hold 999,999,999, and one piece more costs 2.
  CHECK(counts[0] * 1000 + counts[1] * 998 + counts[2] * 2 <= 1'001'001LL * 998 + 2);
}
