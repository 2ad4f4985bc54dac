// How far a share can be trusted that was counted on a few.
#pragma once

#include <cstdint>

namespace trowelbell {

struct Interval {
  double low = 0, high = 1;
};

// Wilson's score interval (Journal of the American Statistical Association 22, 1927) at 95 %: every
// share p for which `yes` of `all` would be no surprise, |yes / all - p| <= z sqrt(p (1 - p) / all)
// with z the normal quantile of 0.975. 0 <= yes <= all; of none nothing is known: 0 to 1.
Interval wilson_95(std::int64_t yes, std::int64_t all);

}  // namespace trowelbell
