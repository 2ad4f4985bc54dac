#include "core/rollup.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

ReportFacts report(std::string visit, std::string sponsor, std::string school, Date date) {
  ReportFacts facts;
  facts.visit = std::move(visit);
  facts.lesson = "window-garden";
  facts.sponsor = std::move(sponsor);
  facts.school = std::move(school);
  facts.date = date;
  facts.began_at = 1'000'000;
  facts.ended_at = 3'400'000;
  facts.bell_at = 3'700'000;
  facts.steps = {{"hello", 60, 70, Outcome::done},
                 {"song", 60, 0, Outcome::left_out},
                 {"goodbye", 60, 0, Outcome::not_reached}};
  facts.children = {24, 20, 1, 2, 1, 0};
  facts.adults = 3;
  facts.adult_minutes = 270;
  facts.kits = {27, 22, 1, 2, 1};
  facts.mishaps = {{"spill", 2}};
  return facts;
}

const Date kMarch = std::chrono::year{2027} / 3 / 9, kApril = std::chrono::year{2027} / 4 / 1;

}  // namespace

TEST_CASE("volunteer value: 3 adults for an hour and a half, by hand and half a cent up") {
  // 4.5 h at $31.80 (2022 data) are $143.10; at $29.95 (2021 data) $134.775.
  CHECK(value_cents(270, 3180) == 14'310);
  CHECK(value_cents(270, 2995) == 13'478);
  CHECK(value_cents(1, 29) == 0);  // 0.483 cents
  CHECK(value_cents(1, 30) == 1);
  CHECK(value_cents(0, 3180) == 0);
}

TEST_CASE("a rate is dollars and cents as they are written") {
  CHECK(parse_cents("31.80") == 3180);
  CHECK(parse_cents("31") == 3100);
  CHECK(parse_cents("0.01") == 1);
  CHECK(parse_cents("9999.99") == 999'999);
  for (const char* bad : {"", "0", "0.00", "31.8", "31.800", "10000", "-1", "+1", "1e3", "$31",
                          " 31", "31 ", ".80", "31.", "31.-1", "31,80", "3 1"}) {
    CAPTURE(bad);
    CHECK(parse_cents(bad) == std::nullopt);
  }
}

TEST_CASE("one report's totals") {
  const Totals totals =
      totals_of(report("a", "Kettle", "Fern", kMarch), 3180, {{"a", {20, 21}}, {"b", {1, 1}}});
  CHECK(totals.visits == 1);
  CHECK(totals.ended == 1);
  CHECK(totals.by_bell == 1);
  CHECK(totals.children.came() == 22);
  CHECK(totals.adult_minutes == 270);
  CHECK(totals.value_cents == 14'310);
  CHECK(totals.left_out.size() == 1);
  CHECK(totals.left_out.at({"window-garden", "song"}) == 1);
  CHECK(totals.told == 1);
  CHECK(totals.sprouts.sprouted == 20);
  CHECK(totals.sprouts.children == 21);
  CHECK(totals_of(report("a", "", "", kMarch), 0, {}).value_cents == 0);
  CHECK(totals_of(report("a", "", "", kMarch), 0, {}).told == 0);
}

TEST_CASE("ended by the bell: at the very moment yes, later no, and without an end nobody knows") {
  struct Row {
    std::int64_t ended_at, ended, by_bell;
  };
  for (const Row& row : {Row{3'700'000, 1, 1}, Row{3'700'001, 1, 0}, Row{0, 0, 0}}) {
    CAPTURE(row.ended_at);
    ReportFacts facts = report("a", "", "", kMarch);
    facts.ended_at = row.ended_at;
    const Totals totals = totals_of(facts, 0, {});
    CHECK(totals.ended == row.ended);
    CHECK(totals.by_bell == row.by_bell);
  }
}

TEST_CASE("three visits, worked out by hand, by sponsor, school and month") {
  ReportFacts second = report("b", "Wheel", "Fern", kApril);
  second.children = {10, 8, 0, 1, 0, 1};
  second.kits = {12, 8, 0, 1, 2};
  second.mishaps = {{"small-parts", 1}, {"spill", 1}};
  second.steps[0].outcome = Outcome::left_out;
  second.ended_at = 0;
  second.adult_minutes = 31;
  const ReportFacts reports[] = {report("a", "Kettle", "Fern", kMarch), second,
                                 report("c", "Kettle", "Tansy", kApril)};
  const RollUp rollup = roll_up(reports, 2995, {{"b", {7, 8}}, {"c", {20, 22}}});
  const Totals& all = rollup.all;
  CHECK(all.visits == 3);
  CHECK(all.ended == 2);
  CHECK(all.by_bell == 2);
  CHECK(all.children.places == 58);
  CHECK(all.children.came() == 52);
  CHECK(all.children.present == 48);
  CHECK(all.children.late == 2);
  CHECK(all.children.left_early == 2);
  CHECK(all.children.absent == 5);
  CHECK(all.children.unknown == 1);
  CHECK(all.kits.brought == 66);
  CHECK(all.kits.given == 52);
  CHECK(all.kits.spoiled == 2);
  CHECK(all.kits.with_teacher == 5);
  CHECK(all.kits.spare == 4);
  CHECK(all.kits.unaccounted() == 3);
  CHECK(all.adult_minutes == 571);
  CHECK(all.value_cents == 13'478 + 1'547 + 13'478);  // 31 minutes: 1547.4 cents
  CHECK(all.mishaps == std::map<std::string, std::int64_t>{{"small-parts", 1}, {"spill", 5}});
  CHECK(all.left_out.at({"window-garden", "song"}) == 3);
  CHECK(all.left_out.at({"window-garden", "hello"}) == 1);
  CHECK(all.told == 2);
  CHECK(all.sprouts.sprouted == 27);
  CHECK(all.sprouts.children == 30);

  const auto names = [&](Grouping grouping) {
    std::string list;
    for (const auto& [name, totals] : rollup.groups[static_cast<std::size_t>(grouping)]) {
      list += name + " " + std::to_string(totals.visits) + " ";
    }
    return list;
  };
  CHECK(names(Grouping::sponsor) == "Kettle 2 Wheel 1 ");
  CHECK(names(Grouping::school) == "Fern 2 Tansy 1 ");
  CHECK(names(Grouping::month) == "2027-03 1 2027-04 2 ");
  CHECK(rollup.groups[0].at("Wheel").children.came() == 8);
  CHECK(roll_up({}, 0, {}).all.visits == 0);
}
