#include "core/rehearsal.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "core/luck.h"
#include "core/pacing.h"

using namespace trowelbell;

namespace {

struct Play {
  Lesson lesson;
  std::vector<StepSeconds> times;

  Play() { lesson.reserve_seconds = 0; }
  void add(StepSeconds time, Keep keep = Keep::must, std::int64_t worth = 1) {
    lesson.steps.emplace_back();
    lesson.steps.back().keep = keep;
    lesson.steps.back().worth = worth;
    times.push_back(time);
  }
  Rehearsal run(std::int64_t seconds, std::int64_t visits = 4000, std::uint64_t seed = 1) const {
    return Rehearser(lesson, times, seed).rehearse(seconds, visits);
  }
};

// The two-sided power distribution function of power 5: van Dorp and Kotz, "The standard two-sided
// power distribution and its properties", The American Statistician 56 (2002) 90-99, read in the
// manual of the R package VaRES (rdrr.io/cran/VaRES/man/tsp.html).
double two_sided_power(double x, double low, double mode, double high) {
  if (x <= low) return 0;
  if (x >= high) return 1;
  return x < mode ? (mode - low) / (high - low) * std::pow((x - low) / (mode - low), 5)
                  : 1 - (high - mode) / (high - low) * std::pow((high - x) / (high - mode), 5);
}

}  // namespace

TEST_CASE("draws are SplitMix64's") {
  // As java.util.SplittableRandom of OpenJDK 17 gives them for seeds 0, 42 and -1.
  constexpr std::uint64_t kAll = ~std::uint64_t{0};
  CHECK(draw(0, 0) == 0xE220A8397B1DCDAF);
  CHECK(draw(0, 1) == 0x6E789E6AA1B965F4);
  CHECK(draw(0, 2) == 0x06C45D188009454F);
  CHECK(draw(42, 0) == 0xBDD732262FEB6E95);
  CHECK(draw(42, 1) == 0x28EFE333B266F103);
  CHECK(draw(42, 2) == 0x47526757130F9F52);
  CHECK(draw(kAll, 0) == 0xE4D971771B652C20);
  CHECK(draw(kAll, 1) == 0xE99FF867DBF682C9);
  CHECK(draw(kAll, 2) == 0x382FF84CB27281E9);
}

TEST_CASE("a step by luck has the two-sided power distribution about its aim") {
  constexpr int kDraws = 100'000;
  struct Row {
    StepSeconds time;
    std::int64_t aim_ms;
  };
  for (const Row& row :
       {Row{{60, 90, 180}, 90'000}, Row{{60, 90, 180}, 75'500}, Row{{0, 10, 20}, 0},
        Row{{30, 60, 60}, 60'000}, Row{{100, 100, 300}, 100'000}}) {
    CAPTURE(row.time.min);
    CAPTURE(row.aim_ms);
    std::vector<double> times;
    double sum = 0;
    for (std::uint64_t n = 0; n < kDraws; ++n) {
      times.push_back(static_cast<double>(step_by_luck(row.time, row.aim_ms, 7, n)));
      sum += times.back();
    }
    std::sort(times.begin(), times.end());
    const double low = 1e3 * static_cast<double>(row.time.min);
    const double high = 1e3 * static_cast<double>(row.time.max);
    const double mode = static_cast<double>(row.aim_ms);
    CHECK(times.front() >= low);
    CHECK(times.back() <= high);
    double worst = 0;
    for (std::size_t i = 0; i < times.size(); ++i) {
      // Whole milliseconds are a step wide.
      const double seen = (static_cast<double>(i) + 0.5) / kDraws;
      worst = std::max({worst, seen - two_sided_power(times[i] + 1, low, mode, high),
                        two_sided_power(times[i] - 1, low, mode, high) - seen});
    }
    // Kolmogorov's bound at 1 % (1.63 / sqrt n, from memory).
    CHECK(worst < 1.63 / std::sqrt(kDraws));
    // The mean, as in PERT. No spread is wider than half the range: four standard errors.
    CHECK(std::abs(sum / kDraws - (low + 4 * mode + high) / 6) <
          1 + 2 * (high - low) / std::sqrt(kDraws));
  }
}

