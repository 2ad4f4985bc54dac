// Small lessons worked out by hand; the arithmetic stands beside each. tests/oracle checks the same
// rules against brute force, exact optimality conditions and GLPK.
#include "core/pacing.h"

#include <doctest/doctest.h>

#include <string>

using namespace trowelbell;

namespace {

PaceItem must(std::int64_t min, std::int64_t plan) {
  return {{min, plan, 2 * plan}, Keep::must, 0};
}
PaceItem should(std::int64_t min, std::int64_t plan, std::int64_t worth) {
  return {{min, plan, 2 * plan}, Keep::should, worth};
}
PaceItem may(std::int64_t min, std::int64_t plan, std::int64_t worth) {
  return {{min, plan, 2 * plan}, Keep::may, worth};
}
PaceItem by_lead(PaceItem item, Choice choice) {
  item.choice = choice;
  return item;
}

// One letter a step: p as planned, s shortened, left out for h hurry, t time, l by the lead.
std::string outcome(const Pace& pace) {
  std::string text;
  for (const PacedItem& item : pace.items) {
    text += "pshtl"[static_cast<std::size_t>(item.why)];  // in the order of PaceWhy
    const bool left_out = text.back() != 'p' && text.back() != 's';
    CHECK(item.kept != left_out);
    if (left_out) CHECK(item.ms == 0);
  }
  return text;
}

std::vector<std::int64_t> times(const Pace& pace) {
  std::vector<std::int64_t> ms;
  for (const PacedItem& item : pace.items) ms.push_back(item.ms);
  return ms;
}

using Items = std::vector<PaceItem>;
using Ms = std::vector<std::int64_t>;

struct Row {
  std::string what;
  Items items;
  std::int64_t available;
  std::string outcome;
  Ms ms;
  std::int64_t short_by = 0;
  std::int64_t slack = 0;
};

void check_rows(const std::vector<Row>& rows, std::int64_t comfort_percent = 80) {
  for (const Row& row : rows) {
    CAPTURE(row.what);
    CAPTURE(row.available);
    const Pace pace = pace_to_bell(row.items, row.available, comfort_percent);
    CHECK(outcome(pace) == row.outcome);
    CHECK(times(pace) == row.ms);
    CHECK(pace.short_by == row.short_by);
    CHECK(pace.slack == row.slack);
  }
}

}  // namespace

