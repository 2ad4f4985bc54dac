// How long a fault test runs: short among the other tests, long where tests/fault/run.sh asks.
#pragma once

#include <cstdint>
#include <cstdlib>

namespace trowelbell::fault {

inline std::int64_t long_run(const char* variable, std::int64_t short_run) {
  const char* asked = std::getenv(variable);
  return asked == nullptr ? short_run : std::atoll(asked);
}

}  // namespace trowelbell::fault
