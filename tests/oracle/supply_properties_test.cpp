// What must hold for any lesson's kit, any season and any shelf (rapidcheck).
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "core/supply_plan.h"

using namespace trowelbell;

namespace {

std::int64_t any(std::int64_t least, std::int64_t end) {
  return *rc::gen::inRange<std::int64_t>(least, end);
}

KitItem any_item(const char* per) {
  KitItem item;
  item.per = per;
  item.count = any(1, 9);
  item.reusable = any(0, 4) == 0;
  item.cut_parts = item.reusable ? 1 : any(1, 7);
  item.packs = {{any(1, 101), any(1, 500)}};
  while (item.packs.size() < 3 && any(0, 2) == 0) item.packs.push_back({any(1, 101), any(1, 900)});
  return item;
}

Lesson any_kit() {
  Lesson lesson;
  for (const char* per : {"child", "table", "adult", "visit"}) lesson.kit.push_back(any_item(per));
  return lesson;
}

std::vector<SupplyVisit> any_season() {
  std::vector<SupplyVisit> visits;
  Date date{std::chrono::year{2027} / 3 / 9};
  for (std::int64_t left = any(1, 6); left > 0; --left) {
    visits.push_back({date, {any(1, 61), any(1, 21), any(1, 21), any(0, 7)}});
    date = add_days(date, any(0, 3));
  }
  return visits;
}

std::vector<Shelf> any_shelf(const Lesson& lesson) {
  std::vector<Shelf> shelf;
  for (const KitItem& item : lesson.kit) {
    shelf.push_back({any(0, 300), item.cut_parts > 1 ? any(0, 40) : 0});
  }
  return shelf;
}

std::int64_t held(const KitItem& item, const std::vector<std::int64_t>& packs) {
  std::int64_t pieces = 0;
  for (std::size_t i = 0; i < packs.size(); ++i) pieces += packs[i] * item.packs[i].size;
  return pieces;
}

std::int64_t needed(const SupplyPlan& plan) {
  std::int64_t pieces = 0;
  for (const SupplyStep& step : plan.steps) pieces += step.pieces;
  return pieces;
}

std::int64_t taken(const SupplyPlan& plan) {
  std::int64_t pieces = 0;
  for (const SupplyStep& step : plan.steps) pieces += step.taken;
  return pieces;
}

}  // namespace

TEST_CASE("a plan balances at every visit, and all that is ordered is bought") {
  CHECK(rc::check([] {
    const Lesson lesson = any_kit();
    for (const SupplyPlan& plan : plan_supplies(lesson, any_season(), any_shelf(lesson))) {
      const KitItem& item = lesson.kit[plan.item];
      Shelf shelf = plan.start;
      std::vector<std::int64_t> bought(item.packs.size());
      for (const SupplyStep& step : plan.steps) {
        for (std::size_t i = 0; i < bought.size(); ++i) bought[i] += step.buy[i];
        shelf.pieces += held(item, step.buy);
        RC_ASSERT(step.pieces == step.sets * item.count);
        RC_ASSERT(step.taken <= shelf.pieces);  // never more than there is
        RC_ASSERT(step.old_parts <= shelf.parts);
        RC_ASSERT(step.old_parts + step.taken * item.cut_parts >= step.pieces);
        shelf.pieces -= item.reusable ? 0 : step.taken;
        shelf.parts += step.taken * item.cut_parts - step.pieces;
        RC_ASSERT(step.left == shelf);
      }
      RC_ASSERT(bought == plan.order);
    }
  }));
}

TEST_CASE("one more child never needs fewer kits, pieces or money") {
  CHECK(rc::check([] {
    const Lesson lesson = any_kit();
    std::vector<SupplyVisit> visits = any_season();
    const std::vector<Shelf> shelf = any_shelf(lesson);
    const auto before = plan_supplies(lesson, visits, shelf);
    KitNeeds& needs =
        visits[static_cast<std::size_t>(any(0, static_cast<std::int64_t>(visits.size())))].needs;
    ++needs.children;
    RC_ASSERT(usual_spares(needs.children) >= usual_spares(needs.children - 1));
    const auto after = plan_supplies(lesson, visits, shelf);
    for (std::size_t i = 0; i < after.size(); ++i) {
      RC_ASSERT(needed(after[i]) >= needed(before[i]));
      RC_ASSERT(taken(after[i]) >= taken(before[i]));
      RC_ASSERT(after[i].price_cents >= before[i].price_cents);
      for (std::size_t visit = 0; visit < visits.size(); ++visit) {
        RC_ASSERT(after[i].steps[visit].sets >= before[i].steps[visit].sets);
      }
    }
  }));
}

TEST_CASE("carrying leftovers never takes more pieces or money than visits by themselves") {
  CHECK(rc::check([] {
    const Lesson lesson = any_kit();
    const std::vector<SupplyVisit> visits = any_season();
    std::vector<std::int64_t> pieces(lesson.kit.size()), price(lesson.kit.size());
    for (const SupplyVisit& visit : visits) {
      for (const SupplyPlan& plan : plan_supplies(lesson, std::span(&visit, 1))) {
        pieces[plan.item] += taken(plan);
        price[plan.item] += plan.price_cents;
      }
    }
    for (const SupplyPlan& plan : plan_supplies(lesson, visits)) {
      RC_ASSERT(taken(plan) <= pieces[plan.item]);
      RC_ASSERT(plan.price_cents <= price[plan.item]);
    }
  }));
}

TEST_CASE("a fuller shelf never costs more") {
  CHECK(rc::check([] {
    const Lesson lesson = any_kit();
    const std::vector<SupplyVisit> visits = any_season();
    std::vector<Shelf> shelf = any_shelf(lesson);
    const auto before = plan_supplies(lesson, visits, shelf);
    for (std::size_t i = 0; i < shelf.size(); ++i) {
      shelf[i].pieces += any(0, 50);
      shelf[i].parts += lesson.kit[i].cut_parts > 1 ? any(0, 20) : 0;
    }
    const auto after = plan_supplies(lesson, visits, shelf);
    for (std::size_t i = 0; i < after.size(); ++i) {
      RC_ASSERT(after[i].price_cents <= before[i].price_cents);
    }
  }));
}
