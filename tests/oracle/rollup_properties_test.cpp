// Whatever comes in, the groups add up to the whole, and the whole to the reports (rapidcheck).
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>

#include "core/rollup.h"
#include "core/visit_reports.h"

using namespace trowelbell;

namespace {

std::int64_t number(std::int64_t most) {
  return *rc::gen::inRange<std::int64_t>(0, most + 1);
}

ReportFacts any_report() {
  ReportFacts facts;
  facts.visit = "v" + std::to_string(number(12));
  facts.device = std::string(16, static_cast<char>('a' + number(2)));
  facts.revision = 1 + number(3);
  facts.events = number(40);
  facts.lesson = *rc::gen::element<std::string>("window-garden", "other");
  facts.sponsor = *rc::gen::element<std::string>("", "Kettle", "Wheel");
  facts.school = *rc::gen::element<std::string>("Fern", "Tansy", "=Snail");
  facts.date = add_days(Date{std::chrono::year{2027}, std::chrono::January, std::chrono::day{20}},
                        number(60));
  facts.began_at = 1;
  facts.bell_at = 1000;
  facts.ended_at = number(1) * (900 + number(200));
  facts.steps = {{"hello", 60, 70, static_cast<Outcome>(number(2))},
                 {"song", 60, 0, static_cast<Outcome>(number(2))}};
  facts.children = {0, number(20), number(5), number(5), number(5), number(5)};
  facts.children.places = facts.children.came() + facts.children.absent + facts.children.unknown;
  facts.adult_minutes = number(300);
  facts.kits = {number(30), number(30), number(5), number(5), number(5)};
  if (number(1) == 1) facts.mishaps["spill"] = 1 + number(4);
  if (number(3) == 1) facts.mishaps["small-parts"] = 1;
  return facts;
}

// Every number by its name, counted by hand: nothing of Totals is used but its fields.
using Numbers = std::map<std::string, std::int64_t>;

Numbers numbers(const Totals& totals) {
  Numbers all = {{"visits", totals.visits},
                 {"ended", totals.ended},
                 {"by_bell", totals.by_bell},
                 {"places", totals.children.places},
                 {"present", totals.children.present},
                 {"late", totals.children.late},
                 {"absent", totals.children.absent},
                 {"left_early", totals.children.left_early},
                 {"unknown", totals.children.unknown},
                 {"brought", totals.kits.brought},
                 {"given", totals.kits.given},
                 {"spoiled", totals.kits.spoiled},
                 {"with_teacher", totals.kits.with_teacher},
                 {"spare", totals.kits.spare},
                 {"unaccounted", totals.kits.unaccounted()},
                 {"minutes", totals.adult_minutes},
                 {"cents", totals.value_cents},
                 {"told", totals.told},
                 {"sprouted", totals.sprouts.sprouted},
                 {"sprout_children", totals.sprouts.children}};
  for (const auto& [card, times] : totals.mishaps) all["mishap " + card] = times;
  for (const auto& [step, visits] : totals.left_out)
    all["out " + step.first + "/" + step.second] = visits;
  return all;
}

void add(Numbers& to, const Numbers& more) {
  for (const auto& [name, value] : more) to[name] += value;
}

Numbers numbers(const ReportFacts& report, std::int64_t rate, const SproutCounts& sprouts) {
  const auto& [places, present, late, absent, left_early, unknown] = report.children;
  const auto& [brought, given, spoiled, with_teacher, spare] = report.kits;
  Numbers all = {{"visits", 1},
                 {"ended", report.ended_at != 0},
                 {"by_bell", report.ended_at != 0 && report.ended_at <= report.bell_at},
                 {"places", places},
                 {"present", present},
                 {"late", late},
                 {"absent", absent},
                 {"left_early", left_early},
                 {"unknown", unknown},
                 {"brought", brought},
                 {"given", given},
                 {"spoiled", spoiled},
                 {"with_teacher", with_teacher},
                 {"spare", spare},
                 {"unaccounted", brought - given - spoiled - with_teacher - spare},
                 {"minutes", report.adult_minutes},
                 // Half up, by doubling: floor((2 a + b) / 2 b) is a / b rounded.
                 {"cents", (2 * report.adult_minutes * rate + 60) / 120},
                 {"told", 0},
                 {"sprouted", 0},
                 {"sprout_children", 0}};
  for (const auto& [card, times] : report.mishaps) all["mishap " + card] = times;
  for (const StepFacts& step : report.steps) {
    if (step.outcome == Outcome::left_out) all["out " + report.lesson + "/" + step.id] = 1;
  }
  if (const auto told = sprouts.find(report.visit); told != sprouts.end()) {
    all["told"] = 1;
    all["sprouted"] = told->second.sprouted;
    all["sprout_children"] = told->second.children;
  }
  return all;
}

}  // namespace

TEST_CASE("groups add up to the whole and the whole to the reports") {
  CHECK(rc::check([] {
    std::vector<ReportFacts> reports(static_cast<std::size_t>(number(25)));
    std::generate(reports.begin(), reports.end(), any_report);
    const std::int64_t rate = number(5000);
    SproutCounts sprouts;
    for (std::int64_t i = 0; i < 12; i += 1 + number(3)) {
      const std::int64_t children = 1 + number(30);
      sprouts["v" + std::to_string(i)] = {number(children), children};
    }
    const RollUp rollup = roll_up(reports, rate, sprouts);
    Numbers expected = numbers(Totals{});
    for (const ReportFacts& report : reports) add(expected, numbers(report, rate, sprouts));
    RC_ASSERT(numbers(rollup.all) == expected);
    for (const auto& groups : rollup.groups) {
      Numbers sum = numbers(Totals{});
      for (const auto& group : groups) add(sum, numbers(group.second));
      RC_ASSERT(sum == expected);
    }
  }));
}

TEST_CASE("each visit counts once, whatever the order the reports came in") {
  CHECK(rc::check([] {
    std::vector<ReportFacts> reports(static_cast<std::size_t>(number(25)));
    std::generate(reports.begin(), reports.end(), any_report);
    const CountedReports counted = count_reports(reports);
    std::map<std::string, ReportFacts> chosen;
    for (const std::size_t index : counted.counted) {
      RC_ASSERT(chosen.emplace(reports[index].visit, reports[index]).second);
    }
    std::size_t others = 0;
    for (const SharedVisit& shared : counted.shared) others += shared.others.size();
    RC_ASSERT(counted.counted.size() + others + counted.repeated == reports.size());
    for (const ReportFacts& report : reports) {
      RC_ASSERT(chosen.count(report.visit) == 1);
      const ReportFacts& counts = chosen.at(report.visit);
      if (report.device == counts.device) RC_ASSERT(report.revision <= counts.revision);
    }
    std::vector<ReportFacts> turned(reports.rbegin(), reports.rend());
    const CountedReports again = count_reports(turned);
    RC_ASSERT(again.counted.size() == counted.counted.size());
    for (std::size_t i = 0; i < again.counted.size(); ++i) {
      const ReportFacts &one = reports[counted.counted[i]], &two = turned[again.counted[i]];
      RC_ASSERT(one.visit == two.visit);
      RC_ASSERT(one.device == two.device);
      RC_ASSERT(one.revision == two.revision);
      RC_ASSERT(one.events == two.events);
    }
  }));
}
