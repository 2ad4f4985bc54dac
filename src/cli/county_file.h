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
  County county;  // nothing is left to look up for the visits asked for
  std::vector<ReadCalendar> calendars;
};

// What is asked of a county's calendars.
struct Asked {
  std::vector<std::string> visits;  // ids; none: all
  std::optional<Date> moved;        // all of them are moved to this day
};

// Looks up what the visits' schools name: calendar files in `folder`, zones in the system's
// database, for all days that the visits' briefs carry.
std::vector<ReadCalendar> look_up_schools(County& county, const std::filesystem::path& folder,
                                          const Asked& asked, Problems& problems);

// Nothing, and the reasons on `streams.err`, where anything asked for cannot be read. A county from
// standard input has its calendar files in the current folder.
std::optional<CountyFile> load_county(const std::string& name, const Asked& asked,
                                      const Streams& streams);

// In one line, how many events were taken as what.
std::string calendar_words(const ReadCalendar& calendar);
// What each event was taken as, for a person to check: one note for all events of one name.
Problems calendar_notes(const ReadCalendar& calendar);

}  // namespace trowelbell
