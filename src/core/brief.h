// The brief: the one file that tells a phone all about one visit. Format "trowelbell.brief".
// It travels as a link (the fragment never reaches a server), a file, or a QR code.
#pragma once

#include "dates.h"
#include "json.h"

namespace trowelbell {

struct DateRange {
  Date from{};
  Date to{};  // inclusive
};

// Degrees Celsius in the room, 0..40: school hours, nights, and days without school. Not whole, so
// that 70 F stays what it is.
struct RoomWarmth {
  double day = 20;
  double night = 17;
  double closed = 16;
};

struct Brief {
  std::string visit;  // id, unique for the coordinator
  std::string key;    // bearer key for this visit's reports: 16..64 of A-Z a-z 0-9 - _
  std::string lesson;
  std::string school;
  std::string room;
  std::string sponsor;
  std::string sheet_language = "en";  // the teacher's sheet
  Date date{};
  std::int64_t start_minutes = 0;  // local clock, minutes after midnight
  std::int64_t bell_minutes = 0;   // after start, same day
  std::int64_t utc_offset_minutes = 0;
  std::int64_t children = 0;  // 1..60
  std::int64_t adults = 0;    // 1..20, the team
  std::int64_t tables = 1;    // 1..20
  std::int64_t kits = 0;      // packed and brought, 0..120
  RoomWarmth warmth;
  std::vector<DateRange> closed;  // days without school, other than weekends; at most 100
  std::vector<Date> half_days;    // at most 60
  std::vector<std::string>
      school_asks;  // the school's and the teacher's own rules for the visit, 0..12 lines
  Json extra;       // unknown fields, kept

  std::int64_t start_ms() const { return to_epoch_ms(date, start_minutes, utc_offset_minutes); }
  std::int64_t bell_ms() const { return to_epoch_ms(date, bell_minutes, utc_offset_minutes); }
};

inline constexpr JsonLimits kBriefLimits{64 * 1024, 8};

Brief read_brief(const Json& document, Problems& problems);
Json brief_json(const Brief& brief);

// The link form: "b=" + base64url (RFC 4648, no padding) of the brief's JSON. decode accepts the
// fragment with or without '#'.
std::string brief_fragment(const Brief& brief);
std::optional<Brief> brief_from_fragment(std::string_view fragment, Problems& problems);
// From the text of a file.
std::optional<Brief> brief_from_text(std::string_view text, Problems& problems);

}  // namespace trowelbell
