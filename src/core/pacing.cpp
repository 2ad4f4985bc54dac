#include "pacing.h"

#include <algorithm>
#include <cassert>
#include <tuple>

namespace trowelbell {
namespace {

// A product of two times needs more than 64 bits after a clock ran wild.
__extension__ typedef __int128 Wide;

// A set of steps. The earlier the step, the higher its bit: of two sets the greater number keeps
// the earlier steps.
using StepSet = std::uint64_t;
StepSet only(std::size_t step) {
  return StepSet{1} << 63 >> step;
}

struct Packing {
  std::int64_t weight = 0;
  std::int64_t worth = 0;
  StepSet steps = 0;

  bool better(const Packing& other) const {
    return std::tie(worth, steps) > std::tie(other.worth, other.steps);
  }
};

// The exact knapsack, by the list of undominated packings: lightest first, each better than every
// lighter one.
Packing best_packing(const std::vector<Packing>& candidates, std::int64_t room) {
  std::int64_t rest = 0;
  for (const Packing& candidate : candidates) rest += candidate.weight;
  std::vector<Packing> front(1), with, merged;
  for (const Packing& candidate : candidates) {
    // Where all the rest fits on top of a packing, the lighter ones can no longer beat it.
    const auto tight = std::partition_point(
        front.begin(), front.end(), [&](const Packing& p) { return p.weight + rest <= room; });
    if (tight != front.begin()) front.erase(front.begin(), tight - 1);
    rest -= candidate.weight;

    with.clear();
    for (const Packing& p : front) {
      if (p.weight + candidate.weight > room) break;
      with.push_back(
          {p.weight + candidate.weight, p.worth + candidate.worth, p.steps | candidate.steps});
    }
    merged.clear();
    std::merge(front.begin(), front.end(), with.begin(), with.end(), std::back_inserter(merged),
               [](const Packing& a, const Packing& b) {
                 return a.weight != b.weight ? a.weight < b.weight : a.better(b);
               });
    front.clear();
    for (const Packing& p : merged) {
      if (front.empty() || p.better(front.back())) front.push_back(p);
    }
  }
  return front.back();
}

std::int64_t shortest(const PaceItem& item) {
  return item.seconds.min;
}
std::int64_t planned(const PaceItem& item) {
  return item.seconds.plan;
}

template <class Time>
std::int64_t total(std::span<const PaceItem> items, StepSet kept, Time time) {
  std::int64_t sum = 0;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (kept & only(i)) sum += time(items[i]);
  }
  return sum;
}

StepSet musts(std::span<const PaceItem> items) {
  StepSet kept = 0;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const PaceItem& item = items[i];
    if (item.choice == Choice::keep ||
        (item.choice == Choice::automatic && item.keep == Keep::must)) {
      kept |= only(i);
    }
  }
  return kept;
}

template <class Time>
StepSet fitting(std::span<const PaceItem> items, Keep keep, std::int64_t room, Time time) {
  std::vector<Packing> candidates;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const PaceItem& item = items[i];
    if (item.choice == Choice::automatic && item.keep == keep) {
      candidates.push_back({time(item), item.worth, only(i)});
    }
  }
  return best_packing(candidates, room).steps;
}

// Shares `seconds` (from all minimums to all plans) among the kept steps: max(min, plan * s), in
// whole milliseconds.
void share(std::span<const PaceItem> items, StepSet kept, std::int64_t seconds,
           std::vector<PacedItem>& paced) {
  std::vector<std::size_t> sharing;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if ((kept & only(i)) && items[i].seconds.plan > 0) sharing.push_back(i);
  }
  // The stiffest first: the breakpoints of s, min / plan, falling.
  std::sort(sharing.begin(), sharing.end(), [&](std::size_t a, std::size_t b) {
    const StepSeconds &x = items[a].seconds, &y = items[b].seconds;
    return Wide{x.min} * y.plan > Wide{y.min} * x.plan;
  });
  std::int64_t plans = total(items, kept, planned);
  auto next = sharing.begin();
  for (; next != sharing.end(); ++next) {
    const StepSeconds& step = items[*next].seconds;
    if (Wide{step.min} * plans <= Wide{step.plan} * seconds) break;
    paced[*next].ms = step.min * 1000;
    seconds -= step.min;
    plans -= step.plan;
  }
  // Now s = seconds / plans. What rounding down leaves over goes to the largest remainders, the
  // earlier step first.
  std::int64_t left = seconds * 1000;
  std::vector<std::int64_t> remainder(items.size());
  for (auto it = next; it != sharing.end(); ++it) {
    const Wide exact = Wide{items[*it].seconds.plan} * seconds * 1000;
    paced[*it].ms = static_cast<std::int64_t>(exact / plans);
    remainder[*it] = static_cast<std::int64_t>(exact % plans);
    left -= paced[*it].ms;
  }
  std::sort(next, sharing.end(), [&](std::size_t a, std::size_t b) {
    return remainder[a] != remainder[b] ? remainder[a] > remainder[b] : a < b;
  });
  for (; next != sharing.end() && left > 0; ++next, --left) ++paced[*next].ms;
}

}  // namespace

Pace pace_to_bell(std::span<const PaceItem> items, std::int64_t available,
                  std::int64_t comfort_percent) {
  assert(items.size() <= 64);
  const std::int64_t time = std::max<std::int64_t>(available, 0);
  // In hundredths of a second, so that a share of a plan is a whole number.
  const auto comfortable = [comfort_percent](const PaceItem& item) {
    return std::max(item.seconds.plan * comfort_percent, item.seconds.min * 100);
  };

  Pace pace;
  StepSet kept = musts(items);
  pace.short_by = std::max<std::int64_t>(total(items, kept, shortest) - time, 0);
  if (pace.short_by == 0) {
    kept |= fitting(items, Keep::should, time - total(items, kept, shortest), shortest);
    // Filler that takes no time hurries nobody, even where the rest is already hurried.
    const std::int64_t room =
        std::max<std::int64_t>(time * 100 - total(items, kept, comfortable), 0);
    kept |= fitting(items, Keep::may, room, comfortable);
  }

  const std::int64_t least = total(items, kept, shortest), plans = total(items, kept, planned);
  pace.slack = std::max<std::int64_t>(time - plans, 0);
  pace.items.resize(items.size());
  share(items, kept, std::clamp(time, least, plans), pace.items);
  for (std::size_t i = 0; i < items.size(); ++i) {
    PacedItem& paced = pace.items[i];
    paced.kept = kept & only(i);
    if (paced.kept) {
      paced.why =
          paced.ms == items[i].seconds.plan * 1000 ? PaceWhy::as_planned : PaceWhy::shortened;
    } else if (items[i].choice == Choice::drop) {
      paced.why = PaceWhy::left_out_lead;
    } else {
      paced.why =
          least + items[i].seconds.min <= time ? PaceWhy::left_out_hurry : PaceWhy::left_out_time;
    }
  }
  return pace;
}

}  // namespace trowelbell
