#include "county.h"

#include <algorithm>
#include <cstdlib>

#include "brief_fields.h"
#include "item_list.h"

namespace trowelbell {

namespace {

template <class Item>
const Item* find_by_id(const std::vector<Item>& items, std::string_view id) {
  const auto item =
      std::find_if(items.begin(), items.end(), [&](const Item& each) { return each.id == id; });
  return item == items.end() ? nullptr : &*item;
}

std::vector<OffsetChange> read_offset_changes(const Reader& reader) {
  std::vector<OffsetChange> changes;
  reader.array("utc_offset_changes", 0, 40, [&](const Reader& item) {
    const OffsetChange change{read_date(item, "from"), read_utc_offset(item)};
    if (!changes.empty() && change.from <= changes.back().from) {
      item.problem("from", "must be later than that of the change before it");
    }
    changes.push_back(change);
  });
  return changes;
}

// A name of the zone database, "America/Denver": only its form, since which there are changes with
// the years. Nothing else may be opened by it, so no dots and no colons.
bool is_zone_name(std::string_view name) {
  const auto is_letter = [](char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); };
  char before = '/';
  for (const char c : name) {
    const bool inner = (c >= '0' && c <= '9') || c == '_' || c == '-' || c == '+' || c == '/';
    if (!is_letter(c) && (before == '/' || !inner)) return false;
    before = c;
  }
  return !name.empty() && name.size() <= 64 && name[0] <= 'Z' && before != '/';
}

void read_clocks(const Reader& reader, School& school) {
  if (!reader.has("time_zone")) {
    school.utc_offset_minutes = read_utc_offset(reader);
    school.offset_changes = read_offset_changes(reader);
    return;
  }
  const std::string* name = reader.find_text("time_zone");
  if (name == nullptr || !is_zone_name(*name)) {
    reader.refuse("time_zone", "the name of a time zone, as \"America/Denver\"");
  } else {
    school.time_zone = *name;
  }
  for (const char* given : {"utc_offset_minutes", "utc_offset_changes"}) {
    if (reader.has(given)) reader.problem(given, "must be left out: \"time_zone\" tells it");
  }
}

std::vector<std::string> read_words(const Reader& reader, std::string_view key,
                                    std::initializer_list<const char*> usual) {
  if (!reader.has(key)) return {usual.begin(), usual.end()};
  return reader.texts(key, 0, 40, 60);
}

CalendarFile read_calendar_file(const Reader& reader) {
  CalendarFile calendar;
  calendar.file = reader.text("file", 120);
  if (calendar.file.find_first_of("/\\") != std::string::npos || calendar.file[0] == '.') {
    reader.problem("file", "must be the name of a file beside this one, without a folder");
  }
  calendar.closed_words =
      read_words(reader, "closed_words",
                 {"no school", "no classes", "school closed", "schools closed", "holiday", "break",
                  "sin clases", "no hay clases", "escuela cerrada", "escuelas cerradas", "feriado",
                  "asueto", "receso", "vacaciones"});
  calendar.half_day_words =
      read_words(reader, "half_day_words",
                 {"half day", "early release", "early dismissal", "minimum day", "medio día",
                  "salida temprana", "salida temprano"});
  return calendar;
}

bool near(Date date, Date first, Date last) {
  return days_between(date, last) >= -kCalendarDaysBefore &&
         days_between(date, first) <= kCalendarDaysAfter;
}

void copy_calendar(const School& school, Brief& brief) {
  for (const DateRange& range : school.closed) {
    if (near(brief.date, range.from, range.to)) {
      brief.closed.push_back(range);
    }
  }
  for (const Date day : school.half_days) {
    if (near(brief.date, day, day)) {
      brief.half_days.push_back(day);
    }
  }
}

School read_school(const Reader& reader) {
  School school;
  school.id = reader.id("id");
  school.name = reader.text("name", 120);
  read_clocks(reader, school);
  if (reader.has("calendar")) {
    school.calendar = read_calendar_file(reader.object("calendar"));
  }
  school.warmth = read_warmth(reader);
  school.closed = read_closed_days(reader);
  school.half_days = read_half_days(reader);
  school.school_asks = read_school_asks(reader);
  school.sheet_language = read_sheet_language(reader);
  return school;
}

PlannedVisit read_visit(const Reader& reader) {
  PlannedVisit visit;
  visit.id = reader.id("id");
  visit.school = reader.id("school");
  visit.room = reader.text("room", 60);
  visit.sponsor = reader.id_or("sponsor", "");
  visit.lesson = reader.id("lesson");
  visit.children = reader.whole("children", 1, 60);
  visit.adults = reader.whole("adults", 1, 20);
  visit.tables = reader.whole_or("tables", 1, 20, 1);
  visit.kits = reader.whole_or("kits", 0, 120, 0);
  visit.date = read_date(reader, "date");
  visit.start_minutes = read_clock(reader, "start");
  visit.bell_minutes = read_clock(reader, "bell");
  if (visit.bell_minutes <= visit.start_minutes) {
    reader.problem("bell", "must be later than \"start\", on the same day");
  }
  return visit;
}

}  // namespace

