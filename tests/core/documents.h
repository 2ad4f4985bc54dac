// One complete document of each format, and ways to spoil it.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>

#include "core/json.h"

namespace trowelbell::documents {

inline Json parsed(const char* text) {
  Problems problems;
  const auto document = parse_json(text, {}, problems);
  REQUIRE_MESSAGE(document.has_value(), problems.at(0).what);
  return *document;
}

// Reads a document and gives what the reader found wrong with it.
using Read = std::function<Problems(const Json&)>;

template <class Thing>
Read reader_of(Thing (*read)(const Json&, Problems&)) {
  return [read](const Json& document) {
    Problems problems;
    read(document, problems);
    return problems;
  };
}

// Pointers (RFC 6901) to everything inside a document.
inline std::vector<std::string> places_in(const Json& document) {
  std::vector<std::string> places;
  const Json flat = document.flatten();
  for (const auto& [place, value] : flat.items()) {
    // flatten() names the leaves; the containers are what stands before each "/".
    for (std::size_t end = place.find('/', 1); end != std::string::npos;
         end = place.find('/', end + 1)) {
      places.push_back(place.substr(0, end));
    }
    places.push_back(place);
  }
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  return places;
}

inline Json with(Json document, const std::string& place, Json value) {
  document[Json::json_pointer(place)] = std::move(value);
  return document;
}

inline Json without(Json document, const std::string& place) {
  const Json::json_pointer pointer(place);
  document[pointer.parent_pointer()].erase(pointer.back());
  return document;
}

inline bool tells(const Problems& problems, const std::string& place) {
  return std::any_of(problems.begin(), problems.end(),
                     [&](const Problem& problem) { return problem.path == place; });
}

// Puts a value of every other JSON type in every place of a good document; each must be told at
// that very place.
inline void wrong_types_are_told_where_they_are(const Json& good, const Read& read) {
  const auto kind = [](const Json& value) {
    return value.is_number() ? std::string("number") : value.type_name();
  };
  const Json others[] = {nullptr, true, 1.5, "?", Json::array(), Json::object()};
  CHECK(read(good).empty());
  for (const std::string& place : places_in(good)) {
    for (const Json& other : others) {
      if (kind(other) != kind(good[Json::json_pointer(place)])) {
        CAPTURE(place);
        CAPTURE(other.dump());
        CHECK(tells(read(with(good, place, other)), place));
      }
    }
  }
}

// Numbers that fit no field of whole numbers.
inline void hostile_numbers_are_told_where_they_are(const Json& good, const Read& read) {
  const Json hostile[] = {
      1.5, 3.0, 1e300, -1'000'000, 9223372036854775808ULL, 18446744073709551615ULL};
  for (const std::string& place : places_in(good)) {
    if (good[Json::json_pointer(place)].is_number_integer()) {
      for (const Json& number : hostile) {
        CAPTURE(place);
        CAPTURE(number.dump());
        CHECK(tells(read(with(good, place, number)), place));
      }
    }
  }
}

// Takes every field of every object away in turn: only the optional ones may be missed by nobody.
// `optional` lists places with "*" for a number: "/steps/*/worth".
inline void only_optional_fields_may_be_missing(const Json& good, const Read& read,
                                                const std::vector<std::string>& optional) {
  std::vector<std::string> met;
  for (const std::string& place : places_in(good)) {
    const Json::json_pointer pointer(place);
    if (good[pointer.parent_pointer()].is_array()) {
      continue;
    }
    std::string pattern;
    for (std::size_t at = 0; at < place.size();) {
      const std::size_t end = std::min(place.find('/', at + 1), place.size());
      const std::string step = place.substr(at + 1, end - at - 1);
      pattern += step.find_first_not_of("0123456789") == std::string::npos ? "/*" : "/" + step;
      at = end;
    }
    const bool may = std::find(optional.begin(), optional.end(), pattern) != optional.end();
    CAPTURE(place);
    CHECK(read(without(good, place)).empty() == may);
    if (may) {
      met.push_back(pattern);
    }
  }
  for (const std::string& pattern : optional) {
    CAPTURE(pattern);
    CHECK(std::find(met.begin(), met.end(), pattern) != met.end());
  }
}

// A newer version is refused with advice, an unknown field is not refused.
inline void header_is_checked(const Json& good, const Read& read) {
  const Problems newer = read(with(good, "/version", 2));
  REQUIRE(newer.size() == 1);
  CHECK(newer[0].path == "/version");
  CHECK(newer[0].what.find("update the program") != std::string::npos);
  CHECK(tells(read(with(good, "/version", 0)), "/version"));
  CHECK(tells(read(with(good, "/format", "trowelbell.other")), "/format"));
  CHECK(read(with(good, "/a_field_of_tomorrow", {{"deep", {1, 2}}})).empty());
  for (const Json& no_object : {Json(), Json("text"), Json::array(), Json(1)}) {
    CHECK_FALSE(read(no_object).empty());
  }
}

// Everything above.
inline void reader_is_strict(const Json& good, const Read& read,
                             const std::vector<std::string>& optional) {
  wrong_types_are_told_where_they_are(good, read);
  hostile_numbers_are_told_where_they_are(good, read);
  only_optional_fields_may_be_missing(good, read, optional);
  header_is_checked(good, read);
}

struct BadRow {
  const char* place;  // where the value is put
  const char* value;  // JSON
  const char* told;   // where the problem is told; "" for the same place
};

inline void bad_rows_are_told(const Json& good, const Read& read,
                              std::initializer_list<BadRow> rows) {
  for (const BadRow& row : rows) {
    CAPTURE(row.place);
    CAPTURE(row.value);
    const Problems problems = read(with(good, row.place, parsed(row.value)));
    CHECK(tells(problems, *row.told == '\0' ? row.place : row.told));
    for (const Problem& problem : problems) {
      CHECK(problem.what.size() > 10);
    }
  }
}

inline Json brief() {
  return parsed(R"({"format": "trowelbell.brief", "version": 1, "visit": "fern-lane-0308",
    "key": "k3y-only_for-the-header", "lesson": "window-garden", "school": "Fern Lane School", "room": "Room 4",
    "sponsor": "Friends of the Garden", "sheet_language": "es", "date": "2027-03-08", "start": "09:05",
    "bell": "09:50", "utc_offset_minutes": -420, "children": 24, "adults": 4, "tables": 5, "kits": 27,
    "warmth": {"day": 21.1, "night": 18.3, "closed": 15.6}, "closed": [{"from": "2027-03-29", "to": "2027-04-02"}],
    "half_days": ["2027-03-12"], "school_asks": ["Sign in at the office.", "Ventana norte, por favor."]})");
}

