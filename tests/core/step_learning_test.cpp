#include "core/step_learning.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

// A step of the whole group, the story, and one done child by child.
Lesson lesson() {
  Lesson made;
  made.id = "window-garden";
  made.steps.resize(3);
  made.steps[0].id = "hello";
  made.steps[0].seconds = {40, 60, 120};
  made.steps[1].id = "story";
  made.steps[1].reading = true;
  made.steps[2].id = "plant";
  made.steps[2].seconds = {60, 100, 150};
  made.steps[2].per_child = {10, 20, 40};
  return made;
}

Story story() {
  Story made;
  made.pages.resize(1);
  made.pages[0].text.en = "A bean slept.";  // 3 words: 2 s, and 4 for the turn
  return made;
}

ReportFacts report(std::int64_t children, std::int64_t adults, std::int64_t hello,
                   std::int64_t plant) {
  ReportFacts facts;
  facts.lesson = "window-garden";
  facts.children.places = facts.children.present = children;
  facts.adults = adults;
  facts.ended_at = 1;
  facts.steps = {{"hello", 999, hello, Outcome::done},
                 {"story", 999, 12, Outcome::done},
                 {"plant", 999, plant, Outcome::done}};
  return facts;
}

LearnedTimes learn(const std::vector<ReportFacts>& reports, std::size_t least = 5) {
  return learn_times(lesson(), story(), reports, least);
}

void check_spread(const std::optional<Spread>& spread, double low, double middle, double high) {
  REQUIRE(spread);
  CHECK(spread->low == doctest::Approx(low));
  CHECK(spread->middle == doctest::Approx(middle));
  CHECK(spread->high == doctest::Approx(high));
}

// 12 children with 3 adults are 4 rounds, planned 180 s; 24 with 3 are 8, planned 260; with 4, 6:
// 220.
const std::vector<ReportFacts> kFive = {report(12, 3, 50, 180), report(24, 3, 60, 260),
                                        report(24, 4, 75, 330), report(20, 4, 90, 300),
                                        report(23, 3, 140, 520)};

}  // namespace

TEST_CASE("five visits, worked out by hand") {
  const LearnedTimes learned = learn(kFive);
  CHECK(learned.visits == 5);
  REQUIRE(learned.steps.size() == 3);
  const LearnedStep& hello = learned.steps[0];
  CHECK(hello.all.visits == 5);
  check_spread(hello.all.seconds, 54, 75, 120);
  check_spread(hello.all.of_plan, 0.9, 1.25, 2);
  REQUIRE(hello.proposed);
  CHECK(hello.proposed->seconds == StepSeconds{40, 75, 120});
  CHECK(hello.proposed->per_child == StepSeconds{});

  // Shares of the plan: 1, 1, 1.5, 1.5 (5 rounds, 200 s), 2 (8 rounds).
  const LearnedStep& plant = learned.steps[2];
  check_spread(plant.all.seconds, 212, 300, 444);
  check_spread(plant.all.of_plan, 1, 1.5, 1.8);
  REQUIRE(plant.proposed);
  CHECK(plant.proposed->seconds == StepSeconds{60, 150, 180});
  CHECK(plant.proposed->per_child == StepSeconds{10, 30, 40});
  CHECK_FALSE(plant.proposed->at_shortest);

  // The story's time comes from its pages.
  CHECK(learned.steps[1].all.visits == 5);
  check_spread(learned.steps[1].all.of_plan, 2, 2, 2);
  CHECK_FALSE(learned.steps[1].proposed);
}

TEST_CASE("bands by the children who were there, each with its own count") {
  const LearnedTimes learned = learn(kFive, 3);
  const LearnedStep& hello = learned.steps[0];
  CHECK(hello.bands[0].visits == 1);
  CHECK(hello.bands[1].visits == 1);
  CHECK(hello.bands[2].visits == 3);
  CHECK_FALSE(hello.bands[0].seconds);
  check_spread(hello.bands[2].seconds, 63, 75, 127);

  std::vector<ReportFacts> edges;
  for (const std::int64_t children : {1, 15, 16, 22, 23, 60}) {
    edges.push_back(report(children, 3, 60, 60));
  }
  const LearnedTimes at_edges = learn(edges);
  for (const StepSample& band : at_edges.steps[0].bands) CHECK(band.visits == 2);
  CHECK(at_edges.steps[0].all.visits == 6);
}

