// Quantiles of what was measured.
#pragma once

#include <cstdint>
#include <span>

namespace trowelbell {

// The value that `percent` of 100 (0..100) do not exceed, drawn between the two nearest where it
// falls between: definition 7 of Hyndman and Fan (The American Statistician 50, 1996), as most
// spreadsheets have it. It never leaves the range of the values. `sorted`: ascending, not empty.
double quantile(std::span<const double> sorted, std::int64_t percent);

}  // namespace trowelbell
