#include "quantile.h"

namespace trowelbell {

double quantile(std::span<const double> sorted, std::int64_t percent) {
  // In hundredths of a place, so that a value that is met exactly comes out exactly.
  const std::int64_t at = (static_cast<std::int64_t>(sorted.size()) - 1) * percent;
  const double low = sorted[static_cast<std::size_t>(at / 100)];
  if (at % 100 == 0) return low;
  const double high = sorted[static_cast<std::size_t>(at / 100) + 1];
  return low + (high - low) * static_cast<double>(at % 100) / 100;
}

}  // namespace trowelbell
