// When seeds sown on the visit's day will show a root and leaves, in this room, on real dates.
#pragma once

#include "brief.h"
#include "species.h"

namespace trowelbell {

enum class Warmth { known, too_cold, too_warm };

struct DayRange {
  Date earliest{};
  Date middle{};
  Date latest{};
};

struct SproutForecast {
  std::string species;
  Warmth warmth = Warmth::known;  // otherwise no dates: the published table says nothing there
  DayRange root;                  // first root
  DayRange leaves;                // seedling out
  std::int64_t germination_percent = 0;  // the lower of the legal minimum and the published rate at the room's warmth
};

// Days to emergence at a steady temperature: 1/days interpolated linearly between the table's columns; nothing outside it.
std::optional<double> days_to_emerge(const Species& species, double celsius);
double percent_at(const Species& species, double celsius);

// The rate is accumulated over the room's course: school days at `day`, nights at `night`, closed days at `closed`.
// The range comes from the same course 1.5 degrees Celsius warmer and cooler.
SproutForecast forecast(const Species& species, const Brief& brief);

}  // namespace trowelbell
