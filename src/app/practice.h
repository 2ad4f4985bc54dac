// Trying things out before the day: a visit at ten times the speed that is kept nowhere and sent
// nowhere.
#pragma once

#include <memory>

#include "app/visit.h"

namespace trowelbell {

struct AppState;

struct Practice {
  static constexpr std::int64_t kSpeed = 10;

  std::shared_ptr<Visit> before;  // open again afterwards; may be none
  std::int64_t from = 0;          // the practice's time when it began, ms since 1970 UTC
  std::int64_t began = 0;         // the same moment on the monotonic clock

  std::int64_t now(std::int64_t monotonic) const { return from + (monotonic - began) * kSpeed; }
};

// With the visit that is open, or with a made-up one; from its planned start.
void begin_practice(AppState& app);
// Forgets it, and returns to the visit before.
void end_practice(AppState& app);

}  // namespace trowelbell
