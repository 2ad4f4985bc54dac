#include "core/content.h"

#include <filesystem>
#include <fstream>
#include <sstream>

#include "documents.h"

using namespace trowelbell;

namespace {

namespace fs = std::filesystem;

const documents::Read kReadIndex = documents::reader_of(read_index);

std::string first(const Problems& problems) {
  return problems.empty() ? "" : problems[0].path + " " + problems[0].what;
}

std::string file_text(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  REQUIRE_MESSAGE(in.good(), file.string());
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

Json shipped(const std::string& path) {
  Problems problems;
  const auto document =
      parse_json(file_text(fs::path(TROWELBELL_CONTENT_DIR) / path), kCountyLimits, problems);
  REQUIRE_MESSAGE(document.has_value(), path);
  return *document;
}

Content shipped_content() {
  Problems problems;
  const ContentIndex index = read_index(shipped("index.json"), problems);
  Content content;
  for (const ContentFile& file : content_files(index)) {
    load_content(content, file, file_text(fs::path(TROWELBELL_CONTENT_DIR) / file.path), problems);
    CAPTURE(file.path);
    CHECK(first(problems) == "");
  }
  return content;
}

// Small content that fits together.
Content content() {
  Content made;
  Problems problems;
  const auto add = [&](ContentKind kind, const char* id, const Json& document) {
    load_content(made, {kind, id, "x.json"}, dump_json(document), problems);
  };
  Json lesson = documents::lesson();
  lesson["species"] = {"garden-pea"};
  lesson["steps"][0]["cards"] = {"spill"};
  add(ContentKind::lesson, "window-garden", lesson);
  add(ContentKind::story, "not-yet", documents::story());
  add(ContentKind::species, "garden-pea", documents::species());
  add(ContentKind::care, "", documents::care());
  add(ContentKind::language, "en", documents::language());
  REQUIRE(problems.empty());
  return made;
}

template <class Thing>
Thing read_good(Thing (*read)(const Json&, Problems&), const Json& document) {
  Problems problems;
  Thing thing = read(document, problems);
  REQUIRE(problems.empty());
  return thing;
}

}  // namespace

TEST_CASE("the index is read, and its reader is strict") {
  const ContentIndex index = read_good(read_index, documents::index());
  CHECK(index.lessons.at("window-garden") == "lessons/a.json");
  CHECK(index.care == "care/cards.json");
  CHECK(content_files(index).size() == 6);
  documents::reader_is_strict(documents::index(), kReadIndex, {"/languages/en", "/languages/es"});
  documents::bad_rows_are_told(documents::index(), kReadIndex,
                               {{"/care", "\"/etc/passwd.json\"", ""},
                                {"/care", "\"../cards.json\"", ""},
                                {"/care", "\"care/cards.txt\"", ""},
                                {"/care", "\".json\"", ""},
                                {"/care", "\"https://x.example/cards.json\"", ""},
                                {"/stories/not-yet", "\"a\\\\b.json\"", ""},
                                {"/stories/Not Yet", "\"stories/a.json\"", "/stories"},
                                {"/lessons", "{}", ""}});
}

TEST_CASE("a file that is not the one the index names is not taken in") {
  Content made;
  Problems problems;
  load_content(made, {ContentKind::story, "other", "x.json"}, dump_json(documents::story()),
               problems);
  CHECK(documents::tells(problems, "/id"));
  CHECK(made.stories.empty());
  problems.clear();
  load_content(made, {ContentKind::language, "es", "x.json"}, dump_json(documents::language()),
               problems);
  CHECK(documents::tells(problems, "/language"));
  problems.clear();
  load_content(made, {ContentKind::lesson, "not-yet", "x.json"}, dump_json(documents::story()),
               problems);
  CHECK(documents::tells(problems, "/format"));
  CHECK(made.lessons.empty());
}

TEST_CASE("what a document asks of the rest is looked up") {
  const Content all = content();
  Lesson lesson = all.lessons.at("window-garden");
  CHECK(check_references(lesson, all).empty());
  lesson.story = "gone";
  lesson.species.emplace_back("gone");
  lesson.steps[0].cards.emplace_back("gone");
  lesson.steps[1].drawing = "unicorn";
  const Problems problems = check_references(lesson, all);
  REQUIRE(problems.size() == 4);
  CHECK(problems[0].path == "/story");
  CHECK(problems[0].what.find("there is \"not-yet\"") != std::string::npos);
  CHECK(problems[1].path == "/species/1");
  CHECK(problems[2].path == "/steps/0/cards/1");
  CHECK(problems[3].path == "/steps/1/drawing");

  Story story = all.stories.at("not-yet");
  CHECK(check_references(story).empty());
  story.pages[1].picture = "wave";  // a step's drawing, not a story's
  CHECK(documents::tells(check_references(story), "/pages/1/picture"));

  CareCards care = all.care;
  CHECK(check_references(care).empty());
  care.cards[0].drawing = "bell";
  CHECK(documents::tells(check_references(care), "/cards/0/drawing"));

  Brief brief = read_good(read_brief, documents::brief());
  CHECK(check_references(brief, all).empty());
  brief.lesson = "gone";
  CHECK(documents::tells(check_references(brief, all), "/lesson"));

  County county = read_good(read_county, documents::county());
  CHECK(check_references(county, all).empty());
  county.visits[0].lesson = "gone";
  CHECK(documents::tells(check_references(county, all), "/visits/0/lesson"));
}

TEST_CASE("a language has the English keys and the English placeholders") {
  const Content all = content();
  Json spanish = documents::language();
  spanish["language"] = "es";
  CHECK(check_references(read_good(read_language, spanish), all).empty());
  spanish["texts"].erase("braces");
  spanish["texts"]["hello"] = "¡Hola, {nombre}!";
  spanish["texts"]["extra"] = "de más";
  const Problems problems = check_references(read_good(read_language, spanish), all);
  CHECK(problems.size() == 3);
  CHECK(documents::tells(problems, "/texts/braces"));
  CHECK(documents::tells(problems, "/texts/hello"));
  CHECK(documents::tells(problems, "/texts/extra"));
  CHECK_FALSE(check_references(read_good(read_language, spanish), Content{}).empty());
}

TEST_CASE("the shipped content is good and fits together") {
  const Content all = shipped_content();
  CHECK_FALSE(all.lessons.empty());
  CHECK(all.languages.size() == 2);
  Problems problems;
  for (const auto& entry : all.lessons) {
    add_problems(problems, check_references(entry.second, all), entry.first);
  }
  for (const auto& entry : all.stories) {
    add_problems(problems, check_references(entry.second), entry.first);
  }
  for (const auto& entry : all.languages) {
    add_problems(problems, check_references(entry.second, all), entry.first);
  }
  add_problems(problems, check_references(all.care), "care");
  add_problems(problems, check_references(read_good(read_county, shipped("demo/county.json")), all),
               "county");
  CHECK(first(problems) == "");
}

TEST_CASE("every visit of the demo county makes a brief that reads back") {
  County county = read_good(read_county, shipped("demo/county.json"));
  CHECK(county.visits.size() > 1);
  for (School& school : county.schools) {
    // As if looked up: that is tried in tests/cli.
    school.utc_offset_minutes = school.utc_offset_minutes.value_or(-420);
    school.calendar.reset();
  }
  for (const PlannedVisit& visit : county.visits) {
    Problems problems;
    const auto brief = make_brief(county, visit.id, {}, {}, "0123456789abcdef", problems);
    REQUIRE(brief.has_value());
    const auto back = brief_from_fragment(brief_fragment(*brief), problems);
    REQUIRE(back.has_value());
    CHECK(brief_json(*back) == brief_json(*brief));
  }
}

TEST_CASE("every content file prints and reads back the same") {
  constexpr JsonLimits kWide{4 * 1024 * 1024, 40};  // schemas are deeper than what they describe
  int files = 0;
  for (const auto& entry : fs::recursive_directory_iterator(TROWELBELL_CONTENT_DIR)) {
    if (entry.path().extension() == ".json") {
      CAPTURE(entry.path().string());
      Problems problems;
      const auto first = parse_json(file_text(entry.path()), kWide, problems);
      REQUIRE(first.has_value());
      const auto second = parse_json(dump_json(*first), kWide, problems);
      REQUIRE(second.has_value());
      CHECK(*second == *first);
      CHECK(dump_json(*second) == dump_json(*first));
      ++files;
    }
  }
  CHECK(files > 10);
}
