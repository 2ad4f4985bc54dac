// Chance that is the same for the same seed, on every machine.
#pragma once

#include "core/luck.h"

namespace trowelbell::fault {

class Luck {
 public:
  explicit Luck(std::uint64_t seed) : seed_(seed) {}
  // 0 to `many` - 1; `many` at least 1.
  std::int64_t below(std::int64_t many) {
    return static_cast<std::int64_t>(next() % static_cast<std::uint64_t>(many));
  }
  std::int64_t between(std::int64_t least, std::int64_t most) {
    return least + below(most - least + 1);
  }
  bool percent(std::int64_t chance) { return below(100) < chance; }
  std::uint64_t next() { return draw(seed_, drawn_++); }

 private:
  std::uint64_t seed_;
  std::uint64_t drawn_ = 0;
};

}  // namespace trowelbell::fault
