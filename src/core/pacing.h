// Pacing to the bell: which steps to keep and how long each may take. Pure, exact, in whole
// numbers.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "lesson.h"
#include "visit_state.h"

namespace trowelbell {

// No step's times may be longer (eleven days): within it no product here leaves 64 bits.
inline constexpr std::int64_t kMostStepSeconds = 1'000'000;
inline constexpr std::size_t kMostPaceItems = 64;

struct PaceItem {
  StepSeconds seconds;
  Keep keep = Keep::must;
  std::int64_t worth = 0;  // not negative
  Choice choice =
      Choice::automatic;  // the lead's word goes first: keep counts as must, drop is out
};

enum class PaceWhy {
  as_planned,      // kept, at its planned time
  shortened,       // kept, less than planned
  left_out_hurry,  // filler: keeping it would rush the rest below comfort
  left_out_time,   // does not fit even with every kept step at its shortest
  left_out_lead,   // the lead left it out
};

struct PacedItem {
  bool kept = true;
  std::int64_t ms = 0;  // time to spend; 0 when left out
  PaceWhy why = PaceWhy::as_planned;
};

struct Pace {
  std::vector<PacedItem> items;
  std::int64_t short_by =
      0;  // seconds the musts alone lack (then every kept step stands at its shortest), else 0
  std::int64_t slack = 0;  // seconds to spare when every kept step gets its plan
};

// `available`: whole seconds before the bell, the reserve already taken off; negative counts as 0.
// `comfort_percent`: 1..100. At most kMostPaceItems.
// Kept set and durations as in content/METHODS: musts; should steps by exact knapsack on shortest
// times; may steps by exact knapsack on comfortable times; then one scale s <= 1 with duration =
// clamp(plan * s, min, max), the exact minimiser of sum (d - plan)^2 / plan. Kept durations add up
// to min(available, sum of plans) exactly when they fit.
Pace pace_to_bell(std::span<const PaceItem> items, std::int64_t available,
                  std::int64_t comfort_percent);

}  // namespace trowelbell
