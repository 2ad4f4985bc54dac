#include "core/story.h"

#include "documents.h"

using namespace trowelbell;

namespace {

const documents::Read kRead = documents::reader_of(read_story);

}  // namespace

TEST_CASE("a story is read page by page") {
  Problems problems;
  const Story story = read_story(documents::story(), problems);
  CHECK(problems.empty());
  CHECK(story.id == "not-yet");
  CHECK(story.title.es == "Todavía No");
  REQUIRE(story.pages.size() == 2);
  CHECK(story.pages[0].text.en == "A bean slept.\nIt snored.");
  CHECK(story.pages[0].prompt.en == "Can you snore?");
  CHECK(story.pages[0].pause_seconds == 8);
  CHECK(story.pages[0].picture == "bean_in_hand");
  CHECK(story.pages[1].prompt.empty());
  CHECK(story.pages[1].pause_seconds == 0);
  CHECK(story.pages[1].picture.empty());
}

TEST_CASE("the story's reader is strict") {
  documents::reader_is_strict(documents::story(), kRead,
                              {"/title/es", "/pages/*/text/es", "/pages/*/prompt",
                               "/pages/*/prompt/es", "/pages/*/pause_seconds", "/pages/*/picture"});
  documents::bad_rows_are_told(documents::story(), kRead,
                               {{"/pages", "[]", ""},
                                {"/pages/0/pause_seconds", "121", ""},
                                {"/pages/0/text/en", "\"\"", ""}});
  Json long_story = documents::story();
  long_story["pages"] = Json(60, long_story["pages"][1]);
  CHECK(kRead(long_story).empty());
  long_story["pages"].push_back(long_story["pages"][0]);
  CHECK(documents::tells(kRead(long_story), "/pages"));
}

TEST_CASE("words are counted as they are spoken") {
  // Each row counted by ear; `wc -w` of GNU coreutils counts the rows marked (wc) the same.
  const std::pair<const char*, std::int64_t> rows[] = {
      {"", 0},
      {" \n\t ", 0},
      {"bean", 1},
      {"  A bean  slept.\nIt snored. ", 5},  // (wc)
      {"don't well-known 3 beans!", 4},      // (wc)
      {"Wait \xE2\x80\x94 what?", 2},        // a dash between blanks is no word
      {"- ... * !", 0},
      {"\xC2\xBFRoncan los frijoles? \xC2\xA1S\xC3\xAD!", 4},  // (wc)
      {"\xC3\xA1", 1},
      {"\xC3\x91o\xC3\xB1o", 1},
      {"no\xC2\xA0"
       "break space",
       3},
      {"\xE2\x80\x9CGood morning,\xE2\x80\x9D said Lina.", 4},  // (wc)
  };
  for (const auto& row : rows) {
    CAPTURE(row.first);
    CHECK(count_words(row.first) == row.second);
  }
}