TEST_CASE("a step without play takes its time, and the longest does not overflow") {
  for (std::uint64_t n = 0; n < 1000; ++n) {
    CHECK(step_by_luck({5, 5, 5}, 5000, 1, n) == 5000);
    CHECK(step_by_luck({0, 0, 0}, 0, 1, n) == 0);
    const std::int64_t ms =
        step_by_luck({0, kMostStepSeconds / 2, kMostStepSeconds}, kMostStepSeconds * 500, 1, n);
    CHECK(ms >= 0);
    CHECK(ms <= kMostStepSeconds * 1000);
  }
}

TEST_CASE("without luck a visit ends when it must") {
  Play play;
  play.add({60, 60, 60});
  play.add({30, 30, 30}, Keep::should);
  play.add({20, 20, 20}, Keep::may);
  play.lesson.reserve_seconds = 10;
  struct Row {
    std::int64_t seconds;
    bool by_bell, whole;
  };
  // 110 s and the reserve of 10; without the may 90; the musts alone 60, which the reserve may
  // serve.
  for (const Row& row :
       {Row{120, true, true}, Row{119, true, false}, Row{100, true, false}, Row{99, true, false},
        Row{60, true, false}, Row{59, false, false}, Row{0, false, false}, Row{-100, false, false},
        Row{1'000'000, true, true}}) {
    CAPTURE(row.seconds);
    const Rehearsal rehearsal = play.run(row.seconds, 10);
    CHECK(rehearsal.visits == 10);
    CHECK(rehearsal.by_bell == (row.by_bell ? 10 : 0));
    CHECK(rehearsal.whole == (row.whole ? 10 : 0));
  }
  CHECK(Play().run(10, 3).whole == 3);
}

TEST_CASE("the chance and its standard error") {
  const Rehearsal rehearsal{400, 300, 200};
  CHECK(rehearsal.chance() == 0.75);
  CHECK(rehearsal.standard_error() ==
        doctest::Approx(0.0216506).epsilon(1e-5));  // sqrt(0.75 * 0.25 / 400)
  CHECK(Rehearsal{}.chance() == 0);
  CHECK(Rehearsal{}.standard_error() == 0);
  CHECK(Play().run(0, -5).visits == 0);
}

TEST_CASE("the same seed gives the same answer, another seed one within its error") {
  Play play;
  for (int i = 0; i < 8; ++i) play.add({60, 120, 240}, i % 3 == 2 ? Keep::may : Keep::must);
  // Computed once with g++ on x86-64: every other build must give it too.
  CHECK(play.run(840, 4000, 1).by_bell == 1125);
  const Rehearsal one = play.run(840, 40'000, 1), two = play.run(840, 40'000, 2);
  CHECK(one.chance() > 0.1);
  CHECK(one.chance() < 0.99);
  CHECK(one.by_bell != two.by_bell);
  CHECK(std::abs(one.chance() - two.chance()) <
        4 * std::hypot(one.standard_error(), two.standard_error()));
}

TEST_CASE("with musts alone more time helps, and what was asked before changes nothing") {
  Play play;
  for (int i = 0; i < 6; ++i) play.add({60, 120, 240});
  Rehearser rehearser(play.lesson, play.times, 3);
  double before = 0;
  for (std::int64_t seconds = 400; seconds <= 1000; seconds += 20) {
    const Rehearsal rehearsal = rehearser.rehearse(seconds, 5000);
    CHECK(rehearsal.chance() >= before - 3 * rehearsal.standard_error());
    CHECK(rehearsal.whole <= rehearsal.by_bell);
    CHECK(rehearsal.by_bell == play.run(seconds, 5000, 3).by_bell);
    before = rehearsal.chance();
  }
  CHECK(before > 0.99);
}
