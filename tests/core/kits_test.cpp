// Common practice behind the figures: two seeds of each of two kinds and four cotton balls a child,
// a stem cut in thirds serves three, a few spare kits beyond the class.
#include "core/kits.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

KitItem item(std::string id, std::string per, std::int64_t count, std::int64_t cut_parts,
             std::int64_t pack) {
  KitItem made;
  made.id = std::move(id);
  made.per = std::move(per);
  made.count = count;
  made.cut_parts = cut_parts;
  made.packs = {{pack, 0}};
  return made;
}

Lesson garden() {
  Lesson lesson;
  lesson.kit = {item("sheet", "visit", 1, 1, 1),   item("bean", "child", 2, 1, 100),
                item("cotton", "child", 4, 1, 80), item("stem", "child", 1, 3, 10),
                item("towel", "table", 2, 1, 6),   item("badge", "adult", 1, 1, 1)};
  return lesson;
}

HeadCount head_count(std::int64_t present, std::int64_t late, std::int64_t absent,
                     std::int64_t left_early, std::int64_t unknown) {
  HeadCount count;
  count.present = present;
  count.late = late;
  count.absent = absent;
  count.left_early = left_early;
  count.unknown = unknown;
  count.places = present + late + absent + left_early + unknown;
  return count;
}

}  // namespace

TEST_CASE("a class of 24 with three spares, four tables and three adults") {
  const auto lines = bill_of_materials(garden(), KitNeeds{24, 4, 3, 3});
  struct Row {
    const char* id;
    std::int64_t sets, pieces, stock, offcuts;
  };
  // 27 kits: 54 beans, 108 cotton balls, 27 stem pieces from 9 stems.
  const Row expected[] = {{"bean", 27, 54, 54, 0}, {"cotton", 27, 108, 108, 0},
                          {"stem", 27, 27, 9, 0},  {"towel", 4, 8, 8, 0},
                          {"badge", 3, 3, 3, 0},   {"sheet", 1, 1, 1, 0}};
  REQUIRE(lines.size() == std::size(expected));
  const Lesson lesson = garden();
  for (std::size_t index = 0; index < lines.size(); ++index) {
    const Row& row = expected[index];
    CAPTURE(row.id);
    CHECK(lesson.kit[lines[index].item].id == row.id);
    CHECK(lines[index].sets == row.sets);
    CHECK(lines[index].pieces == row.pieces);
    CHECK(lines[index].stock == row.stock);
    CHECK(lines[index].offcuts == row.offcuts);
  }
}

TEST_CASE("a stem cut in thirds serves three; one child more begins another stem") {
  const std::int64_t stems[] = {0, 1, 1, 1, 2, 2, 2, 3};
  for (std::int64_t children = 1; children < 8; ++children) {
    const auto lines = bill_of_materials(garden(), KitNeeds{children, 1, 1, 0});
    CHECK(lines[2].stock == stems[children]);
    CHECK(lines[2].offcuts == stems[children] * 3 - children);
  }
}

TEST_CASE("spares come from the kits the brief brings, or the usual few") {
  Brief brief;
  brief.children = 22;
  brief.kits = 25;
  CHECK(needs_of(brief).spares == 3);
  brief.kits = 20;  // too few: none to spare
  CHECK(needs_of(brief).spares == 0);
  brief.kits = 0;
  CHECK(needs_of(brief).spares == usual_spares(22));
  CHECK(usual_spares(1) == 2);
  CHECK(usual_spares(20) == 2);
  CHECK(usual_spares(21) == 3);
  CHECK(usual_spares(60) == 6);
}

TEST_CASE("a short packing table gives as many kits as its scarcest item allows") {
  const auto from = [](const std::map<std::string, std::int64_t>& lacking) {
    return kits_from(garden(), 20, lacking);
  };
  CHECK(from({}) == 20);
  CHECK(from({{"cotton", 0}}) == 20);
  CHECK(from({{"cotton", 1}}) == 19);  // four a child: one short and a kit is not whole
  CHECK(from({{"cotton", 4}}) == 19);
  CHECK(from({{"cotton", 5}}) == 18);
  CHECK(from({{"cotton", 5}, {"stem", 3}}) == 17);
  CHECK(from({{"cotton", 999}}) == 0);
  CHECK(from({{"towel", 2}, {"kite", 5}}) == 20);  // no part of a kit
}

TEST_CASE("after the visit the kits balance to zero") {
  // 27 brought, 20 came (17 present, 2 late, 1 left early), 3 absent, 1 not counted, 2 spoiled.
  const KitPiles piles = expected_piles(27, head_count(17, 2, 3, 1, 1), 2);
  CHECK(piles.given == 20);
  CHECK(piles.with_teacher == 4);
  CHECK(piles.spoiled == 2);
  CHECK(piles.spare == 1);
  CHECK(piles.unaccounted() == 0);
}

TEST_CASE("too few kits go to the children in the room first") {
  const KitPiles piles = expected_piles(20, head_count(18, 0, 4, 0, 0), 1);
  CHECK(piles.given == 18);
  CHECK(piles.with_teacher == 1);
  CHECK(piles.spare == 0);
  CHECK(piles.unaccounted() == 0);
  const KitPiles none = expected_piles(5, head_count(18, 0, 4, 0, 0), 9);
  CHECK(none.spoiled == 5);
  CHECK(none.given == 0);
  CHECK(none.unaccounted() == 0);
}
