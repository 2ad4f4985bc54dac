// How long each kept step gets, against the optimality conditions (Karush 1939, Kuhn and Tucker
// 1951) of
//   minimise sum (d - plan)^2 / plan  subject to  sum d = time, min <= d <= max,
// tried for every way the bounds can bind, in exact fractions (Boost.Rational); and against every
// division of the time on small grids.
#include <doctest/doctest.h>
#include <boost/rational.hpp>

#include <algorithm>
#include <optional>

#include "random_lessons.h"

using namespace trowelbell;

namespace {

using Fraction = boost::rational<std::int64_t>;
enum Bound { free_step, at_min, at_max, bounds };

// The one point that meets all conditions where the bounds bind as `binding` says, or nothing.
// Stationary means 2 (d - plan) / plan = lambda for a free step; not less at its minimum; not more
// at its maximum. With s = 1 + lambda / 2 that is d = plan * s, min >= plan * s, max <= plan * s.
std::optional<std::vector<Fraction>> stationary(const std::vector<StepSeconds>& steps,
                                                std::int64_t time,
                                                const std::vector<Bound>& binding) {
  std::int64_t free_plans = 0, free_time = time;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (binding[i] == free_step) free_plans += steps[i].plan;
    if (binding[i] == at_min) free_time -= steps[i].min;
    if (binding[i] == at_max) free_time -= steps[i].max;
  }
  if (free_plans == 0)
    return std::nullopt;  // corner cases of this kind meet the conditions with a free step too
  const Fraction s(free_time, free_plans);
  std::vector<Fraction> point;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const Fraction min(steps[i].min), max(steps[i].max), wish = s * steps[i].plan;
    if (binding[i] == free_step && (wish < min || wish > max)) return std::nullopt;
    if (binding[i] == at_min && min < wish) return std::nullopt;
    if (binding[i] == at_max && max > wish) return std::nullopt;
    point.push_back(binding[i] == free_step ? wish : binding[i] == at_min ? min : max);
  }
  return point;
}

std::optional<std::vector<Fraction>> optimum(const std::vector<StepSeconds>& steps,
                                             std::int64_t time) {
  std::vector<Bound> binding(steps.size(), free_step);
  while (true) {
    if (auto point = stationary(steps, time, binding)) return point;
    std::size_t i = 0;
    while (i < steps.size() && binding[i] == at_max) binding[i++] = free_step;
    if (i == steps.size()) return std::nullopt;
    binding[i] = static_cast<Bound>(binding[i] + 1);
  }
}

// Rounded down, and the milliseconds left to the largest fractions, the earlier first.
std::vector<std::int64_t> in_ms(const std::vector<Fraction>& point, std::int64_t time) {
  std::vector<std::int64_t> ms;
  std::vector<std::pair<Fraction, std::size_t>> order;
  std::int64_t left = time * 1000;
  for (std::size_t i = 0; i < point.size(); ++i) {
    const Fraction exact = point[i] * std::int64_t{1000};
    ms.push_back(exact.numerator() / exact.denominator());
    order.emplace_back(Fraction(ms[i]) - exact, i);  // most negative first
    left -= ms[i];
  }
  std::sort(order.begin(), order.end());
  for (std::size_t k = 0; left > 0; ++k, --left) ++ms[order[k].second];
  return ms;
}

}  // namespace

TEST_CASE("times meet the optimality conditions exactly, to the millisecond") {
  RandomLessons lessons(2002);
  int at_their_shortest = 0, solved = 0;
  for (int round = 0; round < 3000; ++round) {
    const auto items = lessons.items(lessons.between(1, 9), lessons.one_in(3) ? 20 : 600);
    const Pace pace = pace_to_bell(items, lessons.available(items), lessons.comfort_percent());
    std::vector<StepSeconds> steps;
    std::vector<std::int64_t> actual;
    std::int64_t plans = 0;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (!pace.items[i].kept) continue;
      const StepSeconds& time = items[i].seconds;
      plans += time.plan;
      if (time.plan == 0) {  // the objective has no such step
        CHECK(pace.items[i].ms == 0);
        continue;
      }
      steps.push_back(time);
      actual.push_back(pace.items[i].ms);
    }
    std::int64_t time_ms = 0;
    for (const std::int64_t ms : actual) time_ms += ms;
    REQUIRE(time_ms % 1000 == 0);
    if (steps.empty()) continue;
    CAPTURE(round);
    const auto point = optimum(steps, time_ms / 1000);
    REQUIRE(point.has_value());
    CHECK(actual == in_ms(*point, time_ms / 1000));
    if (time_ms < plans * 1000) ++solved;
    for (std::size_t i = 0; i < steps.size(); ++i)
      at_their_shortest += actual[i] == steps[i].min * 1000;
  }
  CHECK(solved > 1000);
  CHECK(at_their_shortest > 1000);
}

TEST_CASE("no division of the time into whole seconds is nearer to the plans") {
  RandomLessons lessons(2003);
  int hurried = 0;
  for (int round = 0; round < 400; ++round) {
    std::vector<PaceItem> items;
    std::int64_t shortest = 0, plans = 0;
    for (int i = 0; i < 4; ++i) {
      PaceItem item;
      item.seconds.plan = 2 * lessons.between(1, 6);
      item.seconds.min = lessons.between(0, item.seconds.plan);
      item.seconds.max = item.seconds.plan + 3;
      shortest += item.seconds.min;
      plans += item.seconds.plan;
      items.push_back(item);
    }
    const std::int64_t time = lessons.between(shortest, plans);
    hurried += time < plans;
    const Pace pace = pace_to_bell(items, time, 80);
    const auto cost =
        [&](const auto& duration) {  // times the product of plans, in ms^2: whole numbers
          std::int64_t sum = 0;
          for (std::size_t i = 0; i < 4; ++i) {
            std::int64_t others = 1;
            for (std::size_t j = 0; j < 4; ++j) others *= j == i ? 1 : items[j].seconds.plan;
            const std::int64_t off = duration(i) - items[i].seconds.plan * 1000;
            sum += off * off * others;
          }
          return sum;
        };
    const std::int64_t ours = cost([&](std::size_t i) { return pace.items[i].ms; });
    // Rounding to milliseconds moves each by less than one from the exact optimum: the cost by less
    // than this.
    const std::int64_t rounding = 4 * 12 * 12 * 12;
    std::int64_t d[4];
    std::int64_t best = -1;
    const auto low = [&](std::size_t i) { return items[i].seconds.min; };
    const auto high = [&](std::size_t i) { return items[i].seconds.max; };
    for (d[0] = low(0); d[0] <= high(0); ++d[0]) {
      for (d[1] = low(1); d[1] <= high(1); ++d[1]) {
        for (d[2] = low(2); d[2] <= high(2); ++d[2]) {
          d[3] = time - d[0] - d[1] - d[2];
          if (d[3] < low(3) || d[3] > high(3)) continue;
          const std::int64_t theirs = cost([&](std::size_t i) { return d[i] * 1000; });
          if (best < 0 || theirs < best) best = theirs;
        }
      }
    }
    CAPTURE(round);
    REQUIRE(best >= 0);
    CHECK(ours <= best + rounding);
  }
  CHECK(hurried > 300);
}
