// What must hold for any room, calendar and class (rapidcheck).
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "core/kits.h"
#include "core/school_days.h"
#include "core/sheet.h"
#include "tests/core/harrington.h"

using namespace trowelbell;

namespace {

Date any_date() {
  return add_days(Date{std::chrono::year{2000}, std::chrono::January, std::chrono::day{1}},
                  *rc::gen::inRange<std::int64_t>(0, 73'049));
}

// from/10 to before end/10 degrees, in steps of a tenth.
double tenths(int from, int end) {
  return *rc::gen::inRange(from, end) / 10.0;
}

Species any_species() {
  return *rc::gen::element(harrington::pea(), harrington::snap_bean(), harrington::lima_bean(),
                           harrington::radish());
}

Brief any_calendar() {
  Brief brief;
  brief.date = any_date();
  const auto breaks = *rc::gen::inRange(0, 4);
  for (int count = 0; count < breaks; ++count) {
    const Date from = add_days(brief.date, *rc::gen::inRange<std::int64_t>(0, 40));
    brief.closed.push_back({from, add_days(from, *rc::gen::inRange<std::int64_t>(0, 15))});
  }
  return brief;
}

}  // namespace

TEST_CASE("dates survive writing and reading, and days added can be taken off") {
  CHECK(rc::check([] {
    const Date date = any_date();
    RC_ASSERT(parse_date(format_date(date)) == date);
    const auto days = *rc::gen::inRange<std::int64_t>(-400, 400);
    RC_ASSERT(days_between(date, add_days(date, days)) == days);
    RC_ASSERT(add_days(add_days(date, days), -days) == date);
  }));
}

TEST_CASE("up to its best warmth, a warmer room never delays a seed") {
  CHECK(rc::check([] {
    const Species species = any_species();
    Brief cool = any_calendar();
    // 25 C with the range's 1.5 on top: these four grow ever faster that far.
    const auto temperature = [] { return tenths(50, 251); };
    cool.warmth = {temperature(), temperature(), temperature()};
    Brief warm = cool;
    for (double* part : {&warm.warmth.day, &warm.warmth.night, &warm.warmth.closed}) {
      *part = std::min(25.0, *part + tenths(0, 60));
    }
    const SproutForecast slow = forecast(species, cool);
    const SproutForecast quick = forecast(species, warm);
    RC_ASSERT(slow.warmth != Warmth::too_warm);
    if (slow.warmth == Warmth::too_cold) return;
    RC_ASSERT(quick.warmth == Warmth::known);
    for (const DayRange SproutForecast::*part : {&SproutForecast::root, &SproutForecast::leaves}) {
      RC_ASSERT((quick.*part).earliest <= (slow.*part).earliest);
      RC_ASSERT((quick.*part).middle <= (slow.*part).middle);
      RC_ASSERT((quick.*part).latest <= (slow.*part).latest);
    }
  }));
}

TEST_CASE("a range is in order, and a sheet is on school days after the visit, in order") {
  CHECK(rc::check([] {
    Brief brief = any_calendar();
    const auto temperature = [] { return tenths(0, 401); };
    brief.warmth = {temperature(), temperature(), temperature()};
    const std::vector<Species> species{any_species(), any_species()};
    const Sheet sheet = make_sheet(brief, species);
    for (const SproutForecast& seen : sheet.forecasts) {
      RC_ASSERT(seen.leaves.earliest <= seen.leaves.middle);
      RC_ASSERT(seen.leaves.middle <= seen.leaves.latest);
      RC_ASSERT(seen.root.earliest <= seen.root.middle);
      RC_ASSERT(seen.root.middle <= seen.root.latest);
    }
    Date last = brief.date;
    for (const SheetLine& line : sheet.lines) {
      RC_ASSERT(is_school_day(brief, line.from));
      RC_ASSERT(is_school_day(brief, line.to));
      RC_ASSERT(line.from > brief.date);
      RC_ASSERT(line.from >= last);
      RC_ASSERT(line.to >= line.from);
      last = line.from;
    }
  }));
}

TEST_CASE("expected piles balance, and nobody gets a kit that was not brought") {
  CHECK(rc::check([] {
    HeadCount count;
    for (std::int64_t HeadCount::*part : {&HeadCount::present, &HeadCount::late, &HeadCount::absent,
                                          &HeadCount::left_early, &HeadCount::unknown}) {
      count.*part = *rc::gen::inRange<std::int64_t>(0, 21);
      count.places += count.*part;
    }
    const auto brought = *rc::gen::inRange<std::int64_t>(0, 121);
    const KitPiles piles = expected_piles(brought, count, *rc::gen::inRange<std::int64_t>(0, 30));
    RC_ASSERT(piles.unaccounted() == 0);
    RC_ASSERT(piles.given >= 0 && piles.given <= count.came());
    RC_ASSERT(piles.with_teacher >= 0 && piles.spare >= 0 && piles.spoiled >= 0);
    RC_ASSERT(piles.with_teacher == 0 || piles.given == count.came());
    RC_ASSERT(piles.spare == 0 || piles.with_teacher == count.absent + count.unknown);
  }));
}
