#include "cli/county_file.h"

#include <algorithm>
#include <map>

#include "calendar/zone.h"
#include "cli/files.h"
#include "cli/words.h"

namespace trowelbell {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kMostNotes = 200;

// The days that briefs of these visits carry, by school.
std::map<std::string, DateRange> days_needed(const County& county, const Asked& asked) {
  std::map<std::string, DateRange> needed;
  for (const PlannedVisit& visit : county.visits) {
    if (!asked.visits.empty() &&
        std::find(asked.visits.begin(), asked.visits.end(), visit.id) == asked.visits.end()) {
      continue;
    }
    const Date date = asked.moved.value_or(visit.date);
    const DateRange days{add_days(date, -kCalendarDaysBefore), add_days(date, kCalendarDaysAfter)};
    DateRange& all = needed.emplace(visit.school, days).first->second;
    all = {std::min(all.from, days.from), std::max(all.to, days.to)};
  }
  return needed;
}

std::optional<CalendarReading> read_calendar_file(const School& school, const fs::path& folder,
                                                  const DateRange& window, Problems& problems) {
  std::istringstream no_input;
  const auto text =
      read_text((folder / school.calendar->file).string(), kCalendarBytes, no_input, problems);
  return text ? read_school_calendar(*text, school, window, problems) : std::nullopt;
}

std::string days_words(const std::vector<DateRange>& days) {
  const DateRange& first = days.front();
  std::string words = format_date(first.from);
  if (first.to != first.from) {
    words += " to " + format_date(first.to);
  }
  return days.size() == 1 ? words : words + " and " + std::to_string(days.size() - 1) + " more";
}

}  // namespace

std::vector<ReadCalendar> look_up_schools(County& county, const fs::path& folder,
                                          const Asked& asked, Problems& problems) {
  std::vector<ReadCalendar> calendars;
  const auto needed = days_needed(county, asked);
  for (std::size_t i = 0; i < county.schools.size(); ++i) {
    School& school = county.schools[i];
    const auto window = needed.find(school.id);
    if (window == needed.end()) {
      continue;
    }
    const std::string path = "/schools/" + std::to_string(i);
    if (!school.time_zone.empty() && !look_up_zone(school, window->second)) {
      add_problems(problems, {{path + "/time_zone",
                               "\"" + school.time_zone +
                                   "\" is no time zone of this system's database (package tzdata); "
                                   "it must be one, as \"America/Denver\""}});
    }
    if (!school.calendar) {
      continue;
    }
    Problems found;
    auto reading = read_calendar_file(school, folder, window->second, found);
    for (const Problem& problem : found) {
      add_problems(problems, {{path + "/calendar/file",
                               "names \"" + school.calendar->file + "\", which " + problem.what}});
    }
    if (reading) {
      calendars.push_back({i, school.calendar->file, std::move(*reading)});
      take_calendar_days(school, calendars.back().reading.events);
    }
  }
  return calendars;
}

std::optional<CountyFile> load_county(const std::string& name, const Asked& asked,
                                      const Streams& streams) {
  Problems problems;
  CountyFile file;
  if (const auto text = read_text(name, kCountyLimits.bytes, streams.in, problems)) {
    if (const auto document = parse_json(*text, kCountyLimits, problems)) {
      file.county = read_county(*document, problems);
    }
  }
  if (problems.empty()) {
    const fs::path folder = name == "-" ? fs::path() : fs::path(name).parent_path();
    file.calendars = look_up_schools(file.county, folder, asked, problems);
  }
  write_problems(streams.err, name, problems);
  return problems.empty() ? std::optional(std::move(file)) : std::nullopt;
}

std::string calendar_words(const ReadCalendar& calendar) {
  std::size_t counts[3] = {};
  for (const CalendarEvent& event : calendar.reading.events) {
    ++counts[static_cast<std::size_t>(event.kind)];
  }
  return calendar.file +
         ": near the visits, events that close the school: " + std::to_string(counts[0]) +
         ", half days: " + std::to_string(counts[1]) + ", neither: " + std::to_string(counts[2]) +
         ", not understood: " + std::to_string(calendar.reading.not_understood);
}

Problems calendar_notes(const ReadCalendar& calendar) {
  constexpr std::string_view kSays[] = {"closes the school", "makes a half day", "says neither"};
  const std::string path = "/schools/" + std::to_string(calendar.school) + "/calendar";
  std::map<std::pair<DayKind, std::string>, std::vector<DateRange>> by_name;
  for (const CalendarEvent& event : calendar.reading.events) {
    auto& days = by_name[{event.kind, event.summary}];
    days.insert(days.end(), event.days.begin(), event.days.end());
  }
  Problems notes{{path, calendar_words(calendar)}};
  for (auto& [name, days] : by_name) {
    std::sort(days.begin(), days.end(),
              [](const DateRange& a, const DateRange& b) { return a.from < b.from; });
    if (notes.size() == kMostNotes) {
      notes.push_back({path, "has more events, which are not listed"});
      break;
    }
    notes.push_back({path, "\"" + name.second + "\" " +
                               std::string(kSays[static_cast<std::size_t>(name.first)]) + ": " +
                               days_words(days)});
  }
  return notes;
}

}  // namespace trowelbell
