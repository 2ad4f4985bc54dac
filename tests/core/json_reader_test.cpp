#include "documents.h"

using namespace trowelbell;
using documents::parsed;

namespace {

// What reading `key` of an object comes to: the value, and whether it was refused.
template <class Get>
bool refused(const Json& value, Get get) {
  Problems problems;
  get(Reader(Json{{"it", value}}, problems));
  return !problems.empty();
}

}  // namespace

TEST_CASE("a place is told as a JSON Pointer") {
  // RFC 6901, section 5: its example document and the pointers to its members, and section 6 for
  // nothing more.
  const Json example =
      parsed(R"({"foo": ["bar", "baz"], "": 0, "a/b": 1, "c%d": 2, "e^f": 3, "g|h": 4,
                                  "i\\j": 5, "k\"l": 6, " ": 7, "m~n": 8})");
  const std::pair<const char*, const char*> pointers[] = {
      {"foo", "/foo"},   {"a/b", "/a~1b"},  {"c%d", "/c%d"}, {"e^f", "/e^f"}, {"g|h", "/g|h"},
      {"i\\j", "/i\\j"}, {"k\"l", "/k\"l"}, {" ", "/ "},     {"m~n", "/m~0n"}};
  for (const auto& [key, pointer] : pointers) {
    Problems problems;
    const Reader reader(example, problems);
    reader.problem(key, "is wrong");
    CHECK(problems.at(0).path == pointer);
    // The library's own pointer leads from there to the value.
    CHECK(example.at(Json::json_pointer(problems[0].path)) == example[key]);
  }
  Problems problems;
  Reader(example, problems).array("foo", 0, 5, [](const Reader& item) {
    item.problem("", "is wrong");
  });
  REQUIRE(problems.size() == 2);
  CHECK(problems[0].path == "/foo/0");
  CHECK(problems[1].path == "/foo/1");
}

TEST_CASE("texts") {
  const auto text = [](const Json& value) {
    return refused(value, [](const Reader& reader) { reader.text("it", 5); });
  };
  CHECK_FALSE(text("12345"));
  CHECK_FALSE(text("a\xC3\xB1z"));
  const Json bad[] = {"",         "123456", "a\nb", "a\tb",  "a\x7F",       "\xC2\x80",
                      "\xC2\x9F", "\xFF",   5,      nullptr, Json::array(), std::string("a\0b", 3)};
  for (const Json& value : bad) {
    CAPTURE(dump_json(value));
    CHECK(text(value));
  }
  const auto lines = [](const Json& value) {
    return refused(value, [](const Reader& reader) { reader.text("it", 9, true); });
  };
  CHECK_FALSE(lines("a\nb"));
  CHECK(lines("a\rb"));
  CHECK_FALSE(text("\xC2\xA0"));  // no-break space, just past the controls
}

TEST_CASE("ids") {
  const auto id = [](const Json& value) {
    return refused(value, [](const Reader& reader) { reader.id("it"); });
  };
  for (const char* good : {"a", "0", "window-garden", "a--"}) {
    CHECK_FALSE(id(good));
  }
  CHECK_FALSE(id(std::string(64, 'a')));
  for (const char* bad : {"", "-a", "A", "a_b", "a b", "a/b", "a.b", "\xC3\xB1"}) {
    CAPTURE(bad);
    CHECK(id(bad));
  }
  CHECK(id(std::string(65, 'a')));
  CHECK(id(7));
}

TEST_CASE("whole numbers are JSON integers within bounds") {
  const auto whole = [](const char* value) {
    return refused(parsed(value), [](const Reader& reader) { reader.whole("it", -2, 60); });
  };
  for (const char* good : {"-2", "0", "-0", "60"}) {
    CHECK_FALSE(whole(good));
  }
  for (const char* bad :
       {"-3", "61", "3.0", "1e1", "-0.0", "1.5", "9223372036854775807", "9223372036854775808",
        "-9223372036854775808", "-9223372036854775809", "18446744073709551615",
        "18446744073709551616", "\"3\"", "true", "null", "[3]"}) {
    CAPTURE(bad);
    CHECK(whole(bad));
  }
  Problems problems;
  const Json edge = parsed(R"({"low": -9223372036854775808, "high": 9223372036854775807})");
  const Reader reader(edge, problems);
  CHECK(reader.whole("low", INT64_MIN, INT64_MAX) == INT64_MIN);
  CHECK(reader.whole("high", INT64_MIN, INT64_MAX) == INT64_MAX);
  CHECK(reader.whole_or("none", 0, 5, 3) == 3);
  CHECK(problems.empty());
}

TEST_CASE("numbers, flags and choices") {
  const Json document =
      parsed(R"({"n": 2.5, "whole": 7, "yes": true, "word": "may", "huge": 1e300})");
  Problems problems;
  const Reader reader(document, problems);
  CHECK(reader.number("n", -1, 3) == 2.5);
  CHECK(reader.number("whole", 0, 10) == 7.0);
  CHECK(reader.flag("yes"));
  CHECK(reader.flag_or("none", true));
  CHECK(reader.choice("word", {"must", "should", "may"}) == 2);
  CHECK(problems.empty());
  reader.number("huge", -10.5, 60);
  reader.number("yes", 0, 1);
  reader.flag("none");
  reader.choice("n", {"must", "should"});
  REQUIRE(problems.size() == 4);
  CHECK(problems[0].what == "must be a number from -10.5 to 60, without quotes");
  CHECK(problems[2].what == "is missing; it must be true or false, without quotes");
  CHECK(problems[3].what == "must be one of \"must\", \"should\"");
}

TEST_CASE("one place gets one problem, and a missing object is told once") {
  Problems problems;
  const Json document = parsed(R"({"list": [1, {"id": "a"}]})");
  const Reader reader(document, problems);
  const Reader gone = reader.object("seconds");
  gone.whole("min", 0, 5);
  gone.whole("max", 0, 5);
  CHECK(problems.size() == 1);
  reader.array("list", 1, 2, [](const Reader& item) {
    item.id("id");
    item.text("name", 5);
  });
  REQUIRE(problems.size() == 3);
  CHECK(problems[1] == Problem{"/list/0", "must be an object: { ... }"});
  CHECK(problems[2].path == "/list/1/name");
  reader.array("list", 3, 9, [](const Reader&) { FAIL("too few items"); });
  CHECK(problems[3].what == "must be a list of 3 to 9 items: [ ... ]");
}

TEST_CASE("localised texts need English and take other languages as they come") {
  const Json document = parsed(
      R"({"both": {"en": "a\nb", "es": "c", "fr": "d"}, "english": {"en": "a"}, "spanish": {"es": "c"},
                                   "flat": "a"})");
  Problems problems;
  const Reader reader(document, problems);
  CHECK(reader.local("both", 10) == LocalText{"a\nb", "c"});
  CHECK(reader.local("english", 10) == LocalText{"a", ""});
  CHECK(reader.local_or_empty("none", 10).empty());
  CHECK(problems.empty());
  reader.local("spanish", 10);
  reader.local("flat", 10);
  reader.local("none", 10);
  REQUIRE(problems.size() == 3);
  CHECK(problems[0].path == "/spanish/en");
  CHECK(problems[1].path == "/flat");
  CHECK(problems[2].path == "/none");
}
