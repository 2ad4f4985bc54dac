// What a calendar's event says of itself, and what that means for a school day.
#pragma once

#include "calendar/school_calendar.h"

using icalcomponent = struct icalcomponent_impl;

namespace trowelbell {

struct EventWords {
  std::string summary;
  std::vector<std::string> categories;
};

EventWords words_of(icalcomponent* event);
DayKind kind_of(const EventWords& words, const CalendarFile& calendar);
// At most `most` bytes of it, never half a character.
std::string shortened(std::string text, std::size_t most);

}  // namespace trowelbell
