// Acceptance values are worked from the published table in harrington.h, by the rule in
// content/METHODS.md, "Sprouting": 1/days linear between columns in exact Celsius.
#include "core/sprouting.h"

#include <doctest/doctest.h>

#include <cmath>
#include <functional>

#include "core/temperature.h"
#include "tests/core/harrington.h"

using namespace trowelbell;
using namespace trowelbell::harrington;

namespace {

constexpr double celsius(double fahrenheit) {
  return celsius_of(fahrenheit);
}

Date date(std::string_view text) {
  return parse_date(text).value_or(Date{});
}

Brief in_room(std::string_view sown, double day, double night, double closed) {
  Brief brief;
  brief.date = date(sown);
  brief.warmth = {day, night, closed};
  return brief;
}

// Daily temperatures from a weekday on (Monday 0), weekends apart.
std::vector<double> week_by_week(int first_weekday, double weekdays, double weekend) {
  std::vector<double> daily;
  daily.reserve(60);
  for (int day = 0; day < 60; ++day) {
    daily.push_back((first_weekday + day) % 7 < 5 ? weekdays : weekend);
  }
  return daily;
}

struct Expected {
  double pea, snap, lima, radish, lettuce;
};

void check_all(const Expected& days,
               const std::function<std::optional<double>(const Species&)>& found) {
  const std::pair<Species, double> crops[] = {{pea(), days.pea},
                                              {snap_bean(), days.snap},
                                              {lima_bean(), days.lima},
                                              {radish(), days.radish},
                                              {lettuce(), days.lettuce}};
  for (const auto& crop : crops) {
    CAPTURE(crop.first.id);
    const auto answer = found(crop.first);
    REQUIRE(answer);
    CHECK(std::abs(*answer - crop.second) < 0.0006);
  }
}

constexpr int kMonday = 0;
constexpr int kFriday = 4;

}  // namespace

TEST_CASE("a room as warm as a column gives the table's own days") {
  for (const Species& species : {pea(), snap_bean(), lima_bean(), radish(), lettuce()}) {
    for (const EmergenceColumn& column : species.emergence) {
      CAPTURE(species.id);
      CAPTURE(column.celsius);
      CHECK(days_to_emerge(species, column.celsius) == doctest::Approx(column.days).epsilon(1e-12));
      CHECK(percent_at(species, column.celsius) == column.percent);
    }
  }
  CHECK(celsius(68) == doctest::Approx(20));
}

TEST_CASE("between columns the rate is linear") {
  check_all({7.448, 10.154, 13.341, 4.000, 2.700},
            [](const Species& species) { return days_to_emerge(species, celsius(70)); });
  check_all({1 / .133333, 1 / .097727, 1 / .073016, 4, 1 / .366667},
            [](const Species& species) { return days_to_emerge(species, 21); });
}

TEST_CASE("a week of 70 F with a weekend at 60 F, sown on Monday and on Friday") {
  const auto sown = [](int weekday, double weekdays, double weekend) {
    return [=](const Species& species) {
      const auto daily = week_by_week(weekday, celsius(weekdays), celsius(weekend));
      return days_to_emerge(species, daily);
    };
  };
  check_all({7.770, 10.821, 15.482, 4.000, 2.700}, sown(kMonday, 70, 60));
  check_all({7.770, 11.487, 16.036, 4.593, 3.300}, sown(kFriday, 70, 60));
  check_all({8.250, 12.250, 20.516, 4.667, 3.500}, sown(kFriday, 68, 59));
}

TEST_CASE("outside the published columns there is no number") {
  CHECK_FALSE(days_to_emerge(snap_bean(), celsius(58)));
  CHECK_FALSE(days_to_emerge(lima_bean(), celsius(58)));
  CHECK_FALSE(days_to_emerge(pea(), celsius(40)));
  CHECK_FALSE(days_to_emerge(radish(), celsius(40)));
  for (const Species& species : {pea(), snap_bean(), lima_bean(), radish(), lettuce()}) {
    CHECK_FALSE(days_to_emerge(species, celsius(87)));
    CHECK(percent_at(species, celsius(87)) == 0);
  }
  CHECK_FALSE(days_to_emerge(Species{}, 20));
}

