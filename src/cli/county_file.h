// The county file, together with the calendar files and time zones that its schools name.
#pragma once

#include <filesystem>

#include "calendar/school_calendar.h"
#include "cli/program.h"
#include "core/county.h"

namespace trowelbell {

struct ReadCalendar {
  std::size_t school = 0;  // index in the county
  std::string file;
  CalendarReading reading;
};

struct CountyFile {
  County county;  // nothing is left to look up, if it has visits
  std::vector<ReadCalendar> calendars;
};

// Looks up what the schools name: calendar files in `folder`, zones in the system's database, for
// all days that briefs of the county's visits carry; with `moved`, of visits moved to that day.
std::vector<ReadCalendar> look_up_schools(County& county, const std::filesystem::path& folder,
                                          std::optional<Date> moved, Problems& problems);

// Nothing, and the reasons on `streams.err`, where anything of it cannot be read. A county from
// standard input has its calendar files in the current folder.
std::optional<CountyFile> load_county(const std::string& name, std::optional<Date> moved,
                                      const Streams& streams);

// In one line, how many events were taken as what.
std::string calendar_words(const ReadCalendar& calendar);
// What each event was taken as, for a person to check: one note for all events of one name.
Problems calendar_notes(const ReadCalendar& calendar);

}  // namespace trowelbell
