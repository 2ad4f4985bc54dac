// Days the room is open: weekdays without the brief's closed days.
#pragma once

#include "brief.h"

namespace trowelbell {

bool is_school_day(const Brief& brief, Date date);
bool is_half_day(const Brief& brief, Date date);
// The first school day on or after / on or before `date`, looking at most 120 days; nothing if
// there is none.
std::optional<Date> school_day_from(const Brief& brief, Date date);
std::optional<Date> school_day_until(const Brief& brief, Date date);

}  // namespace trowelbell
