#include "brief_fields.h"

namespace trowelbell {

namespace {

std::string_view text_at(const Reader& reader, std::string_view key) {
  const std::string* text = reader.find_text(key);
  return text == nullptr ? std::string_view{} : std::string_view{*text};
}

}  // namespace

Date read_date(const Reader& reader, std::string_view key) {
  if (const auto date = parse_date(text_at(reader, key))) {
    return *date;
  }
  reader.refuse(key, "a date that exists, as \"YYYY-MM-DD\", from 2000 to 2199");
  return std::chrono::year{2000} / 1 / 1;
}

std::int64_t read_clock(const Reader& reader, std::string_view key) {
  if (const auto minutes = parse_clock(text_at(reader, key))) {
    return *minutes;
  }
  reader.refuse(key, "a time of day, as \"HH:MM\", from 00:00 to 23:59");
  return 0;
}

RoomWarmth read_warmth(const Reader& reader) {
  RoomWarmth warmth;
  if (reader.has("warmth")) {
    const Reader room = reader.object("warmth");
    warmth.day = room.number_or("day", 0, 40, warmth.day);
    warmth.night = room.number_or("night", 0, 40, warmth.night);
    warmth.closed = room.number_or("closed", 0, 40, warmth.closed);
  }
  return warmth;
}

std::vector<DateRange> read_closed_days(const Reader& reader) {
  std::vector<DateRange> closed;
  reader.array("closed", 0, 100, [&](const Reader& item) {
    const DateRange range{read_date(item, "from"), read_date(item, "to")};
    if (range.to < range.from) {
      item.problem("to", "must not be before \"from\"");
    }
    closed.push_back(range);
  });
  return closed;
}

std::vector<Date> read_half_days(const Reader& reader) {
  std::vector<Date> days;
  reader.array("half_days", 0, 60,
               [&](const Reader& item) { days.push_back(read_date(item, "")); });
  return days;
}

std::vector<std::string> read_school_asks(const Reader& reader) {
  return reader.texts("school_asks", 0, 12, 200);
}

std::string read_sheet_language(const Reader& reader) {
  return reader.has("sheet_language") && reader.choice("sheet_language", {"en", "es"}) == 1 ? "es"
                                                                                            : "en";
}

std::int64_t read_utc_offset(const Reader& reader) {
  return reader.whole("utc_offset_minutes", -720, 840);
}

}  // namespace trowelbell
