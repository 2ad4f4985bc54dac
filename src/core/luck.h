// Random numbers that are the same on every machine: SplitMix64 (Steele, Lea and Flood, "Fast
// splittable pseudorandom number generators", OOPSLA 2014), asked by number instead of in turn.
#pragma once

#include <cstdint>

namespace trowelbell {

// The n-th draw (from 0) of the stream that begins with `seed`.
constexpr std::uint64_t draw(std::uint64_t seed, std::uint64_t n) {
  std::uint64_t z = seed + (n + 1) * 0x9E3779B97F4A7C15;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
  return z ^ (z >> 31);
}

}  // namespace trowelbell
