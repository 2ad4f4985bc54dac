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

JournalFile read_journal_file(const Json& document, Problems& problems);
Json journal_file_json(std::string_view visit, std::span<const Event> events);

}  // namespace trowelbell
