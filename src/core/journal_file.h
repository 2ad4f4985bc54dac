// A journal as a file, to save, send or look into: {"format": "trowelbell.journal", "version": 1,
// "visit", "events"}.
#pragma once

#include "event.h"

namespace trowelbell {

inline constexpr JsonLimits kJournalLimits{16 * 1024 * 1024, 8};

struct JournalFile {
  std::string visit;
  std::vector<Event> events;  // 0..kMostEvents, as they stand in the file
};

bool is_journal_file(const Json& document);  // by its format alone
JournalFile read_journal_file(const Json& document, Problems& problems);
// Whether the file's events can join those of an open visit: they are numbered as a phone numbers
// them (1..kMostEvents), and none lies more than a day after `now` (ms since 1970 UTC), since every
// later tap is stamped after the latest event known.
void check_joining(const JournalFile& file, std::int64_t now, Problems& problems);
Json journal_file_json(std::string_view visit, std::span<const Event> events);

}  // namespace trowelbell
