#include "brief.h"

#include <algorithm>

#include "base64url.h"
#include "brief_fields.h"

namespace trowelbell {

namespace {

constexpr std::string_view kFields[] = {"format",      "version",        "visit",
                                        "key",         "lesson",         "school",
                                        "room",        "sponsor",        "date",
                                        "start",       "bell",           "children",
                                        "adults",      "tables",         "kits",
                                        "warmth",      "closed",         "half_days",
                                        "school_asks", "sheet_language", "utc_offset_minutes"};

bool is_key(std::string_view text) {
  return text.size() >= 16 && text.size() <= 64 &&
         std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
                  c == '-' || c == '_';
         });
}

// A whole number is written as one: "21", not "21.0".
Json short_number(double value) {
  const auto whole = static_cast<std::int64_t>(value);
  return static_cast<double>(whole) == value ? Json(whole) : Json(value);
}

Json unknown_fields(const Json& document) {
  Json extra = Json::object();
  if (const auto* members = document.get_ptr<const Json::object_t*>()) {
    for (const auto& [name, value] : *members) {
      if (std::find(std::begin(kFields), std::end(kFields), name) == std::end(kFields)) {
        extra[name] = value;
      }
    }
  }
  return extra;
}

}  // namespace

Brief read_brief(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  Brief brief;
  if (!reader.header("trowelbell.brief", 1)) {
    return brief;
  }
  brief.visit = reader.id("visit");
  if (const std::string* key = reader.find_text("key"); key != nullptr && is_key(*key)) {
    brief.key = *key;
  } else {
    reader.refuse("key", "16 to 64 of A-Z, a-z, 0-9, \"-\" and \"_\"");
  }
  brief.lesson = reader.id("lesson");
  brief.school = reader.text("school", 120);
  brief.room = reader.text("room", 60);
  brief.sponsor = reader.text_or("sponsor", 120, "");
  brief.sheet_language = read_sheet_language(reader);
  brief.date = read_date(reader, "date");
  brief.start_minutes = read_clock(reader, "start");
  brief.bell_minutes = read_clock(reader, "bell");
  if (brief.bell_minutes <= brief.start_minutes) {
    reader.problem("bell", "must be later than \"start\", on the same day");
  }
  brief.utc_offset_minutes = read_utc_offset(reader);
  brief.children = reader.whole("children", 1, 60);
  brief.adults = reader.whole("adults", 1, 20);
  brief.tables = reader.whole_or("tables", 1, 20, 1);
  brief.kits = reader.whole_or("kits", 0, 120, 0);
  brief.warmth = read_warmth(reader);
  brief.closed = read_closed_days(reader);
  brief.half_days = read_half_days(reader);
  brief.school_asks = read_school_asks(reader);
  brief.extra = unknown_fields(document);
  return brief;
}

Json brief_json(const Brief& brief) {
  Json closed = Json::array();
  for (const DateRange& range : brief.closed) {
    closed.push_back({{"from", format_date(range.from)}, {"to", format_date(range.to)}});
  }
  Json half_days = Json::array();
  for (const Date day : brief.half_days) {
    half_days.push_back(format_date(day));
  }
  Json document = brief.extra.is_object() ? brief.extra : Json::object();
  document["format"] = "trowelbell.brief";
  document["version"] = 1;
  document["visit"] = brief.visit;
  document["key"] = brief.key;
  document["lesson"] = brief.lesson;
  document["school"] = brief.school;
  document["room"] = brief.room;
  document["sponsor"] = brief.sponsor;
  document["sheet_language"] = brief.sheet_language;
  document["date"] = format_date(brief.date);
  document["start"] = format_clock(brief.start_minutes);
  document["bell"] = format_clock(brief.bell_minutes);
  document["utc_offset_minutes"] = brief.utc_offset_minutes;
  document["children"] = brief.children;
  document["adults"] = brief.adults;
  document["tables"] = brief.tables;
  document["kits"] = brief.kits;
  document["warmth"] = {{"day", short_number(brief.warmth.day)},
                        {"night", short_number(brief.warmth.night)},
                        {"closed", short_number(brief.warmth.closed)}};
  document["closed"] = std::move(closed);
  document["half_days"] = std::move(half_days);
  document["school_asks"] = brief.school_asks;
  return document;
}

std::string brief_fragment(const Brief& brief) {
  return "b=" + base64url(dump_json(brief_json(brief)));
}

std::optional<Brief> brief_from_fragment(std::string_view fragment, Problems& problems) {
  constexpr std::size_t kMostCharacters =
      2 * kBriefLimits.bytes;  // base64 makes 4 of 3, and mail adds line ends
  if (fragment.size() > kMostCharacters) {
    add_problems(
        problems,
        {{"", "is too long for a visit link; ask the coordinator for the brief as a file"}});
    return std::nullopt;
  }
  // A whole link was pasted: only what follows '#' counts.
  fragment.remove_prefix(std::min(fragment.size(), fragment.rfind('#') + 1));
  if (fragment.substr(0, 2) != "b=") {
    add_problems(
        problems,
        {{"", "is not a visit link; open the link from the coordinator's message, all of it"}});
    return std::nullopt;
  }
  std::string text(fragment.substr(2));
  // Mail programs break long links over lines.
  std::erase_if(text, [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; });
  const auto bytes = base64url_bytes(text);
  if (!bytes) {
    add_problems(
        problems,
        {{"", "is a damaged visit link; open it again from the coordinator's message, all of it"}});
    return std::nullopt;
  }
  return brief_from_text(*bytes, problems);
}

std::optional<Brief> brief_from_text(std::string_view text, Problems& problems) {
  Problems found;
  const auto document = parse_json(text, kBriefLimits, found);
  std::optional<Brief> brief;
  if (document) {
    brief = read_brief(*document, found);
  }
  add_problems(problems, found);
  return found.empty() ? brief : std::nullopt;
}

}  // namespace trowelbell
