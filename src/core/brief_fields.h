// Fields that a brief and a county's school have in common, read the same way in both.
#pragma once

#include "brief.h"

namespace trowelbell {

// "2027-03-08"; "09:05" as minutes after midnight.
Date read_date(const Reader& reader, std::string_view key);
std::int64_t read_clock(const Reader& reader, std::string_view key);

RoomWarmth read_warmth(const Reader& reader);
std::vector<DateRange> read_closed_days(const Reader& reader);
std::vector<Date> read_half_days(const Reader& reader);
std::vector<std::string> read_school_asks(const Reader& reader);
std::string read_sheet_language(const Reader& reader);
std::int64_t read_utc_offset(const Reader& reader);

}  // namespace trowelbell
