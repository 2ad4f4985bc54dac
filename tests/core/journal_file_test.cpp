#include "core/journal_file.h"

#include "documents.h"

using namespace trowelbell;

namespace {

const documents::Read kRead = documents::reader_of(read_journal_file);

Json event(std::int64_t seq, std::int64_t page) {
  return {{"device", "0123456789abcdef"},
          {"seq", seq},
          {"at", 1000 + seq},
          {"kind", "page"},
          {"data", {{"page", page}}}};
}

Json journal() {
  return {{"format", "trowelbell.journal"},
          {"version", 1},
          {"visit", "fern-4"},
          {"events", {event(1, 0), event(2, 1)}}};
}

}  // namespace

TEST_CASE("a journal file is read and written back") {
  Problems problems;
  const JournalFile file = read_journal_file(journal(), problems);
  CHECK(problems.empty());
  CHECK(file.visit == "fern-4");
  REQUIRE(file.events.size() == 2);
  CHECK(file.events[1].data["page"] == 1);
  CHECK(journal_file_json(file.visit, file.events) == journal());
}

TEST_CASE("the journal file's reader is strict") {
  documents::reader_is_strict(journal(), kRead, {});
}

TEST_CASE("a bad event is told with its place, the good ones are still there") {
  Json spoiled = journal();
  spoiled["events"].push_back(event(3, 999));
  Problems problems;
  const JournalFile file = read_journal_file(spoiled, problems);
  CHECK(documents::tells(problems, "/events/2/data/page"));
  CHECK(file.events.size() == 2);
}

TEST_CASE("there is a limit to the number of events") {
  Json many = journal();
  many["events"] = Json::array();
  for (std::size_t i = 1; i <= kMostEvents; ++i) {
    many["events"].push_back(event(static_cast<std::int64_t>(i), 0));
  }
  CHECK(kRead(many).empty());
  many["events"].push_back(event(1, 0));
  CHECK(documents::tells(kRead(many), "/events"));
}
