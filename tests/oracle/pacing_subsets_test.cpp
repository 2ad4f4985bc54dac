// What stays, against every subset there is. The rules are read from DESIGN's wording, without the
// knapsack: a set of should steps fits if the shortest times do; a set of may steps if every kept
// step can have its comfortable time.
#include <doctest/doctest.h>

#include <algorithm>

#include "random_lessons.h"

using namespace trowelbell;

namespace {

using Kept = std::vector<bool>;

bool wanted(const PaceItem& item, Keep keep) {
  return item.choice == Choice::automatic && item.keep == keep;
}

// Of all sets of `keep` steps added to `base` that `fits` allows, the one of highest worth; of
// several, the one that is ahead at the first step where they differ. Counts in `ties` where there
// were several.
template <class Fits>
Kept best_subset(const std::vector<PaceItem>& items, const Kept& base, Keep keep, int& ties,
                 Fits fits) {
  std::vector<std::size_t> optional;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (wanted(items[i], keep)) optional.push_back(i);
  }
  Kept best = base;
  std::int64_t best_worth = -1;
  bool tied = false;
  for (std::uint32_t subset = 0; subset < 1U << optional.size(); ++subset) {
    Kept kept = base;
    std::int64_t worth = 0;
    for (std::size_t k = 0; k < optional.size(); ++k) {
      if (subset >> k & 1U) {
        kept[optional[k]] = true;
        worth += items[optional[k]].worth;
      }
    }
    if (!fits(kept) || worth < best_worth) continue;
    tied = worth == best_worth;
    // vector<bool> compares step by step: the one with the first true where they differ is the
    // greater.
    if (!tied || kept > best) best = kept;
    best_worth = worth;
  }
  ties += tied;
  return best;
}

Kept expected(const std::vector<PaceItem>& items, std::int64_t available,
              std::int64_t comfort_percent, int& ties) {
  const auto shortest = [&](const Kept& kept) {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < items.size(); ++i) sum += kept[i] ? items[i].seconds.min : 0;
    return sum;
  };
  const auto comfortable_hundredths = [&](const Kept& kept) {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < items.size(); ++i) {
      const StepSeconds& time = items[i].seconds;
      if (kept[i]) sum += std::clamp(comfort_percent * time.plan, 100 * time.min, 100 * time.max);
    }
    return sum;
  };
  Kept kept(items.size());
  for (std::size_t i = 0; i < items.size(); ++i)
    kept[i] = wanted(items[i], Keep::must) || items[i].choice == Choice::keep;
  if (shortest(kept) > available) return kept;
  kept = best_subset(items, kept, Keep::should, ties,
                     [&](const Kept& set) { return shortest(set) <= available; });
  const std::int64_t without = comfortable_hundredths(kept);
  return best_subset(items, kept, Keep::may, ties, [&](const Kept& set) {
    // Filler that adds nothing hurries nobody.
    return comfortable_hundredths(set) <= available * 100 || comfortable_hundredths(set) == without;
  });
}

}  // namespace

TEST_CASE("what stays is the best of all subsets, ties included") {
  RandomLessons lessons(1001);
  int should_out = 0, may_out = 0, shortened = 0, ties = 0;
  for (int round = 0; round < 3000; ++round) {
    const auto items = lessons.items(lessons.between(1, 14), lessons.one_in(2) ? 6 : 300);
    const std::int64_t available = lessons.available(items), comfort = lessons.comfort_percent();
    const Pace pace = pace_to_bell(items, available, comfort);
    const Kept kept = expected(items, available, comfort, ties);
    CAPTURE(round);
    std::int64_t shortest = 0;
    for (std::size_t i = 0; i < items.size(); ++i) shortest += kept[i] ? items[i].seconds.min : 0;
    for (std::size_t i = 0; i < items.size(); ++i) {
      CAPTURE(i);
      const PacedItem& paced = pace.items[i];
      CHECK(paced.kept == kept[i]);
      if (items[i].choice == Choice::drop) {
        CHECK(paced.why == PaceWhy::left_out_lead);
      } else if (!kept[i]) {
        const bool would_fit = shortest + items[i].seconds.min <= available;
        CHECK(paced.why == (would_fit ? PaceWhy::left_out_hurry : PaceWhy::left_out_time));
        if (items[i].keep == Keep::should) CHECK_FALSE(would_fit);
        (items[i].keep == Keep::should ? should_out : may_out)++;
      }
      shortened += paced.why == PaceWhy::shortened;
    }
  }
  // The lessons do press: a generator gone soft would show here.
  CHECK(should_out > 500);
  CHECK(may_out > 1000);
  CHECK(shortened > 1000);
  CHECK(ties > 500);
}
