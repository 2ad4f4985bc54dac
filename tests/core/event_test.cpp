#include "core/event.h"

#include "documents.h"

using namespace trowelbell;

namespace {

constexpr const char* kDevice = "0123456789abcdef";

Json event(const char* kind, Json data) {
  return {{"device", kDevice},
          {"seq", 7},
          {"at", 1804521900000},
          {"kind", kind},
          {"data", std::move(data)}};
}

Problems problems_of(const Json& document) {
  Problems problems;
  const auto read = read_event(document, problems);
  CHECK(read.has_value() == problems.empty());
  return problems;
}

struct Row {
  const char* kind;
  const char* data;  // complete and good
};

// Every kind of core/event.h once.
constexpr Row kGood[] = {
    {"start", "{}"},
    {"step", R"({"step": "hello"})"},
    {"page", R"({"page": 59})"},
    {"finish", "{}"},
    {"hold", R"({"reason": "drill"})"},
    {"resume", "{}"},
    {"choose", R"({"step": "song", "choice": "auto"})"},
    {"place", R"({"place": 60, "is": "left_early"})"},
    {"others", R"({"is": "present"})"},
    {"children", R"({"count": 60})"},
    {"adults", R"({"count": 20})"},
    {"bell", R"({"at": 1804521900000})"},
    {"kit", R"({"pile": "with_teacher", "by": -120})"},
    {"lacking", R"({"item": "tray", "count": 999})"},
    {"readers", R"({"count": 2})"},
    {"tick", R"({"list": "handover", "item": "water", "done": false})"},
    {"mishap", R"({"card": "spill"})"},
    {"taken", R"({"by": "aide"})"},
    {"sheet", R"({"language": "es"})"},
    {"note", R"({"text": "Two trays short.\nBring more."})"},
    {"report", "{}"},
    {"undo", R"({"device": "0123456789abcdef", "seq": 1})"},
};

}  // namespace

TEST_CASE("every kind of event is read and written back") {
  for (const Row& row : kGood) {
    CAPTURE(row.kind);
    const Json document = event(row.kind, documents::parsed(row.data));
    Problems problems;
    const auto read = read_event(document, problems);
    REQUIRE(read.has_value());
    CHECK(event_json(*read) == document);
    CHECK(read->device == kDevice);
    CHECK(read->seq == 7);
    CHECK(read->at == 1804521900000);
    CHECK(read->kind == row.kind);
  }
}

TEST_CASE("every field of every kind is required, of its type and within its bounds") {
  for (const Row& row : kGood) {
    CAPTURE(row.kind);
    const Json good = event(row.kind, documents::parsed(row.data));
    documents::wrong_types_are_told_where_they_are(good, problems_of);
    documents::hostile_numbers_are_told_where_they_are(good, problems_of);
    const bool is_note = std::string_view(row.kind) == "note";
    documents::only_optional_fields_may_be_missing(
        good, problems_of,
        is_note ? std::vector<std::string>{"/data/text"} : std::vector<std::string>{});
  }
}

TEST_CASE("wrong data of a known kind is told") {
  const struct {
    const char* kind;
    const char* data;
    const char* told;
  } rows[] = {
      {"step", R"({"step": "Has Blank"})", "/data/step"},
      {"page", R"({"page": 60})", "/data/page"},
      {"page", R"({"page": -1})", "/data/page"},
      {"hold", R"({"reason": "boredom"})", "/data/reason"},
      {"choose", R"({"step": "song", "choice": "maybe"})", "/data/choice"},
      {"place", R"({"place": 0, "is": "present"})", "/data/place"},
      {"place", R"({"place": 61, "is": "present"})", "/data/place"},
      {"place", R"({"place": 1, "is": "asleep"})", "/data/is"},
      {"children", R"({"count": 0})", "/data/count"},
      {"adults", R"({"count": 21})", "/data/count"},
      {"bell", R"({"at": -1})", "/data/at"},
      {"kit", R"({"pile": "lost", "by": 1})", "/data/pile"},
      {"kit", R"({"pile": "given", "by": 121})", "/data/by"},
      {"tick", R"({"list": "other", "item": "a", "done": true})", "/data/list"},
      {"taken", R"({"by": "the cat"})", "/data/by"},
      {"sheet", R"({"language": "fr"})", "/data/language"},
      {"undo", R"({"device": "0123456789ABCDEF", "seq": 1})", "/data/device"},
      {"undo", R"({"device": "0123456789abcdef", "seq": 0})", "/data/seq"},
  };
  for (const auto& row : rows) {
    CAPTURE(row.data);
    CHECK(documents::tells(problems_of(event(row.kind, documents::parsed(row.data))), row.told));
  }
  CHECK(documents::tells(problems_of(event("note", {{"text", std::string(501, 'a')}})),
                         "/data/text"));
  CHECK(problems_of(event("note", {{"text", std::string(500, 'a')}})).empty());
  CHECK(problems_of(event("note", {{"text", ""}})).empty());
}

TEST_CASE("the frame of an event is checked") {
  const Json good = event("start", Json::object());
  documents::bad_rows_are_told(good, problems_of,
                               {{"/device", "\"0123456789ABCDEF\"", ""},
                                {"/device", "\"0123456789abcde\"", ""},
                                {"/device", "\"0123456789abcdef0\"", ""},
                                {"/seq", "0", ""},
                                {"/seq", "9007199254740992", ""},
                                {"/at", "-1", ""},
                                {"/at", "9007199254740992", ""},
                                {"/kind", "\"\"", ""},
                                {"/kind", "\"Start\"", ""},
                                {"/kind", "\"a-kind\"", ""},
                                {"/data", "[]", ""}});
}

TEST_CASE("what a newer app wrote is kept") {
  const Json unknown = event("weather", {{"sky", {"blue", 3}}});
  Problems problems;
  const auto read = read_event(unknown, problems);
  REQUIRE(read.has_value());
  CHECK(event_json(*read) == unknown);
  const Json more = event("page", {{"page", 3}, {"turned_by", "thumb"}});
  const auto with_more = read_event(more, problems);
  REQUIRE(with_more.has_value());
  CHECK(event_json(*with_more) == more);
}

TEST_CASE("an event of any kind has a size limit") {
  CHECK(problems_of(event("weather", {{"sky", std::string(3'900, 'a')}})).empty());
  CHECK(
      documents::tells(problems_of(event("weather", {{"sky", std::string(4'096, 'a')}})), "/data"));
}

TEST_CASE("events are ordered by time, device, number, and then by what they say") {
  const auto made = [](std::int64_t at, const char* device, std::int64_t seq,
                       const char* kind = "start", Json data = Json::object()) {
    return Event{device, seq, at, kind, std::move(data)};
  };
  // In rising order.
  const Event events[] = {made(1, "b", 9),
                          made(2, "a", 5),
                          made(2, "a", 6),
                          made(2, "b", 1, "finish"),
                          made(2, "b", 1, "page", {{"page", 1}}),
                          made(2, "b", 1, "page", {{"page", 2}}),
                          made(3, "a", 1)};
  for (const Event& one : events) {
    for (const Event& other : events) {
      CHECK((one < other) == (&one < &other));
      CHECK((one == other) == (&one == &other));
    }
  }
}
