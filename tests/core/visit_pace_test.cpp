#include "core/visit_pace.h"

#include <doctest/doctest.h>

#include <random>

using namespace trowelbell;

namespace {

constexpr std::int64_t kStart = 1'700'000'000'000;  // planned start, ms
constexpr std::int64_t kMinute = 60'000;

// Four steps of ten minutes, filler of five, and 50 minutes to the bell of which one is the
// reserve.
struct Visit {
  Lesson lesson;
  std::vector<StepSeconds> times;
  VisitState state;
  std::int64_t now = kStart;

  Visit() {
    for (int i = 0; i < 5; ++i) add({300, 600, 1200}, Keep::must);
    lesson.steps[3].keep = Keep::may;
    times[3] = {60, 300, 600};
    lesson.reserve_seconds = 60;
    state.bell_at = kStart + 50 * kMinute;
  }
  void add(StepSeconds time, Keep keep) {
    lesson.steps.emplace_back();
    lesson.steps.back().keep = keep;
    lesson.steps.back().worth = 1;
    times.push_back(time);
    state.steps.emplace_back();
    state.choices.push_back(Choice::automatic);
  }

  void enter(std::size_t step) {
    leave();
    state.phase = Phase::running;
    state.step = step;
    state.steps[step].entered = true;
    state.counting_since = now;
  }
  void leave() {
    if (state.counting_since != 0) state.steps[state.step].ms += now - state.counting_since;
    state.counting_since = 0;
  }
  void hold() {
    leave();
    state.phase = Phase::held;
  }
  void resume() {
    state.phase = Phase::running;
    state.counting_since = now;
  }
  void finish() {
    leave();
    state.phase = Phase::finished;
  }
  VisitPace pace() const { return pace_visit(lesson, times, state, kStart, now); }
};

std::vector<std::int64_t> seconds(const VisitPace& pace) {
  std::vector<std::int64_t> all;
  for (const PacedItem& step : pace.steps) all.push_back(step.ms / 1000);
  return all;
}
using Seconds = std::vector<std::int64_t>;

}  // namespace

TEST_CASE(
    "before the start the whole lesson is paced from the planned start, or from now if that is "
    "later") {
  Visit visit;
  visit.now = kStart - 30 * kMinute;
  // 49 minutes for 45.
  CHECK(seconds(visit.pace()) == Seconds{600, 600, 600, 300, 600});
  CHECK(visit.pace().slack == 4 * 60);
  CHECK(visit.pace().to_bell == 80 * 60);
  CHECK(visit.pace().step_left == 600);

  visit.now = kStart + 4 * kMinute;
  CHECK(visit.pace().slack == 0);
  CHECK(visit.pace().to_bell == 46 * 60);
  visit.now = kStart + 14 * kMinute;  // 35 minutes: 80 % of 40 + 5 would be 36
  CHECK(seconds(visit.pace()) == Seconds{525, 525, 525, 0, 525});
  CHECK(visit.pace().steps[3].why == PaceWhy::left_out_hurry);
  visit.now = kStart + 49 * kMinute;  // the reserve begins; the musts need 20 minutes
  CHECK(visit.pace().short_by == 20 * 60);
  visit.now = kStart + 51 * kMinute;  // a minute after the bell
  CHECK(visit.pace().to_bell == -60);
  CHECK(visit.pace().short_by == 22 * 60);
  for (const bool over : visit.pace().over) CHECK_FALSE(over);
}

TEST_CASE("a step on time keeps its allotment while the second hand runs, and so do those ahead") {
  Visit visit;
  visit.now = kStart + 20 * kMinute + 333;  // 29 minutes less 333 ms for 45: hurried
  visit.enter(0);
  const VisitPace begun = visit.pace();
  const std::int64_t allotted = begun.steps[0].ms;
  CHECK(seconds(begun) == Seconds{434, 434, 434, 0, 434});  // 28:59 / 4 = 434.75
  for (std::int64_t spent = 0; spent <= allotted; spent += 997) {
    visit.now = visit.state.counting_since + spent;
    const VisitPace pace = visit.pace();
    for (std::size_t i = 0; i < pace.steps.size(); ++i)
      CHECK(pace.steps[i].ms == begun.steps[i].ms);
    CHECK(pace.step_left == (allotted - spent) / 1000);
    CHECK(pace.slack == begun.slack);
  }
}

