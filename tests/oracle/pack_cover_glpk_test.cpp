// The cheapest packs against GLPK's branch and bound, on seeded random sizes and prices.
#include <doctest/doctest.h>

#include <random>

#include "core/pack_cover.h"
#include "tests/oracle/glpk_model.h"

using namespace trowelbell;

namespace {

std::int64_t price_of(const std::vector<Pack>& packs, const std::vector<std::int64_t>& counts) {
  std::int64_t price = 0;
  for (std::size_t i = 0; i < packs.size(); ++i) price += counts[i] * packs[i].price_cents;
  return price;
}

std::int64_t held_by(const std::vector<Pack>& packs, const std::vector<std::int64_t>& counts) {
  std::int64_t held = 0;
  for (std::size_t i = 0; i < packs.size(); ++i) held += counts[i] * packs[i].size;
  return held;
}

// The least price that GLPK finds.
std::int64_t glpk_price(const std::vector<Pack>& packs, std::int64_t pieces) {
  Model model(GLP_MIN);
  Model::Terms held;
  for (const Pack& pack : packs) {
    const auto most = static_cast<double>(pieces);
    const int column = model.add_column(0, most, static_cast<double>(pack.price_cents), GLP_IV);
    held.emplace_back(column, static_cast<double>(pack.size));
  }
  model.at_least(held, static_cast<double>(pieces));
  REQUIRE(model.solve_whole());
  return std::llround(model.objective());
}

}  // namespace

TEST_CASE("no choice of packs is cheaper, and the packs hold enough") {
  std::mt19937_64 random(20'270'309);
  const auto between = [&](std::int64_t least, std::int64_t most) {
    return std::uniform_int_distribution<std::int64_t>(least, most)(random);
  };
  for (int round = 0; round < 400; ++round) {
    const std::int64_t largest = between(2, 60);
    std::vector<Pack> packs(static_cast<std::size_t>(between(2, 5)));
    for (Pack& pack : packs) {
      pack.size = between(1, largest);
      // Larger packs are mostly, not always, better value.
      pack.price_cents = between(1, 3) * pack.size + between(0, 60);
    }
    // Often more than the packs of the best value alone are sure to cover.
    const std::int64_t pieces = between(0, 1) == 0 ? between(0, 300) : between(0, 20'000);
    CAPTURE(round);
    CAPTURE(pieces);
    const auto counts = cheapest_packs(packs, pieces);
    REQUIRE(held_by(packs, counts) >= pieces);
    REQUIRE(price_of(packs, counts) == glpk_price(packs, pieces));
  }
}