TEST_CASE("days too cold add nothing, a day too hot ends the forecast, days may run out") {
  std::vector<double> daily(20, 20.0);
  daily[2] = daily[5] = 10;  // two lost days for snap bean
  CHECK(days_to_emerge(snap_bean(), daily) == doctest::Approx(13));
  daily[12] = 40;  // on the last day it matters
  CHECK_FALSE(days_to_emerge(snap_bean(), daily));
  daily[12] = 20;
  daily[13] = 40;  // after that it does not
  CHECK(days_to_emerge(snap_bean(), daily) == doctest::Approx(13));
  CHECK_FALSE(days_to_emerge(snap_bean(), std::span(daily).first(12)));
  CHECK_FALSE(days_to_emerge(snap_bean(), std::span<const double>{}));
}

TEST_CASE("pea's first root by published thermal time, not above its warmest") {
  struct Row {
    double warmth, days;
  };
  for (const Row& row : {Row{15.56, 3.38}, {20, 2.66}, {22.22, 2.41}, {25, 2.15}}) {
    CAPTURE(row.warmth);
    const auto found = days_to_root(pea(), row.warmth);
    REQUIRE(found);
    CHECK(std::abs(*found - row.days) < 0.006);
  }
  CHECK(days_to_root(pea(), 27.5));
  CHECK_FALSE(days_to_root(pea(), 27.6));
  CHECK_FALSE(days_to_root(pea(), 4));
  CHECK_FALSE(days_to_root(snap_bean(), 20));
}

TEST_CASE("a steady room of 20 C gives dates from the same room 1.5 C either way") {
  const Brief brief = in_room("2027-03-08", 20, 20, 20);
  // Snap bean: 9.89, 11 and 12.14 days; pea: 7.27, 8 and 8.28; pea's root: 2.49, 2.66 and 2.87.
  const SproutForecast bean = forecast(snap_bean(), brief);
  CHECK(bean.warmth == Warmth::known);
  CHECK(bean.leaves == DayRange{date("2027-03-17"), date("2027-03-19"), date("2027-03-21")});
  CHECK(bean.root == DayRange{date("2027-03-11"), date("2027-03-12"), date("2027-03-13")});
  CHECK(bean.germination_percent == 70);
  const SproutForecast peas = forecast(pea(), brief);
  CHECK(peas.leaves == DayRange{date("2027-03-15"), date("2027-03-16"), date("2027-03-17")});
  CHECK(peas.root == DayRange{date("2027-03-10"), date("2027-03-11"), date("2027-03-11")});
  CHECK(peas.germination_percent == 80);
}

TEST_CASE("70 F is not 21 C, and a forecast sees the difference") {
  // Lima bean, emergence at a steady 70 F: 13.341 days; at 21 C: 1 / .073016 = 13.696 (both above).
  const auto middle = [](double warmth) {
    return forecast(lima_bean(), in_room("2027-03-08", warmth, warmth, warmth)).leaves.middle;
  };
  CHECK(middle(celsius(70)) == add_days(date("2027-03-08"), 13));
  CHECK(middle(21) == add_days(date("2027-03-08"), 14));
}

TEST_CASE("the forecast follows weekends and closed days") {
  // Sown on a Friday, 68 F by day and night, 59 F at weekends: 12.250 days (see above).
  Brief brief = in_room("2027-03-05", 20, 20, 15);
  CHECK(forecast(snap_bean(), brief).leaves.middle == date("2027-03-17"));
  // With a week's break from Monday 8 on: Friday 1/11, nine days at 1/16, then Monday 15 on at 1/11
  // each: 10 + (1 - 1/11 - 9/16) x 11 = 13.8 days.
  brief.closed = {{date("2027-03-08"), date("2027-03-12")}};
  CHECK(forecast(snap_bean(), brief).leaves.middle == date("2027-03-19"));
}

TEST_CASE("a night colder than the table stops growth, not the forecast") {
  // Nine hours of a school day at 1/11 a day and nothing else: 29.33 school days, from a
  // Monday 39.33 days.
  const SproutForecast seen = forecast(snap_bean(), in_room("2027-03-08", 20, 10, 10));
  CHECK(seen.warmth == Warmth::known);
  CHECK(seen.leaves.middle == add_days(date("2027-03-08"), 39));
}