inline Json lesson() {
  return parsed(R"({"format": "trowelbell.lesson", "version": 1, "id": "window-garden",
    "title": {"en": "A window garden", "es": "Un jardín"}, "story": "not-yet", "species": ["garden-bean"],
    "comfort_percent": 75, "reserve_seconds": 90, "least_adults": 2,
    "steps": [
      {"id": "hello", "title": {"en": "Hello", "es": "Hola"}, "keep": "should", "worth": 40,
       "seconds": {"min": 30, "plan": 60, "max": 90}, "per_child": {"min": 5, "plan": 10, "max": 20},
       "who": "helper", "say": [{"en": "Hello!", "es": "¡Hola!"}], "do": [{"en": "Wave.", "es": "Saluden."}],
       "watch": [{"en": "The door.", "es": "La puerta."}], "safety": true, "cards": ["two-adults"],
       "drawing": "wave", "left_with_teacher": {"en": "Sing it.", "es": "Cántenla."}},
      {"id": "story", "title": {"en": "Story"}, "keep": "must", "reading": true, "who": "reader"}],
    "kit": [{"id": "stem", "name": {"en": "stem", "es": "tallo"}, "count": 2, "per": "child", "cut_parts": 3,
             "pack": 10}],
    "ready": [{"id": "aprons", "text": {"en": "Aprons?", "es": "¿Delantales?"}}],
    "handover": [{"id": "water", "text": {"en": "Who waters?", "es": "¿Quién riega?"}}]})");
}

