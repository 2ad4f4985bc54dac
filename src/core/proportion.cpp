#include "proportion.h"

#include <algorithm>
#include <cmath>

namespace trowelbell {

Interval wilson_95(std::int64_t yes, std::int64_t all) {
  constexpr double z = 1.9599639845400545;
  if (all <= 0) return {};
  const double n = static_cast<double>(all), p = static_cast<double>(yes) / n;
  const double scale = 1 + z * z / n;
  const double middle = (p + z * z / (2 * n)) / scale;
  const double half = z * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n)) / scale;
  // Exact at both ends, where rounding would leave a hair.
  return {yes == 0 ? 0 : std::max(middle - half, 0.0),
          yes == all ? 1 : std::min(middle + half, 1.0)};
}

}  // namespace trowelbell