TEST_CASE("one scale shortens every step, and a step at its shortest leaves the sharing") {
  check_rows({
      {"no steps", {}, 100, "", {}, 0, 100},
      {"exactly the plan", {must(60, 120), must(60, 180)}, 300, "pp", {120'000, 180'000}},
      {"ahead: slack is shown, nothing is stretched",
       {must(60, 120), must(60, 180)},
       310,
       "pp",
       {120'000, 180'000},
       0,
       10},
      {"half the time: s = 150 / 300", {must(0, 100), must(0, 200)}, 150, "ss", {50'000, 100'000}},
      // s would be 290 / 400 = 0.725, but 72.5 < 90: without it 200 / 300 = 2 / 3.
      {"one at its shortest",
       {must(90, 100), must(0, 100), must(0, 200)},
       290,
       "sss",
       {90'000, 66'667, 133'333}},
      // The example in content/METHODS.md: 50 / 140 of 100 and of 40.
      {"as the methods say",
       {must(60, 100), must(0, 100), must(0, 40)},
       110,
       "sss",
       {60'000, 35'714, 14'286}},
      // 250 / 400 = 0.625 holds the first at 95; 155 / 300 = 0.517 then holds the second at 60; 95
      // / 200 is left.
      {"one after the other",
       {must(95, 100), must(60, 100), must(0, 200)},
       250,
       "sss",
       {95'000, 60'000, 95'000}},
      {"all at their shortest", {must(60, 100), must(40, 50)}, 100, "ss", {60'000, 40'000}},
      {"a step that cannot be shortened",
       {must(100, 100), must(0, 100)},
       150,
       "ps",
       {100'000, 50'000}},
      {"a step without time", {must(0, 0), must(0, 100)}, 50, "ps", {0, 50'000}},
      {"nothing but steps without time", {must(0, 0), must(0, 0)}, 0, "pp", {0, 0}},
      {"no time for steps that can take none", {must(0, 10), must(0, 20)}, 0, "ss", {0, 0}},
  });
}

TEST_CASE(
    "milliseconds left over by rounding go to the largest remainders, the earlier step first") {
  check_rows({
      // 33,333 1/3 each.
      {"equal remainders",
       {must(0, 100), must(0, 100), must(0, 100)},
       100,
       "sss",
       {33'334, 33'333, 33'333}},
      // 100 / 7 s for each part: 14,285 5/7, 28,571 3/7, 57,142 6/7 ms.
      {"the largest two",
       {must(0, 50), must(0, 100), must(0, 200)},
       100,
       "sss",
       {14'286, 28'571, 57'143}},
      // 2 / 3 s each: 666 2/3 ms, two left over.
      {"two of three", {must(0, 1), must(0, 1), must(0, 1)}, 2, "sss", {667, 667, 666}},
  });
}

TEST_CASE("when the musts alone do not fit, it says by how much and keeps nothing else") {
  check_rows({
      {"ten short",
       {must(60, 100), must(50, 80), should(0, 5, 9), may(0, 0, 9)},
       100,
       "sstt",
       {60'000, 50'000, 0, 0},
       10},
      {"just enough",
       {must(60, 100), must(50, 80), should(0, 5, 9), may(0, 0, 9)},
       110,
       "sssp",
       {60'000, 50'000, 0, 0}},
      {"no time", {must(60, 100), must(0, 80)}, 0, "ss", {60'000, 0}, 60},
      {"less than none counts as none", {must(60, 60), must(0, 80)}, -500, "ps", {60'000, 0}, 60},
  });
}

TEST_CASE("the should steps of highest worth stay, and a tie goes to the earlier step") {
  check_rows({
      // 6 s for 10, or 5 + 5 s for 9 + 9: the single best step is not the best set.
      {"not the greedy choice",
       {should(6, 6, 10), should(5, 5, 9), should(5, 5, 9)},
       10,
       "tpp",
       {0, 5'000, 5'000}},
      // By worth a second 3 : 1 the first would go in first, and shut out the second.
      {"nor the greedy share", {should(2, 2, 6), should(10, 10, 10)}, 10, "tp", {0, 10'000}},
      {"equal steps",
       {should(5, 5, 4), should(5, 5, 4), should(5, 5, 4)},
       10,
       "ppt",
       {5'000, 5'000, 0}},
      {"one early against two late",
       {should(9, 10, 10), should(5, 5, 5), should(5, 5, 5)},
       10,
       "ptt",
       {10'000, 0, 0}},
      {"the first decides",
       {should(5, 5, 5), should(10, 10, 10), should(5, 5, 5)},
       10,
       "ptp",
       {5'000, 0, 5'000}},
      {"the second decides",
       {should(5, 5, 5), should(5, 5, 5), should(10, 10, 10)},
       10,
       "ppt",
       {5'000, 5'000, 0}},
      {"no worth, but room", {should(6, 6, 7), should(4, 4, 0)}, 10, "pp", {6'000, 4'000}},
      {"no worth, no room", {should(4, 4, 0), should(7, 7, 1)}, 10, "tp", {0, 7'000}, 0, 3},
      {"musts first",
       {must(8, 8), should(3, 3, 1000), should(2, 2, 1)},
       10,
       "ptp",
       {8'000, 0, 2'000}},
      // 8 + 2 fit at their shortest only: a should step stays though everyone is hurried.
      {"hurried", {must(8, 10), should(2, 10, 1)}, 10, "ss", {8'000, 2'000}},
  });
}

TEST_CASE("filler goes before anyone is hurried below comfort") {
  check_rows({
      // Comfortable: 80 + 16 = 96 of 100 + 20.
      {"just comfortable", {must(60, 100), may(10, 20, 5)}, 96, "ss", {80'000, 16'000}},
      {"one second less", {must(60, 100), may(10, 20, 5)}, 95, "sh", {95'000, 0}},
      {"hurried as it is", {must(60, 100), may(10, 20, 5)}, 75, "sh", {75'000, 0}},
      {"not even at its shortest", {must(60, 100), may(20, 20, 5)}, 79, "st", {79'000, 0}},
      {"at its shortest it would fit", {must(60, 100), may(20, 20, 5)}, 80, "sh", {80'000, 0}},
      // A shortest time above comfort counts as it is: 95 + 16 = 111.
      {"stiff", {must(95, 100), may(10, 20, 5)}, 111, "ss", {95'000, 16'000}},
      {"stiff, one less", {must(95, 100), may(10, 20, 5)}, 110, "ph", {100'000, 0}, 0, 10},
      {"a should step goes before filler",
       {must(60, 100), should(10, 20, 1), may(1, 20, 1000)},
       96,
       "ssh",
       {80'000, 16'000, 0}},
      // 20 s of comfort left: 16 s for 10, or 8 + 8 s for 6 + 6.
      {"the best filler",
       {must(80, 80), may(0, 20, 10), may(0, 10, 6), may(0, 10, 6)},
       100,
       "phpp",
       {80'000, 0, 10'000, 10'000}},
      {"filler without time hurries nobody",
       {must(60, 100), may(0, 0, 5), may(0, 10, 9)},
       70,
       "sph",
       {70'000, 0, 0}},
  });
}

TEST_CASE("comfort is counted in hundredths of a second, not rounded to seconds") {
  // 83 % of 7 + 5 is 5.81 + 4.15 = 9.96: ten seconds do, although 6 + 5 would not; s is 10 / 12.
  const Items items{must(0, 7), may(0, 5, 1)};
  check_rows({{"ten", items, 10, "ss", {5'833, 4'167}}, {"nine", items, 9, "ph", {7'000, 0}, 0, 2}},
             83);
  check_rows({{"all of the plan", items, 11, "ph", {7'000, 0}, 0, 4},
              {"", items, 12, "pp", {7'000, 5'000}}},
             100);
  check_rows({{"1 % of 12 s", items, 1, "ss", {583, 417}}, {"", items, 0, "sh", {0, 0}}}, 1);
}

TEST_CASE("the lead's word goes first") {
  check_rows({
      {"a must left out",
       {by_lead(must(60, 100), Choice::drop), must(50, 50)},
       60,
       "lp",
       {0, 50'000},
       0,
       10},
      {"filler kept counts as a must",
       {must(60, 100), by_lead(may(10, 20, 0), Choice::keep)},
       70,
       "ss",
       {60'000, 10'000}},
      {"and may be what does not fit",
       {must(60, 100), by_lead(may(10, 20, 0), Choice::keep)},
       69,
       "ss",
       {60'000, 10'000},
       1},
      {"it goes before a should step",
       {should(5, 5, 1000), by_lead(should(6, 6, 0), Choice::keep)},
       10,
       "tp",
       {0, 6'000},
       0,
       4},
      {"left out with room", {by_lead(may(1, 1, 9), Choice::drop)}, 10, "l", {0}, 0, 10},
      {"left out when short",
       {must(60, 60), by_lead(should(1, 1, 9), Choice::drop)},
       10,
       "pl",
       {60'000, 0},
       50},
  });
}

TEST_CASE("steps each worth twice the next keep the binary digits of the time") {
  // Times 2^k and worths 2^k fill any room exactly, in one way only.
  Items items;
  for (int k = 19; k >= 0; --k) {
    items.push_back(should(std::int64_t{1} << k, std::int64_t{1} << k, std::int64_t{1} << k));
  }
  while (items.size() < kMostPaceItems) items.push_back(must(0, 0));
  for (const std::int64_t room : {0, 1, 77'777, 524'287, 524'288, 1'000'000, 1'048'575}) {
    CAPTURE(room);
    const Pace pace = pace_to_bell(items, room, 80);
    for (std::size_t i = 0; i < 20; ++i) CHECK(pace.items[i].kept == ((room >> (19 - i) & 1) == 1));
    CHECK(pace.slack == 0);
  }
}

TEST_CASE("the most and the longest steps stay exact") {
  Items items(kMostPaceItems, must(0, kMostStepSeconds));
  items[0] = must(kMostStepSeconds, kMostStepSeconds);
  // 63 steps share a lack of one second, 15.873 ms each: 16 for most, and 15 for the first eight.
  const Pace pace = pace_to_bell(items, 64 * kMostStepSeconds - 1, 80);
  std::int64_t sum = 0;
  for (std::size_t i = 0; i < items.size(); ++i) {
    CHECK(pace.items[i].ms == (i == 0 ? 1'000'000'000 : i <= 8 ? 999'999'985 : 999'999'984));
    sum += pace.items[i].ms;
  }
  CHECK(sum == (64 * kMostStepSeconds - 1) * 1000);
  CHECK(pace_to_bell(items, 9'000'000'000'000, 100).slack ==
        9'000'000'000'000 - 64 * kMostStepSeconds);
}