TEST_CASE("only the seconds over its allotment press on the rest, and time left goes below zero") {
  Visit visit;
  visit.now = kStart + 9 * kMinute;  // 40 minutes for 45
  visit.enter(0);
  // s = 40 / 45: eight ninths of ten minutes is 533.3 s; filler stays, 8 / 9 is above 80 %.
  CHECK(seconds(visit.pace()) == Seconds{533, 533, 533, 266, 533});
  visit.now += 540'000;
  CHECK(visit.pace().step_left == -7);  // 533.333 - 540, a begun second counts
  // 540 are gone; 1860 s are left for 2100.
  CHECK(seconds(visit.pace()) == Seconds{540, 531, 531, 265, 531});
  visit.now += 60'000;
  CHECK(visit.pace().step_left == -67);
  CHECK(seconds(visit.pace()) == Seconds{600, 514, 514, 257, 514});  // 1800 / 2100
  visit.now += 200'000;  // 1600 left: 80 % of 2100 is 1680, so filler goes
  CHECK(seconds(visit.pace()) == Seconds{800, 533, 533, 0, 533});
  visit.now += 900'000;  // 700 left where the musts need 900
  CHECK(seconds(visit.pace()) == Seconds{1700, 300, 300, 0, 300});
  CHECK(visit.pace().short_by == 200);
  visit.now += 1'000'000;  // 300 s into the reserve and past the bell
  CHECK(visit.pace().to_bell == -240);
  CHECK(visit.pace().short_by == 1200);
}

