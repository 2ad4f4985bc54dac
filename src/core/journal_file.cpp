#include "journal_file.h"

namespace trowelbell {

JournalFile read_journal_file(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  JournalFile file;
  if (!reader.header("trowelbell.journal", 1)) {
    return file;
  }
  file.visit = reader.id("visit");
  if (!reader.has("events")) {
    reader.refuse("events", "the list of the visit's events");
  }
  reader.array("events", 0, kMostEvents, [&](const Reader& item) {
    Problems found;
    if (auto event = read_event(item.value(), found)) {
      file.events.push_back(std::move(*event));
    }
    add_problems(problems, found, item.path());
  });
  return file;
}

Json journal_file_json(std::string_view visit, std::span<const Event> events) {
  Json list = Json::array();
  for (const Event& event : events) {
    list.push_back(event_json(event));
  }
  return {{"format", "trowelbell.journal"},
          {"version", 1},
          {"visit", visit},
          {"events", std::move(list)}};
}

}  // namespace trowelbell
