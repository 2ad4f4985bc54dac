// Pacing against a general solver (GLPK: branch and bound, simplex), which knows nothing of our
// knapsacks or scale.
#include <doctest/doctest.h>

#include "glpk_model.h"
#include "random_lessons.h"

using namespace trowelbell;

namespace {

std::int64_t worth(const std::vector<PaceItem>& items, const std::vector<bool>& kept, Keep keep) {
  std::int64_t sum = 0;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (kept[i] && optional(items[i], keep)) sum += items[i].worth;
  }
  return sum;
}

std::vector<bool> kept_by(const Pace& pace) {
  std::vector<bool> kept;
  for (const PacedItem& item : pace.items) kept.push_back(item.kept);
  return kept;
}

bool any_left_out(const std::vector<PaceItem>& items, const std::vector<bool>& kept, Keep keep) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (!kept[i] && optional(items[i], keep)) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("the steps kept are worth what GLPK's branch and bound finds") {
  RandomLessons lessons(3003);
  int should_stages = 0, may_stages = 0, short_of_time = 0, uncomfortable = 0;
  for (int round = 0; round < 3500; ++round) {
    CAPTURE(round);
    const auto items = lessons.items(lessons.between(4, 24), lessons.one_in(4) ? 12 : 600);
    const std::int64_t available = lessons.available(items), percent = lessons.comfort_percent();
    const Pace pace = pace_to_bell(items, available, percent);
    const std::vector<bool> ours = kept_by(pace);

    const auto shortest = shortest_hundredths(items);
    const auto with_shoulds = best_steps(items, musts(items), Keep::should, available, shortest);
    CHECK(with_shoulds.has_value() == (pace.short_by == 0));
    if (!with_shoulds) {
      ++short_of_time;
      CHECK(ours == musts(items));
      continue;
    }
    CHECK(worth(items, ours, Keep::should) == worth(items, *with_shoulds, Keep::should));

    // From here with our should steps: GLPK may have kept others of the same worth.
    std::vector<bool> without_filler = ours;
    std::int64_t filler_without_time = 0;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (!optional(items[i], Keep::may)) continue;
      without_filler[i] = false;
      if (items[i].seconds.plan == 0) filler_without_time += items[i].worth;
    }
    const auto comfortable = comfortable_hundredths(items, percent);
    const auto with_mays = best_steps(items, without_filler, Keep::may, available, comfortable);
    const std::int64_t best = with_mays ? worth(items, *with_mays, Keep::may) : filler_without_time;
    CHECK(worth(items, ours, Keep::may) == best);

    uncomfortable += !with_mays;
    should_stages += any_left_out(items, ours, Keep::should);
    may_stages += with_mays && any_left_out(items, ours, Keep::may);
  }
  CHECK(should_stages > 500);
  CHECK(may_stages > 500);
  CHECK(short_of_time > 300);
  CHECK(uncomfortable > 300);
}

TEST_CASE("the times cost what GLPK's simplex finds between tangents of the objective") {
  // (d - plan)^2 / plan is never below its tangents, and between tangents at d = plan * k / 64
  // never more than plan / 4 / 64^2 above them: the least cost under the tangents bounds the true
  // least cost on both sides.
  constexpr int kTangents = 64;
  RandomLessons lessons(3004);
  int hurried = 0;
  for (int round = 0; round < 150; ++round) {
    CAPTURE(round);
    const auto items = lessons.items(lessons.between(2, 10), 600);
    const std::int64_t available = lessons.available(items);
    const Pace pace = pace_to_bell(items, available, 80);
    if (pace.short_by > 0) continue;
    Model model(GLP_MIN);
    Model::Terms all_times;
    double ours = 0, gap = 0;
    for (std::size_t i = 0; i < items.size(); ++i) {
      const StepSeconds& step = items[i].seconds;
      if (!pace.items[i].kept || step.plan == 0) continue;
      const double plan = static_cast<double>(step.plan);
      const int time =
          model.add_column(static_cast<double>(step.min), static_cast<double>(step.max), 0);
      const int cost = model.add_column(0, 4 * plan, 1);
      all_times.emplace_back(time, 1);
      for (int k = 0; k <= kTangents; ++k) {
        const double at = plan * k / kTangents, slope = 2 * (at - plan) / plan;
        model.at_least({{cost, 1}, {time, -slope}}, (at - plan) * (at - plan) / plan - slope * at);
      }
      const double off = static_cast<double>(pace.items[i].ms) / 1000 - plan;
      ours += off * off / plan;
      gap += plan / 4 / kTangents / kTangents;
    }
    if (all_times.empty()) continue;
    model.at_most(all_times, static_cast<double>(available));
    REQUIRE(model.solve());
    // A millisecond's rounding and the solver's tolerance (1e-7) stay far below a thousandth.
    CHECK(ours >= model.objective() - 1e-3);
    CHECK(ours <= model.objective() + gap + 1e-3);
    hurried += pace.slack == 0 && ours > 1;
  }
  CHECK(hurried > 50);
}