TEST_CASE("who is absent is not waited for; who was not counted is taken to be there") {
  ReportFacts facts = report(24, 3, 60, 260);
  facts.children = {24, 10, 1, 12, 1, 0};  // 12 came: 4 rounds, 180 s
  CHECK(learn({facts}, 1).steps[2].all.of_plan->middle == doctest::Approx(260 / 180.0));
  facts.children = {24, 0, 0, 0, 0, 24};
  CHECK(learn({facts}, 1).steps[2].all.of_plan->middle == doctest::Approx(1));
  facts.children = {24, 0, 0, 24, 0, 0};
  CHECK(learn({facts}, 1).visits == 0);
}

TEST_CASE("under the least number of visits there is a count and nothing else") {
  const std::vector<ReportFacts> four(kFive.begin(), kFive.end() - 1);
  const LearnedTimes learned = learn(four);
  CHECK(learned.steps[0].all.visits == 4);
  CHECK_FALSE(learned.steps[0].all.seconds);
  CHECK_FALSE(learned.steps[0].all.of_plan);
  CHECK_FALSE(learned.steps[0].proposed);
  CHECK(learn(kFive, 5).steps[0].proposed);
  CHECK_FALSE(learn(kFive, 6).steps[0].proposed);
  CHECK(learn({}).visits == 0);
  CHECK_FALSE(learn({}, 1).steps[0].proposed);
}

TEST_CASE(
    "what does not count: left out, not reached, no time, other lessons, a clock that ran on") {
  ReportFacts left_out = kFive[0], not_reached = kFive[0], no_time = kFive[0], other = kFive[0],
              unended = kFive[0];
  left_out.steps[0].outcome = Outcome::left_out;
  not_reached.steps[0].outcome = Outcome::not_reached;
  no_time.steps[0].actual_seconds = 0;
  other.lesson = "another";
  unended.ended_at = 0;
  for (const ReportFacts& facts : {left_out, not_reached, no_time}) {
    CHECK(learn({facts}, 1).steps[0].all.visits == 0);
    CHECK(learn({facts}, 1).steps[2].all.visits == 1);
  }
  CHECK(learn({other}, 1).visits == 0);
  CHECK(learn({unended}, 1).steps[0].all.visits == 1);
  CHECK(learn({unended}, 1).steps[2].all.visits == 0);
  unended.steps[2].outcome = Outcome::not_reached;
  CHECK(learn({unended}, 1).steps[1].all.visits == 0);

  ReportFacts renamed = kFive[0];
  renamed.steps[0].id = "greeting";
  CHECK(learn({renamed}, 1).unknown == std::set<std::string>{"greeting"});
  CHECK(learn({renamed}, 1).steps[0].all.visits == 0);
}

TEST_CASE("one absurd visit moves the middle by one place and no more") {
  std::vector<ReportFacts> reports = kFive;
  reports[4].steps[0].actual_seconds = 86'400;
  CHECK(learn(reports).steps[0].all.seconds->middle == 75);
  CHECK(learn(reports).steps[0].proposed->seconds.plan == 75);
  CHECK(learn(reports).steps[0].proposed->seconds.max <= kLongestStepSeconds);
}

TEST_CASE("the shortest time stays, the longest only grows, and a plan is at least a second") {
  const auto all = [](std::int64_t hello) {
    return learn(std::vector<ReportFacts>(5, report(24, 3, hello, 260))).steps[0].proposed;
  };
  CHECK(all(20)->seconds == StepSeconds{40, 40, 120});
  CHECK(all(20)->at_shortest);
  CHECK(all(40)->seconds == StepSeconds{40, 40, 120});
  CHECK_FALSE(all(40)->at_shortest);
  CHECK(all(200)->seconds == StepSeconds{40, 200, 200});
  CHECK(all(86'400)->seconds == StepSeconds{40, kLongestStepSeconds, kLongestStepSeconds});

  Lesson loose = lesson();
  loose.steps[0].seconds = {0, 10, 10};
  const std::vector<ReportFacts> quick(5, report(24, 3, 1, 260));
  loose.steps[0].seconds.plan = 3;
  CHECK(learn_times(loose, story(), quick, 5).steps[0].proposed->seconds == StepSeconds{0, 1, 10});
}
