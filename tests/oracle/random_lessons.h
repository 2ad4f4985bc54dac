// Lessons for the oracles: seeded, and the same numbers on every machine (std distributions are
// not).
#pragma once

#include <random>
#include <vector>

#include "core/pacing.h"

namespace trowelbell {

class RandomLessons {
 public:
  explicit RandomLessons(std::uint64_t seed) : random_(seed) {}

  std::int64_t between(std::int64_t low, std::int64_t high) {
    return low + static_cast<std::int64_t>(random_() % static_cast<std::uint64_t>(high - low + 1));
  }
  bool one_in(std::int64_t n) { return between(1, n) == 1; }

  // Steps of up to `longest` seconds. Few different worths, so that ties are common; some steps
  // take no time or cannot be shortened, and on some the lead has spoken.
  std::vector<PaceItem> items(std::int64_t count, std::int64_t longest) {
    std::vector<PaceItem> items;
    const std::int64_t most_worth = one_in(2) ? 3 : 1000;
    for (std::int64_t i = 0; i < count; ++i) {
      PaceItem item;
      item.seconds.plan = one_in(12) ? 0 : between(1, longest);
      item.seconds.min = one_in(8) ? item.seconds.plan : between(0, item.seconds.plan);
      item.seconds.max = item.seconds.plan + between(0, longest);
      item.keep = static_cast<Keep>(between(0, 2));
      item.worth = item.keep == Keep::must ? 0 : between(0, most_worth);
      if (one_in(10)) item.choice = one_in(2) ? Choice::keep : Choice::drop;
      items.push_back(item);
    }
    return items;
  }

  // From too little for the musts to more than every plan, most often in between.
  std::int64_t available(const std::vector<PaceItem>& items) {
    std::int64_t plans = 0;
    for (const PaceItem& item : items) plans += item.seconds.plan;
    return between(0, plans + plans / 5 + 1);
  }
  std::int64_t comfort_percent() { return one_in(2) ? 80 : between(1, 100); }

 private:
  std::mt19937_64 random_;
};

}  // namespace trowelbell