TEST_CASE("rates are averaged over a day, not temperatures") {
  // Radish at 20 C takes 4 days, at 5 C 29: (9/4 + 15/29)/24 a day = 8.67 days. Its mean, 10.6 C,
  // would give 10.0 days.
  const SproutForecast seen = forecast(radish(), in_room("2027-03-08", 20, 5, 20));
  // From Monday: five school days, two days at 20 C: 5 x .11530 + 2 x .25 = 1.0765, out during
  // Sunday.
  CHECK(seen.leaves.middle == add_days(date("2027-03-08"), 7));
  // Wednesday to Friday .3459, a weekend at 20 C .8459, then 1.34 school days: 6.34 days.
  CHECK(forecast(radish(), in_room("2027-03-10", 20, 5, 20)).leaves.middle ==
        add_days(date("2027-03-10"), 6));
}

TEST_CASE("too cold and too warm give no dates") {
  const SproutForecast cold = forecast(snap_bean(), in_room("2027-03-08", 14, 12, 12));
  CHECK(cold.warmth == Warmth::too_cold);
  CHECK(cold.leaves == DayRange{});
  CHECK(cold.root == DayRange{});
  CHECK(cold.germination_percent == 0);
  CHECK(forecast(snap_bean(), in_room("2027-03-08", 31, 20, 20)).warmth == Warmth::too_warm);
  CHECK(forecast(snap_bean(), in_room("2027-03-08", 20, 20, 31)).warmth == Warmth::too_warm);
  // 28 C is in pea's table but above the warmest of its thermal time.
  CHECK(forecast(pea(), in_room("2027-03-08", 28, 20, 20)).warmth == Warmth::too_warm);
  CHECK(forecast(pea(), in_room("2027-03-08", 27, 20, 20)).warmth == Warmth::known);
}

TEST_CASE("at the edge of the table the range ends with it") {
  // 15 C is snap bean's coldest column: the cooler room is not known, so the late date is the
  // middle one.
  const SproutForecast edge = forecast(snap_bean(), in_room("2027-03-08", 15, 15, 15));
  CHECK(edge.leaves.middle == add_days(date("2027-03-08"), 16));
  CHECK(edge.leaves.latest == edge.leaves.middle);
  CHECK(edge.leaves.earliest < edge.leaves.middle);
  // 30 C is its warmest: the warmer room is not known; 1.5 C cooler it takes 6.49 days.
  const SproutForecast hot = forecast(snap_bean(), in_room("2027-03-08", 30, 30, 30));
  CHECK(hot.leaves.earliest == add_days(date("2027-03-08"), 6));
  CHECK(hot.leaves.middle == hot.leaves.earliest);
  CHECK(hot.leaves.latest == add_days(date("2027-03-08"), 7));
}

TEST_CASE("a hot sill lowers the share to plan with below the legal minimum") {
  CHECK(forecast(snap_bean(), in_room("2027-03-08", 30, 20, 20)).germination_percent == 47);
  CHECK(forecast(lima_bean(), in_room("2027-03-08", 20, 15, 20)).germination_percent == 52);
  CHECK(forecast(lettuce(), in_room("2027-03-08", 30, 20, 20)).germination_percent == 12);
  CHECK(forecast(radish(), in_room("2027-03-08", 5, 5, 5)).germination_percent == 42);
  const RoomWarmth steady{20, 20, 20};
  CHECK(planning_percent(snap_bean(), steady, 85) == 85);  // the packet's own word
  CHECK(planning_percent(snap_bean(), steady, 99) == 90);  // but not above the published share
  CHECK(planning_percent(snap_bean(), steady, 55) == 55);
  CHECK(planning_percent(snap_bean(), {20, 10, 10}) == 70);  // 10 C is not in bean's table
  Species unlisted = snap_bean();
  unlisted.legal_minimum_percent = 0;
  CHECK(forecast(unlisted, in_room("2027-03-08", 20, 20, 20)).germination_percent == 90);
}
