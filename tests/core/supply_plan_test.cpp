// A shelf walked through a season by hand. Common practice behind the figures: two seeds of a kind
// a child, a stem cut in thirds, trays that are brought back.
#include "core/supply_plan.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

KitItem item(std::string id, std::string per, std::int64_t count, std::int64_t cut_parts,
             std::vector<Pack> packs, bool reusable = false) {
  KitItem made;
  made.id = std::move(id);
  made.per = std::move(per);
  made.count = count;
  made.cut_parts = cut_parts;
  made.packs = std::move(packs);
  made.reusable = reusable;
  return made;
}

Lesson garden() {
  Lesson lesson;
  lesson.kit = {item("tray", "table", 1, 1, {{1, 0}}, true), item("bean", "child", 2, 1, {{50, 0}}),
                item("stem", "child", 1, 3, {{10, 0}}),
                item("cotton", "child", 4, 1, {{50, 100}, {200, 300}})};
  return lesson;
}

constexpr std::size_t kTray = 0, kBean = 1, kStem = 2, kCotton = 3;

Date march(unsigned day) {
  return Date{std::chrono::year{2027}, std::chrono::March, std::chrono::day{day}};
}

// 22 + 3 kits on the 9th, 20 + 2 the same day, 20 + 2 two days later.
std::vector<SupplyVisit> season() {
  return {{march(9), {22, 4, 3, 3}}, {march(9), {20, 5, 3, 2}}, {march(11), {20, 7, 3, 2}}};
}

SupplyPlan plan_of(std::size_t item, const std::vector<SupplyVisit>& visits,
                   std::vector<Shelf> start = {}) {
  for (SupplyPlan& plan : plan_supplies(garden(), visits, start)) {
    if (plan.item == item) return plan;
  }
  FAIL("no plan");
  return {};
}

using Counts = std::vector<std::int64_t>;

}  // namespace

TEST_CASE("items come in packing order, with a step for each visit") {
  const auto plans = plan_supplies(garden(), season());
  REQUIRE(plans.size() == 4);
  CHECK(plans[0].item == kBean);
  CHECK(plans[1].item == kStem);
  CHECK(plans[2].item == kCotton);
  CHECK(plans[3].item == kTray);
  for (const SupplyPlan& plan : plans) CHECK(plan.steps.size() == 3);
  CHECK(plan_supplies(garden(), {}).empty());
}

TEST_CASE("an opened pack goes to the next visit, and a new one is bought when it runs short") {
  const SupplyPlan beans = plan_of(kBean, season());
  // 50 + 44 + 44 = 138 beans in three packs of 50.
  CHECK(beans.order == Counts{3});
  CHECK(beans.price_cents == 0);
  const std::int64_t bought[] = {1, 1, 1}, left[] = {0, 6, 12};
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(beans.steps[i].buy == Counts{bought[i]});
    CHECK(beans.steps[i].taken == beans.steps[i].pieces);
    CHECK(beans.steps[i].left == Shelf{left[i], 0});
  }
}

TEST_CASE("parts left over are used before a stem is cut") {
  const SupplyPlan stems = plan_of(kStem, season());
  // 25 pieces: 9 stems, 2 parts left. 22: these 2 and 20 from 7 stems, 1 left. 22: 1 and 21 from 7.
  const std::int64_t old_parts[] = {0, 2, 1}, taken[] = {9, 7, 7}, parts[] = {2, 1, 0};
  const std::int64_t left[] = {1, 4, 7}, bought[] = {1, 1, 1};
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(stems.steps[i].old_parts == old_parts[i]);
    CHECK(stems.steps[i].taken == taken[i]);
    CHECK(stems.steps[i].left == Shelf{left[i], parts[i]});
    CHECK(stems.steps[i].buy == Counts{bought[i]});
  }
  CHECK(stems.order == Counts{3});  // 23 stems for 69 pieces
}

TEST_CASE("what is reusable is needed for the fullest day only, and is back after each visit") {
  const SupplyPlan trays = plan_of(kTray, season());
  // 4 + 5 on the 9th, 7 on the 11th.
  CHECK(trays.order == Counts{9});
  CHECK(trays.steps[0].buy == Counts{9});
  CHECK(trays.steps[1].buy == Counts{0});
  CHECK(trays.steps[2].buy == Counts{0});
  CHECK(trays.steps[2].taken == 7);
  for (const SupplyStep& step : trays.steps) CHECK(step.left == Shelf{9, 0});
  std::vector<SupplyVisit> later = season();
  later[2].needs.tables = 12;
  const SupplyPlan more = plan_of(kTray, later);
  CHECK(more.order == Counts{12});
  CHECK(more.steps[2].buy == Counts{3});
}

TEST_CASE("of several sizes the cheapest order is bought, the larger packs first") {
  const SupplyPlan cotton = plan_of(kCotton, season());
  // 100 + 88 + 88 = 276: 200 + 2 x 50 at 5.00; two of 200 would be 6.00.
  CHECK(cotton.order == Counts{2, 1});
  CHECK(cotton.price_cents == 500);
  CHECK(cotton.steps[0].buy == Counts{0, 1});
  CHECK(cotton.steps[0].left == Shelf{100, 0});
  CHECK(cotton.steps[1].buy == Counts{0, 0});
  CHECK(cotton.steps[2].buy == Counts{2, 0});
  CHECK(cotton.steps[2].left == Shelf{24, 0});
}

TEST_CASE("what is on the shelf is used first, parts before whole pieces") {
  std::vector<Shelf> shelf(4);
  shelf[kBean] = {138, 0};
  shelf[kStem] = {3, 20};
  shelf[kTray] = {8, 0};
  CHECK(plan_of(kBean, season(), shelf).order == Counts{0});
  const SupplyPlan stems = plan_of(kStem, season(), shelf);
  CHECK(stems.start == Shelf{3, 20});
  CHECK(stems.steps[0].old_parts == 20);
  CHECK(stems.steps[0].taken == 2);
  CHECK(stems.steps[0].left == Shelf{1, 1});
  CHECK(stems.steps[0].buy == Counts{0});
  CHECK(stems.order == Counts{2});  // 69 - 20 parts are 17 stems, 3 are there
  CHECK(plan_of(kTray, season(), shelf).order == Counts{1});
}
