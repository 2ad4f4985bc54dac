#include "sprouting.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "school_days.h"

namespace trowelbell {
namespace {

// Far below what a table in whole days can mean; keeps 8 days from becoming 9 by a rounding error.
constexpr double kDayRounding = 1e-6;

using Rate = double (*)(const Species&, double celsius);

double coldest(const Species& species) {
  return species.emergence.empty() ? 1 : species.emergence.front().celsius;
}

double warmest(const Species& species) {
  return species.emergence.empty() ? 0 : species.emergence.back().celsius;
}

bool has_thermal_root(const Species& species) {
  return species.root_degree_days > 0;
}

// The warmest temperature at which everything we would give a date for is published.
double warmest_planned(const Species& species) {
  return has_thermal_root(species) ? std::min(warmest(species), species.root_warmest_celsius)
                                   : warmest(species);
}

bool in_table(const Species& species, double celsius) {
  return coldest(species) <= celsius && celsius <= warmest(species);
}

// `value` of the columns, linear in temperature; `celsius` must be in the table.
double between_columns(const Species& species, double celsius,
                       double (*value)(const EmergenceColumn&)) {
  const auto right =
      std::find_if(species.emergence.begin(), species.emergence.end(),
                   [celsius](const EmergenceColumn& column) { return column.celsius >= celsius; });
  if (right->celsius == celsius) return value(*right);
  const auto left = right - 1;
  const double share = (celsius - left->celsius) / (right->celsius - left->celsius);
  return value(*left) + share * (value(*right) - value(*left));
}

// Share of the way to a seedling grown in one day; none outside the table.
double emergence_rate(const Species& species, double celsius) {
  if (!in_table(species, celsius)) return 0;
  return between_columns(species, celsius,
                         [](const EmergenceColumn& column) { return 1 / column.days; });
}

// Share of the way to the first root grown in one day. Thermal time alone would let seeds grow,
// ever so slowly, where the emergence table shows none; so the table's cold end holds here too.
double root_rate(const Species& species, double celsius) {
  if (!in_table(species, celsius) || celsius > species.root_warmest_celsius) return 0;
  return std::max(0.0, (celsius - species.root_base_celsius) / species.root_degree_days);
}

// Days, with a fraction, until the daily rates add up to one.
std::optional<double> days_to_one(std::span<const double> daily_rates) {
  double grown = 0;
  double day = 0;
  for (const double rate : daily_rates) {
    if (grown + rate >= 1) return day + (1 - grown) / rate;
    grown += rate;
    ++day;
  }
  return std::nullopt;
}

// A warmer or cooler room, but never out of what is published: the range ends where knowledge does.
double shifted(const Species& species, double celsius, double by) {
  const double moved = std::min(celsius + by, warmest_planned(species));
  return in_table(species, celsius) ? std::max(moved, coldest(species)) : moved;
}

std::optional<double> days_in_room(const Species& species, const Brief& brief, double shift,
                                   Rate rate) {
  const auto rate_at = [&](double celsius) {
    return rate(species, shifted(species, celsius, shift));
  };
  const double school_day = (kSchoolHours * rate_at(brief.warmth.day) +
                             (24 - kSchoolHours) * rate_at(brief.warmth.night)) /
                            24;
  const double closed_day = rate_at(brief.warmth.closed);
  std::array<double, kLongestCourseDays> course{};
  for (std::size_t day = 0; day < course.size(); ++day) {
    const Date date = add_days(brief.date, static_cast<std::int64_t>(day));
    course[day] = is_school_day(brief, date) ? school_day : closed_day;
  }
  return days_to_one(course);
}

// Early dates are rounded down to a day, late ones up. A warmer room is the quicker one only up to
// a species' best warmth, so early and late are looked for on both sides.
DayRange range_in_room(const Species& species, const Brief& brief, Rate rate) {
  const auto days = [&](double shift) {
    return days_in_room(species, brief, shift, rate).value_or(kLongestCourseDays);
  };
  const double middle = days(0);
  const auto [early, late] =
      std::minmax({middle, days(-kRoomSpreadCelsius), days(kRoomSpreadCelsius)});
  const auto date = [&](double whole_days) {
    return add_days(brief.date, static_cast<std::int64_t>(whole_days));
  };
  return {date(std::floor(early + kDayRounding)), date(std::round(middle)),
          date(std::ceil(late - kDayRounding))};
}

DayRange root_range(const Species& species, const Brief& brief) {
  if (has_thermal_root(species)) return range_in_room(species, brief, root_rate);
  const std::int64_t least = species.root_least_days;
  const std::int64_t most = species.root_most_days;
  return {add_days(brief.date, least), add_days(brief.date, (least + most + 1) / 2),
          add_days(brief.date, most)};
}

}  // namespace

std::optional<double> days_to_emerge(const Species& species, double celsius) {
  if (!in_table(species, celsius)) return std::nullopt;
  return 1 / emergence_rate(species, celsius);
}

std::optional<double> days_to_emerge(const Species& species,
                                     std::span<const double> daily_celsius) {
  std::vector<double> rates;
  for (const double celsius : daily_celsius) {
    if (celsius > warmest(species)) break;
    rates.push_back(emergence_rate(species, celsius));
  }
  return days_to_one(rates);
}

std::optional<double> days_to_root(const Species& species, double celsius) {
  if (!has_thermal_root(species)) return std::nullopt;
  const double rate = root_rate(species, celsius);
  if (rate <= 0) return std::nullopt;
  return 1 / rate;
}

double percent_at(const Species& species, double celsius) {
  if (!in_table(species, celsius)) return 0;
  return between_columns(species, celsius,
                         [](const EmergenceColumn& column) { return column.percent; });
}

std::int64_t planning_percent(const Species& species, const RoomWarmth& warmth,
                              std::optional<std::int64_t> packet_percent) {
  const std::int64_t legal = species.legal_minimum_percent;
  auto percent = static_cast<double>(packet_percent.value_or(legal > 0 ? legal : 100));
  for (const double celsius : {warmth.day, warmth.night, warmth.closed}) {
    if (in_table(species, celsius)) percent = std::min(percent, percent_at(species, celsius));
  }
  return static_cast<std::int64_t>(std::floor(percent));
}

SproutForecast forecast(const Species& species, const Brief& brief) {
  SproutForecast result;
  result.species = species.id;
  const RoomWarmth& warmth = brief.warmth;
  const double hottest = std::max({warmth.day, warmth.night, warmth.closed});
  if (hottest > warmest_planned(species)) {
    result.warmth = Warmth::too_warm;
  } else if (!days_in_room(species, brief, 0, emergence_rate)) {
    result.warmth = Warmth::too_cold;
  } else {
    result.root = root_range(species, brief);
    result.leaves = range_in_room(species, brief, emergence_rate);
    result.germination_percent = planning_percent(species, warmth);
  }
  return result;
}

}  // namespace trowelbell
