// One event, and a journal file of events; and the order of any two of them.
#include "core/journal_file.h"
#include "fuzz.h"

using namespace trowelbell;

static std::optional<Event> read(const Json& document, Problems& problems) {
  const std::size_t before = problems.size();
  auto event = read_event(document, problems);
  fuzz::must(event.has_value() == (problems.size() == before));
  return event;
}

static void fuzz_one(std::string_view text) {
  fuzz::read_document(text, kEventLimits, read, [](const Json&, const std::optional<Event>& event) {
    Problems problems;
    const auto back = read_event(event_json(*event), problems);
    fuzz::must(back.has_value() && *back == *event);
  });
  fuzz::read_document(text, kJournalLimits, read_journal_file,
                      [](const Json&, const JournalFile& file) {
                        Problems problems;
                        const JournalFile back =
                            read_journal_file(journal_file_json(file.visit, file.events), problems);
                        fuzz::must(problems.empty() && back.events == file.events);
                        for (std::size_t i = 1; i < file.events.size(); ++i) {
                          const Event& one = file.events[i - 1];
                          const Event& other = file.events[i];
                          fuzz::must((one < other) + (other < one) + (one == other) == 1);
                        }
                      });
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