inline Json story() {
  return parsed(R"({"format": "trowelbell.story", "version": 1, "id": "not-yet",
    "title": {"en": "Not Yet", "es": "Todavía No"}, "pages": [
      {"text": {"en": "A bean slept.\nIt snored.", "es": "Un frijol dormía."},
       "prompt": {"en": "Can you snore?", "es": "¿Roncan?"}, "pause_seconds": 8, "picture": "bean_in_hand"},
      {"text": {"en": "Then it woke."}}]})");
}

inline Json species() {
  return parsed(R"({"format": "trowelbell.species", "version": 1, "id": "garden-pea",
    "name": {"en": "garden pea", "es": "chícharo"}, "plural": {"en": "peas", "es": "chícharos"},
    "legal_minimum_percent": 80, "emergence": [{"celsius": 5, "days": 36, "percent": 89},
      {"celsius": 10.5, "days": 13.5, "percent": 94}],
    "root": {"base_celsius": -0.98, "degree_days": 55.9, "warmest_celsius": 27.5}, "seed_leaves_rise": false,
    "sources": ["A published table."]})");
}

inline Json care() {
  return parsed(R"({"format": "trowelbell.care", "version": 1, "cards": [
    {"id": "spill", "title": {"en": "Spill", "es": "Derrame"}, "prevent": [{"en": "Half full.", "es": "A medias."}],
     "now": [{"en": "Stop.", "es": "Alto."}], "mishap": {"en": "Water spilled", "es": "Agua derramada"},
     "drawing": "spill", "sources": ["Common practice."]}]})");
}

inline Json language() {
  return parsed(R"({"format": "trowelbell.language", "version": 1, "language": "en", "texts": {
    "hello": "Hello, {name}!", "kits.one": "{n} kit", "kits.other": "{n} kits for {room}", "braces": "{ {x",
    "date.day": "{weekday} {day} {month}", "date.range_same_month": "{from_weekday} {from_day} to {to_weekday} {to_day} {month}",
    "date.range": "{from} to {to}", "date.weekday.0": "Mon", "date.weekday.1": "Tue", "date.weekday.4": "Fri",
    "date.month.3": "March", "date.month.4": "April"}})");
}

inline Json county() {
  return parsed(R"({"format": "trowelbell.county", "version": 1, "name": "Alderquill County",
    "sponsors": [{"id": "kettle", "name": "Quiet Kettle Tea"}],
    "schools": [{"id": "fern", "name": "Fern Lane School", "utc_offset_minutes": -420,
      "utc_offset_changes": [{"from": "2027-03-14", "utc_offset_minutes": -360}],
      "warmth": {"day": 21.1, "night": 18.3, "closed": 15.6}, "closed": [{"from": "2027-03-29", "to": "2027-04-02"}],
      "half_days": ["2027-03-12"], "school_asks": ["Sign in at the office."], "sheet_language": "es"}],
    "visits": [{"id": "fern-4", "school": "fern", "room": "Room 4", "sponsor": "kettle", "lesson": "window-garden",
      "children": 24, "adults": 4, "tables": 5, "kits": 27, "date": "2027-03-08", "start": "09:05",
      "bell": "09:50"}]})");
}

// The school's clock and days by name only.
inline Json county_by_names() {
  return parsed(R"({"format": "trowelbell.county", "version": 1, "name": "Alderquill County",
    "schools": [{"id": "fern", "name": "Fern Lane School", "time_zone": "America/Denver",
      "calendar": {"file": "fern lane.ics", "closed_words": ["No school"]}}],
    "visits": [{"id": "fern-4", "school": "fern", "room": "Room 4", "lesson": "window-garden",
      "children": 24, "adults": 4, "date": "2027-03-08", "start": "09:05", "bell": "09:50"}]})");
}

inline Json index() {
  return parsed(
      R"({"format": "trowelbell.index", "version": 1, "lessons": {"window-garden": "lessons/a.json"},
    "stories": {"not-yet": "stories/not-yet.json"}, "species": {"garden-pea": "species/pea.json"},
    "care": "care/cards.json", "languages": {"en": "lang/en.json", "es": "lang/es.json"}})");
}

}  // namespace trowelbell::documents
