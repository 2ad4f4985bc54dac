#include "pacing.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cassert>

namespace trowelbell {
namespace {

// A set of steps: bit i is step i.
using StepSet = std::uint64_t;
StepSet only(std::size_t step) {
  return StepSet{1} << step;
}

// Of two sets that differ, whether `a` keeps the first step in which they do.
bool earlier(StepSet a, StepSet b) {
  return a & (a ^ b) & -(a ^ b);
}

struct Packing {
  std::int64_t weight = 0;
  std::int64_t worth = 0;
  StepSet steps = 0;

  bool better(const Packing& other) const {
    return worth != other.worth ? worth > other.worth : earlier(steps, other.steps);
  }
  Packing and_also(const Packing& other) const {
    return {weight + other.weight, worth + other.worth, steps | other.steps};
  }
};

// The exact knapsack, by the list of undominated packings: lightest first, each better than every
// lighter one.
StepSet best_packing(std::span<const Packing> candidates, std::int64_t room) {
  Packing all;
  for (const Packing& candidate : candidates) all = all.and_also(candidate);
  if (all.weight <= room) return all.steps;
  std::int64_t rest = all.weight;
  std::vector<Packing> front, next;
  front.reserve(32);
  next.reserve(32);
  front.emplace_back();
  const auto offer = [&next](const Packing& packing) {
    if (!next.empty() && !packing.better(next.back())) return;
    if (!next.empty() && packing.weight == next.back().weight) next.pop_back();
    next.push_back(packing);
  };
  for (const Packing& candidate : candidates) {
    // Where all the rest fits on top of a packing, no lighter one can end better.
    const auto tight = std::partition_point(
        front.begin(), front.end(), [&](const Packing& p) { return p.weight + rest <= room; });
    rest -= candidate.weight;

    next.clear();
    const auto begin = tight == front.begin() ? tight : tight - 1;
    auto with = begin;
    const auto offer_with_up_to = [&](std::int64_t most) {
      for (; with != front.end() && with->weight + candidate.weight <= most; ++with) {
        offer(with->and_also(candidate));
      }
    };
    for (auto without = begin; without != front.end(); ++without) {
      offer_with_up_to(without->weight);
      offer(*without);
    }
    offer_with_up_to(room);
    front.swap(next);
  }
  return front.back().steps;
}

constexpr auto shortest = [](const PaceItem& item) { return item.seconds.min; };
constexpr auto planned = [](const PaceItem& item) { return item.seconds.plan; };

template <class Do>
void for_each(StepSet steps, Do act) {
  for (; steps != 0; steps &= steps - 1) act(static_cast<std::size_t>(std::countr_zero(steps)));
}

template <class Time>
std::int64_t total(std::span<const PaceItem> items, StepSet steps, Time time) {
  std::int64_t sum = 0;
  for_each(steps, [&](std::size_t i) { sum += time(items[i]); });
  return sum;
}

// Those of `candidates` that fit into `room`.
template <class Time>
StepSet fitting(std::span<const PaceItem> items, StepSet candidates, std::int64_t room, Time time) {
  std::vector<Packing> packings;
  packings.reserve(items.size());
  for_each(candidates, [&](std::size_t i) {
    packings.push_back({time(items[i]), items[i].worth, only(i)});
  });
  return best_packing(packings, room);
}

// Shares `seconds` (from all minimums to all plans) among the kept steps: max(min, plan * s), in
// whole milliseconds.
void share(std::span<const PaceItem> items, StepSet kept, std::int64_t seconds,
           std::vector<PacedItem>& paced) {
  std::array<std::size_t, kMostPaceItems> sharing;
  const auto begin = sharing.begin();
  auto end = begin;
  std::int64_t plans = 0;
  for_each(kept, [&](std::size_t i) {
    *end = i;
    end += items[i].seconds.plan > 0;  // a step without time has no share
    plans += items[i].seconds.plan;
  });
  // s = seconds / plans, after every step it would take below its shortest has left with that. Each
  // that leaves lowers s, so none comes back.
  for (bool settled = false; !settled;) {
    const std::int64_t all_seconds = seconds, all_plans = plans;
    end = std::remove_if(begin, end, [&](std::size_t i) {
      const StepSeconds& step = items[i].seconds;
      if (step.min * all_plans <= step.plan * all_seconds) return false;
      paced[i].ms = step.min * 1000;
      seconds -= step.min;
      plans -= step.plan;
      return true;
    });
    settled = plans == all_plans;
  }
  // What rounding down leaves over goes to the largest remainders, the earlier step first.
  std::int64_t left = seconds * 1000;
  std::array<std::int64_t, kMostPaceItems> remainder;
  for (auto it = begin; it != end; ++it) {
    const std::int64_t exact = items[*it].seconds.plan * seconds * 1000;
    paced[*it].ms = exact / plans;
    remainder[*it] = exact % plans;
    left -= paced[*it].ms;
  }
  std::nth_element(begin, begin + left, end, [&](std::size_t a, std::size_t b) {
    return remainder[a] != remainder[b] ? remainder[a] > remainder[b] : a < b;
  });
  for (auto it = begin; it != begin + left; ++it) ++paced[*it].ms;
}

}  // namespace

Pace pace_to_bell(std::span<const PaceItem> items, std::int64_t available,
                  std::int64_t comfort_percent) {
  assert(items.size() <= kMostPaceItems);
  const std::int64_t time = std::max<std::int64_t>(available, 0);
  // In hundredths of a second, so that a share of a plan is a whole number.
  const auto comfortable = [comfort_percent](const PaceItem& item) {
    return std::max(item.seconds.plan * comfort_percent, item.seconds.min * 100);
  };

  StepSet musts = 0, shoulds = 0, mays = 0, left_out = 0;
  StepSet* const by_keep[] = {&musts, &shoulds, &mays};
  for (std::size_t i = 0; i < items.size(); ++i) {
    const Choice choice = items[i].choice;
    StepSet& set = choice == Choice::drop   ? left_out
                   : choice == Choice::keep ? musts
                                            : *by_keep[static_cast<std::size_t>(items[i].keep)];
    set |= only(i);
  }

  Pace pace;
  StepSet kept = musts;
  const std::int64_t needed = total(items, kept, shortest);
  pace.short_by = std::max<std::int64_t>(needed - time, 0);
  if (pace.short_by == 0) {
    kept |= fitting(items, shoulds, time - needed, shortest);
    // Filler that takes no time hurries nobody, even where the rest is already hurried.
    const std::int64_t room = time * 100 - total(items, kept, comfortable);
    kept |= fitting(items, mays, std::max<std::int64_t>(room, 0), comfortable);
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
    } else if (left_out & only(i)) {
      paced.why = PaceWhy::left_out_lead;
    } else {
      paced.why =
          least + items[i].seconds.min <= time ? PaceWhy::left_out_hurry : PaceWhy::left_out_time;
    }
  }
  return pace;
}

}  // namespace trowelbell