TEST_CASE("a step left early gives its time to the rest") {
  Visit visit;
  visit.now = kStart + 9 * kMinute;
  visit.enter(0);
  visit.now += 300'000;
  visit.enter(1);
  // 2100 s left for 2100.
  CHECK(seconds(visit.pace()) == Seconds{300, 600, 600, 300, 600});
  CHECK(visit.pace().over == std::vector<bool>{true, false, false, false, false});
  CHECK(visit.pace().slack == 0);
  visit.now += 100'000;
  visit.enter(2);
  CHECK(visit.pace().slack == 500);
  CHECK(visit.pace().steps[1].ms == 100'000);
  CHECK(visit.pace().steps[1].why == PaceWhy::as_planned);
}

TEST_CASE("held, the bell comes nearer while the step's clock stands still") {
  Visit visit;
  visit.enter(0);
  visit.now += 100'000;
  visit.hold();
  CHECK(visit.pace().slack == 240);
  CHECK(visit.pace().step_left == 500);
  visit.now += 240'000;
  CHECK(visit.pace().slack == 0);
  CHECK(visit.pace().step_left == 500);
  visit.now += 270'000;  // 2430 s left, of the 2700 planned: s = 0.9
  CHECK(seconds(visit.pace()) == Seconds{540, 540, 540, 270, 540});
  CHECK(visit.pace().step_left == 440);
  visit.resume();
  visit.now += 40'000;
  CHECK(visit.pace().step_left == 400);
  CHECK(seconds(visit.pace()) == Seconds{540, 540, 540, 270, 540});
}

TEST_CASE("the current step is kept whatever its class or choice, and a step passed by is not") {
  Visit visit;
  visit.enter(0);
  visit.now += 30 * kMinute;
  visit.state.choices[3] = Choice::drop;
  visit.enter(3);
  const VisitPace pace = visit.pace();
  CHECK(pace.steps[3].kept);
  CHECK(pace.steps[0].kept);
  CHECK_FALSE(pace.steps[1].kept);
  CHECK(pace.steps[1].ms == 0);
  CHECK(seconds(pace) == Seconds{1800, 0, 0, 300, 600});
}

TEST_CASE("time already spent in a step ahead is not planned again") {
  Visit visit;
  visit.enter(0);
  visit.now += 60'000;
  visit.enter(1);  // too early
  visit.now += 20'000;
  visit.enter(0);  // and back
  const VisitPace pace = visit.pace();
  CHECK(seconds(pace) == Seconds{600, 580, 600, 300, 600});
  CHECK(pace.step_left == 540);
  CHECK(pace.slack == 240);  // the visit is as far as if it had never gone ahead
  visit.now += 540'000;
  visit.enter(1);
  CHECK(seconds(visit.pace()) == Seconds{600, 600, 600, 300, 600});
  CHECK(visit.pace().step_left == 580);
  CHECK(visit.pace().slack == 240);
}

TEST_CASE("finished, everything is over and nothing is left") {
  Visit visit;
  visit.enter(0);
  visit.now += kMinute;
  visit.enter(4);
  visit.now += kMinute;
  visit.finish();
  visit.now += 60 * kMinute;
  const VisitPace pace = visit.pace();
  CHECK(pace.over == std::vector<bool>(5, true));
  CHECK(seconds(pace) == Seconds{60, 0, 0, 0, 60});
  CHECK(pace.steps[4].kept);
  CHECK_FALSE(pace.steps[3].kept);
  CHECK(pace.step_left == 0);
  CHECK(pace.slack == 0);
  CHECK(pace.short_by == 0);
  CHECK(pace.to_bell == -12 * 60);
  CHECK(next_step(pace, visit.state) == 5);
}

TEST_CASE("the next step is the next one kept") {
  Visit visit;
  visit.enter(0);
  CHECK(next_step(visit.pace(), visit.state) == 1);
  visit.state.choices[1] = Choice::drop;
  CHECK(next_step(visit.pace(), visit.state) == 2);
  visit.enter(2);
  CHECK(next_step(visit.pace(), visit.state) == 3);
  visit.state.choices[3] = Choice::drop;
  CHECK(next_step(visit.pace(), visit.state) == 4);
  visit.enter(4);
  CHECK(next_step(visit.pace(), visit.state) == 5);
}

TEST_CASE(
    "a team that follows the page ends when the reserve begins, or with the slack shown at the "
    "start") {
  std::mt19937_64 random(20'261);
  const auto between = [&](std::int64_t low, std::int64_t high) {
    return low + static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(high - low + 1));
  };
  int hurried = 0;
  for (int round = 0; round < 500; ++round) {
    Visit visit;
    visit.lesson.steps.clear();
    visit.times.clear();
    visit.state = {};
    for (std::int64_t i = between(1, 20); i > 0; --i) {
      const std::int64_t min = between(0, 200), plan = min + between(0, 400);
      visit.add({min, plan, 2 * plan}, static_cast<Keep>(between(0, 2)));
    }
    visit.now = kStart + between(0, 999);
    visit.state.bell_at = visit.now + between(0, 3'000'000);
    VisitPace pace = visit.pace();
    if (pace.short_by > 0) continue;
    const std::int64_t slack = pace.slack;
    hurried += slack == 0;
    visit.enter(0);
    if (visit.pace().short_by > 0) continue;  // an optional first step, begun nevertheless
    if (!pace.steps[0].kept) continue;
    for (std::size_t step = 0; step < visit.lesson.steps.size();
         step = next_step(pace, visit.state)) {
      visit.enter(step);
      pace = visit.pace();
      visit.now += pace.steps[step].ms;
      pace = visit.pace();
      CHECK(pace.short_by == 0);
    }
    visit.finish();
    const std::int64_t early = visit.state.bell_at - 60'000 - visit.now;
    CHECK(early >= 0);
    // Each step may round its time down by less than a second; a step coming back uses slack up.
    CHECK(early / 1000 <= slack + 1);
    if (slack == 0) CHECK(early < 2'000);
  }
  CHECK(hurried > 100);
}
