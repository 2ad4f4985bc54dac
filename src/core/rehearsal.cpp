#include "rehearsal.h"

#include <algorithm>
#include <cmath>

#include "luck.h"
#include "pacing.h"

namespace trowelbell {
namespace {

constexpr std::int64_t kMostSeconds = 24 * 60 * 60;

}  // namespace

double Rehearsal::chance() const {
  return visits == 0 ? 0 : static_cast<double>(by_bell) / static_cast<double>(visits);
}

double Rehearsal::standard_error() const {
  return visits == 0 ? 0 : std::sqrt(chance() * (1 - chance()) / static_cast<double>(visits));
}

std::int64_t step_by_luck(const StepSeconds& time, std::int64_t aim_ms, std::uint64_t seed,
                          std::uint64_t n) {
  // Six even numbers in [0, 2^21) from two draws. One chooses the side of the aim, each side with
  // the chance of its width; the greatest of the other five is how near to the aim it falls.
  constexpr int kBits = 21;
  constexpr std::uint64_t kMask = (1 << kBits) - 1;
  const std::uint64_t one = draw(seed, 2 * n), two = draw(seed, 2 * n + 1);
  const auto side = static_cast<std::int64_t>(one & kMask);
  const auto near = static_cast<std::int64_t>(
      std::max({one >> kBits & kMask, one >> 2 * kBits & kMask, two & kMask, two >> kBits & kMask,
                two >> 2 * kBits & kMask}));
  const std::int64_t shortest = time.min * 1000, longest = time.max * 1000;
  if (side * (longest - shortest) < (aim_ms - shortest) << kBits) {
    return shortest + ((aim_ms - shortest) * near >> kBits);
  }
  return longest - ((longest - aim_ms) * near >> kBits);
}

Rehearser::Rehearser(const Lesson& lesson, std::vector<StepSeconds> times, std::uint64_t seed)
    : lesson_(&lesson), times_(std::move(times)), seed_(seed) {
  plans_from_.resize(times_.size() + 1);
  for (std::size_t i = times_.size(); i-- > 0;)
    plans_from_[i] = plans_from_[i + 1] + times_[i].plan;
  known_.resize(times_.size());
}

Rehearser::Next Rehearser::next(std::size_t step, std::int64_t available) {
  if (step == times_.size()) return {static_cast<std::int32_t>(step), 0};
  available = std::clamp<std::int64_t>(available, 0, plans_from_[step]);
  const auto index = static_cast<std::size_t>(available);
  std::vector<Next>& known = known_[step];
  if (known.size() <= index) known.resize(index + 1);
  Next& answer = known[index];
  if (answer.step >= 0) return answer;

  std::vector<PaceItem> ahead;
  ahead.reserve(times_.size() - step);
  for (std::size_t i = step; i < times_.size(); ++i) {
    ahead.push_back({times_[i], lesson_->steps[i].keep, lesson_->steps[i].worth});
  }
  const Pace pace = pace_to_bell(ahead, available, lesson_->comfort_percent);
  const auto kept = std::find_if(pace.items.begin(), pace.items.end(),
                                 [](const PacedItem& item) { return item.kept; });
  answer.step =
      static_cast<std::int32_t>(step + static_cast<std::size_t>(kept - pace.items.begin()));
  if (kept != pace.items.end()) answer.ms = static_cast<std::int32_t>(kept->ms);
  return answer;
}

Rehearsal Rehearser::rehearse(std::int64_t seconds, std::int64_t visits) {
  const auto count = static_cast<std::int32_t>(times_.size());
  Rehearsal result;
  result.visits = std::max<std::int64_t>(visits, 0);
  for (std::int64_t visit = 0; visit < visits; ++visit) {
    std::int64_t left = std::clamp<std::int64_t>(seconds, 0, kMostSeconds) * 1000;
    bool whole = true;
    for (std::int32_t step = 0; step < count; ++step) {
      // Whole seconds, rounded down where any are left (pace_visit rounds so too).
      const Next taken =
          next(static_cast<std::size_t>(step), left / 1000 - lesson_->reserve_seconds);
      whole = whole && taken.step == step;
      step = taken.step;
      if (step == count) break;
      const auto i = static_cast<std::size_t>(step);
      left -= step_by_luck(times_[i], taken.ms, seed_,
                           static_cast<std::uint64_t>(visit) * kMostPaceItems + i);
    }
    result.by_bell += left >= 0;
    result.whole += left >= 0 && whole;
  }
  return result;
}

}  // namespace trowelbell