County read_county(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  County county;
  if (!reader.header("trowelbell.county", 1)) {
    return county;
  }
  county.name = reader.text("name", 120);
  county.sponsors = read_items<Sponsor>(reader, "sponsors", 0, 100, [](const Reader& at) {
    return Sponsor{at.id("id"), at.text("name", 120)};
  });
  county.schools = read_items<School>(reader, "schools", 1, 500, read_school);
  county.visits = read_items<PlannedVisit>(reader, "visits", 0, 5000, [&](const Reader& at) {
    PlannedVisit visit = read_visit(at);
    if (find_by_id(county.schools, visit.school) == nullptr) {
      at.problem("school", "must be the id of one of the schools in this file");
    }
    if (!visit.sponsor.empty() && find_by_id(county.sponsors, visit.sponsor) == nullptr) {
      at.problem("sponsor", "must be the id of one of the sponsors in this file, or left out");
    }
    return visit;
  });
  return county;
}

const PlannedVisit* find_visit(const County& county, std::string_view id) {
  return find_by_id(county.visits, id);
}

const School* find_school(const County& county, std::string_view id) {
  return find_by_id(county.schools, id);
}

std::int64_t utc_offset_at(const School& school, Date date, std::int64_t minutes) {
  std::int64_t offset = school.utc_offset_minutes.value_or(0);
  for (const OffsetChange& change : school.offset_changes) {
    if (std::pair(change.from, change.from_minutes) <= std::pair(date, minutes)) {
      offset = change.utc_offset_minutes;
    }
  }
  return offset;
}

ClockTime clock_time(const School& school, Date date, std::int64_t minutes) {
  std::int64_t before = school.utc_offset_minutes.value_or(0);
  for (const OffsetChange& change : school.offset_changes) {
    const std::int64_t forward = change.utc_offset_minutes - before;
    const std::int64_t until = change.from_minutes - minutes;
    if (change.from == date && until > 0 && until <= std::abs(forward)) {
      return forward > 0 ? ClockTime::skipped : ClockTime::twice;
    }
    before = change.utc_offset_minutes;
  }
  return ClockTime::once;
}

std::optional<Brief> make_brief(const County& county, std::string_view visit_id,
                                std::optional<Date> date, std::optional<std::int64_t> start,
                                std::string_view key, Problems& problems) {
  const PlannedVisit* visit = find_visit(county, visit_id);
  const School* school = visit == nullptr ? nullptr : find_school(county, visit->school);
  if (school == nullptr) {
    add_problems(problems,
                 {{"/visits", "has no visit with the id \"" + std::string(visit_id) + "\""}});
    return std::nullopt;
  }
  if (!school->utc_offset_minutes || school->calendar) {
    add_problems(problems, {{"/schools", "\"" + school->id +
                                             "\" has a time zone or a calendar file that was not "
                                             "looked up; make briefs with the command line"}});
    return std::nullopt;
  }
  const Sponsor* sponsor = find_by_id(county.sponsors, visit->sponsor);
  Brief brief;
  brief.visit = visit->id;
  brief.key = key;
  brief.lesson = visit->lesson;
  brief.school = school->name;
  brief.room = visit->room;
  brief.sponsor = sponsor == nullptr ? "" : sponsor->name;
  brief.sheet_language = school->sheet_language;
  brief.date = date.value_or(visit->date);
  brief.start_minutes = start.value_or(visit->start_minutes);
  brief.bell_minutes = brief.start_minutes + (visit->bell_minutes - visit->start_minutes);
  brief.utc_offset_minutes = utc_offset_at(*school, brief.date, brief.start_minutes);
  brief.children = visit->children;
  brief.adults = visit->adults;
  brief.tables = visit->tables;
  brief.kits = visit->kits;
  brief.warmth = school->warmth;
  copy_calendar(*school, brief);
  brief.school_asks = school->school_asks;
  Problems found;
  read_brief(brief_json(brief), found);
  if (brief.bell_minutes >= 24 * 60) {
    found = {{"/bell", "would be after midnight; start the visit earlier"}};
  }
  add_problems(problems, found);
  return found.empty() ? std::optional<Brief>(std::move(brief)) : std::nullopt;
}

}  // namespace trowelbell
