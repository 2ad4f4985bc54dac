#include "journal_file.h"

namespace trowelbell {
namespace {

constexpr std::string_view kFormat = "trowelbell.journal";

}  // namespace

bool is_journal_file(const Json& document) {
  return document.is_object() && document.value("format", Json()) == kFormat;
}

JournalFile read_journal_file(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  JournalFile file;
  if (!reader.header(kFormat, 1)) {
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

void check_joining(const JournalFile& file, std::int64_t now, Problems& problems) {
  constexpr std::int64_t kDay = 24 * 3600 * std::int64_t{1000};
  for (const Event& event : file.events) {
    if (event.at > now + kDay || event.seq > static_cast<std::int64_t>(kMostEvents)) {
      problems.push_back({"/events", "has an event that no phone can have recorded yet"});
      return;
    }
  }
}

Json journal_file_json(std::string_view visit, std::span<const Event> events) {
  Json list = Json::array();
  for (const Event& event : events) {
    list.push_back(event_json(event));
  }
  return {{"format", kFormat}, {"version", 1}, {"visit", visit}, {"events", std::move(list)}};
}

}  // namespace trowelbell
