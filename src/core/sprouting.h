// When seeds sown on the visit's day will show a root and leaves, in this room, on real dates.
// Method, limits and sources: content/METHODS.md, "Sprouting".
#pragma once

#include <span>

#include "brief.h"
#include "species.h"

namespace trowelbell {

enum class Warmth { known, too_cold, too_warm };

struct DayRange {
  Date earliest{};
  Date middle{};
  Date latest{};
  bool operator==(const DayRange&) const = default;
};

struct SproutForecast {
  std::string species;
  Warmth warmth = Warmth::known;  // otherwise no dates and no percent: nothing is published there
  DayRange root;                  // first root
  DayRange leaves;                // seedling out
  std::int64_t germination_percent = 0;  // planning_percent without a packet
};

// A day with school is this many hours at the brief's `day` warmth and the rest at `night`.
inline constexpr int kSchoolHours = 9;
// The range's early and late dates come from the same course this much warmer and cooler.
inline constexpr double kRoomSpreadCelsius = 1.5;
// Seeds not out after this many days will not come: the room is too cold.
inline constexpr std::int64_t kLongestCourseDays = 60;

// Days to emergence at a steady temperature: 1/days interpolated linearly between the table's
// columns; nothing outside it.
std::optional<double> days_to_emerge(const Species& species, double celsius);
// The same for one temperature a day, the first being the day of sowing: whole days' shares of
// growth add up to one, with a fraction on the last day. Days colder than the table add nothing.
// Nothing where the days run out first, or where a day warmer than the table comes first.
std::optional<double> days_to_emerge(const Species& species, std::span<const double> daily_celsius);
// Days to the first root at a steady temperature, for a species with a published thermal time;
// nothing for one without, or where emergence or the thermal time is not known.
std::optional<double> days_to_root(const Species& species, double celsius);
// Published percent of normal seedlings, linear between the table's columns; 0 outside it.
double percent_at(const Species& species, double celsius);
// Percent of seeds to plan with: what the packet says, or without that the legal minimum where
// there is one, but never more than the published share at each warmth of the room's week that the
// table knows.
std::int64_t planning_percent(const Species& species, const RoomWarmth& warmth,
                              std::optional<std::int64_t> packet_percent = std::nullopt);

// Growth is accumulated over the room's course from the visit's date: see kSchoolHours; days
// without school are at `closed`. Rates are averaged over a day, not temperatures.
SproutForecast forecast(const Species& species, const Brief& brief);

}  // namespace trowelbell
