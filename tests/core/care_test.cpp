#include "core/care.h"

#include "documents.h"

using namespace trowelbell;

namespace {

const documents::Read kRead = documents::reader_of(read_care_cards);

}  // namespace

TEST_CASE("care cards are read field by field and found by id") {
  Problems problems;
  const CareCards care = read_care_cards(documents::care(), problems);
  CHECK(problems.empty());
  const CareCard* spill = find_card(care, "spill");
  REQUIRE(spill != nullptr);
  CHECK(spill->title.es == "Derrame");
  CHECK(spill->prevent.at(0).en == "Half full.");
  CHECK(spill->now.at(0).es == "Alto.");
  CHECK(spill->mishap.en == "Water spilled");
  CHECK(spill->drawing == "spill");
  CHECK(spill->sources.at(0) == "Common practice.");
  CHECK(find_card(care, "none") == nullptr);
}

TEST_CASE("the care cards' reader is strict") {
  documents::reader_is_strict(
      documents::care(), kRead,
      {"/cards/*/title/es", "/cards/*/prevent", "/cards/*/prevent/*/es", "/cards/*/now/*/es",
       "/cards/*/mishap", "/cards/*/mishap/es", "/cards/*/drawing"});
  documents::bad_rows_are_told(documents::care(), kRead,
                               {{"/cards", "[]", ""},
                                {"/cards/0/now", "[]", ""},
                                {"/cards/0/sources", "[]", ""},
                                {"/cards/0/id", "\"A\"", ""}});
  Json twice = documents::care();
  twice["cards"].push_back(twice["cards"][0]);
  CHECK(documents::tells(kRead(twice), "/cards/1/id"));
}
