// A journal file: what can join a visit is within its bounds, and joins the same in any order.
#include "core/journal_file.h"

#include "core/journal.h"
#include "fuzz.h"

using namespace trowelbell;

static void fuzz_one(std::string_view text) {
  fuzz::read_document(text, kJournalLimits, read_journal_file,
                      [](const Json& document, const JournalFile& file) {
                        constexpr std::int64_t kNow = 1'800'000'000'000;
                        fuzz::must(is_journal_file(document) && file.events.size() <= kMostEvents);
                        Problems problems;
                        check_joining(file, kNow, problems);
                        if (!problems.empty()) return;
                        Journal forward("00000000000000aa"), backward("00000000000000aa");
                        for (const Event& event : file.events) forward.merge(event);
                        for (std::size_t i = file.events.size(); i-- > 0;)
                          backward.merge(file.events[i]);
                        fuzz::must(journal_file_json("a", forward.events()) ==
                                   journal_file_json("a", backward.events()));
                        fuzz::must(forward.last_at() <= kNow + 24 * 3600 * 1000);
                      });
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
