#include "core/json.h"

#include <doctest/doctest.h>

#include "core/utf8.h"

using namespace trowelbell;

namespace {

std::string told(std::string_view text, JsonLimits limits = {}) {
  Problems problems;
  const auto document = parse_json(text, limits, problems);
  CHECK(document.has_value() == problems.empty());
  CHECK(problems.size() <= 1);
  return problems.empty() ? "" : problems[0].path + problems[0].what;
}

std::string printed(std::string_view text) {
  Problems problems;
  const auto document = parse_json(text, {}, problems);
  REQUIRE(document.has_value());
  return dump_json(*document);
}

bool has(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("limits hold before anything is parsed") {
  CHECK(told("[1, 2]", {6, 1}).empty());
  CHECK(has(told("[1, 2]", {5, 1}), "is too long: 6 bytes; at most 5"));
  CHECK(told("[[1]]", {100, 2}).empty());
  CHECK(has(told("[[1]]", {100, 1}), "nested too deep; at most 1"));
  CHECK(has(told("[{\"a\":[1]}]", {100, 2}), "nested too deep"));
  CHECK(told("[[],[],[],[{}]]", {100, 3}).empty());
  SUBCASE("brackets inside texts do not count") {
    CHECK(told(R"(["[[[[", "\"[[[", "\\", "[{"])", {100, 1}).empty());
  }
  SUBCASE("nested ten thousand deep, closed or not") {
    const std::string open(10'000, '[');
    CHECK(has(told(open), "nested too deep"));
    CHECK(has(told(open + std::string(10'000, ']')), "nested too deep"));
    std::string objects;
    for (int i = 0; i < 10'000; ++i) {
      objects += "{\"a\":";
    }
    CHECK(has(told(objects), "nested too deep"));
  }
  SUBCASE("closing brackets first give no credit") {
    CHECK(has(told("]]]]][[[", {100, 2}), "is not JSON"));
  }
}

TEST_CASE("what is wrong is told with the byte and the line") {
  CHECK(has(told(""), "is empty"));
  CHECK(has(told("[1,\n2,\nx]"), "byte 8 (line 3)"));
  CHECK(has(told("[1, 2"), "stops too early, at byte 6 (line 1)"));
  CHECK(has(told("{\"a\":"), "stops too early"));
  CHECK(has(told("\"abc"), "stops too early"));
  CHECK(has(told("[1] x"), "is not JSON"));
  const char* const bad[] = {"nul",      "[1,]",    "{\"a\" 1}",   "{a:1}",      "'a'",   "[01]",
                             "[.5]",     "[+1]",    "[1.]",        "// note\n1", "[NaN]", "[0x10]",
                             "\"\x01\"", "\"\\q\"", "\"\\ud800\"", "\"\t\""};
  for (const char* text : bad) {
    CAPTURE(text);
    CHECK_FALSE(told(text).empty());
  }
}

TEST_CASE("a name may stand only once in an object") {
  // RFC 8785 builds on I-JSON (RFC 7493), which forbids it.
  CHECK(has(told(R"({"a": 1, "a": 2})"), "gives \"a\" twice"));
  CHECK(has(told(R"({"a": 1, "b": {"c": 1, "\u0063": 2}})"), "gives \"c\" twice"));
  CHECK(has(told("{\"\\u001b[31m\": 1, \"\\u001b[31m\": 2}"), "gives a name twice"));
  CHECK(told(R"({"a": {"a": 1}, "b": [{"a": 1}, {"a": 1}]})").empty());
}

TEST_CASE("numbers at the edges") {
  CHECK(has(told("[1e999]"), "too large"));
  CHECK(has(told("[-1e999]"), "too large"));
  CHECK(printed("[9223372036854775807, -9223372036854775808]") ==
        "[9223372036854775807,-9223372036854775808]");
  CHECK(printed("[-0]") == "[0]");
}

TEST_CASE("only well-formed UTF-8 is read") {
  // Examples of RFC 3629 (section 7) and of the Unicode Standard, table 3-7: the ends of each row.
  const char* const good[] = {"A\xE2\x89\xA2\xCE\x91.",
                              "\xED\x95\x9C\xEA\xB5\xAD",
                              "\xF0\xA3\x8E\xB4",
                              "\xC2\x80",
                              "\xDF\xBF",
                              "\xE0\xA0\x80",
                              "\xED\x9F\xBF",
                              "\xEE\x80\x80",
                              "\xEF\xBF\xBF",
                              "\xF0\x90\x80\x80",
                              "\xF4\x8F\xBF\xBF"};
  const char* const bad[] = {
      "\x80",         "\xC0\x80",         "\xC1\xBF",         "\xC2",         "\xC2\x41",
      "\xE0\x9F\xBF", "\xE2\x89",         "\xED\xA0\x80",     "\xED\xBF\xBF", "\xF0\x8F\xBF\xBF",
      "\xF0\x90\x80", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFF"};
  for (const char* text : good) {
    CHECK(is_utf8(text));
    CHECK(told("[\"" + std::string(text) + "\"]").empty());
  }
  for (const char* text : bad) {
    CHECK_FALSE(is_utf8(text));
    CHECK(has(told("[\"" + std::string(text) + "\"]"), "is not UTF-8 text at byte 3 (line 1)"));
  }
}

TEST_CASE("the JSON library's own lexer draws the line of UTF-8 where we draw it") {
  const unsigned char bytes[] = {0x41, 0x7F, 0x80, 0x8F, 0x90, 0x9F, 0xA0, 0xBF,
                                 0xC0, 0xC1, 0xC2, 0xDF, 0xE0, 0xE1, 0xEC, 0xED,
                                 0xEE, 0xEF, 0xF0, 0xF1, 0xF3, 0xF4, 0xF5, 0xFF};
  const auto compare = [](const std::string& text) {
    if (is_utf8(text) != Json::accept("\"" + text + "\"")) {
      CAPTURE(Json::binary({text.begin(), text.end()}).dump());
      FAIL_CHECK("differs");
    }
  };
  std::string text(4, 'A');
  for (const auto first : bytes) {
    for (const auto second : bytes) {
      for (const auto third : bytes) {
        text = {static_cast<char>(first), static_cast<char>(second), static_cast<char>(third)};
        compare(text);
        for (const auto fourth : bytes) {
          if (first >= 0xF0) {
            compare(text + static_cast<char>(fourth));
          }
        }
      }
    }
  }
}

TEST_CASE("printing sorts keys, leaves no blanks and is stable") {
  // From the test data of RFC 8785 (JSON Canonicalization Scheme), repository
  // cyberphone/json-canonicalization, commit 19d51d7, testdata: arrays, part of structures, french,
  // unicode, the string of "values". dump_json claims no more than keys sorted by their bytes: it
  // does not write 56.0 as 56 or 1E30 as 1e+30, and it does not sort a key beyond U+FFFF before
  // U+FB33 as the RFC does. All our keys are ASCII and all our numbers whole.
  CHECK(printed(R"([56,{"d":true,"10":null,"1":[ ]}])") == R"([56,{"1":[],"10":null,"d":true}])");
  CHECK(printed(R"({"f":"hi","F":5})") == R"({"F":5,"f":"hi"})");
  CHECK(printed(R"({"1":{},"10":{},"":"","A":1,"a":2,"111":3})") ==
        R"({"":"","1":{},"10":{},"111":3,"A":1,"a":2})");
  CHECK(printed(R"({"peach":1,"péché":2,"pêche":3,"sin":4})") ==
        R"({"peach":1,"péché":2,"pêche":3,"sin":4})");
  CHECK(printed(R"({"x":"A\u030a"})") == "{\"x\":\"A\xCC\x8A\"}");
  CHECK(printed(R"(["\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/"])") ==
        R"(["€$\u000f\nA'B\"\\\\\"/"])");
  CHECK(printed(printed(R"({ "b" : [ 1 , { "z" : 0 , "a" : "ñ" } ] , "a" : false })")) ==
        R"({"a":false,"b":[1,{"a":"ñ","z":0}]})");
}

TEST_CASE("printing mends what is not UTF-8") {
  CHECK(dump_json("a\xFFz") == "\"a\xEF\xBF\xBDz\"");
}

TEST_CASE("problems of a part are told with its place, and no more than fifty") {
  Problems all;
  add_problems(all, {{"", "is wrong"}, {"/seq", "is wrong"}}, "/events/3");
  REQUIRE(all.size() == 2);
  CHECK(all[0] == Problem{"/events/3", "is wrong"});
  CHECK(all[1].path == "/events/3/seq");
  for (int i = 0; i < 100; ++i) {
    add_problems(all, {{"", "is wrong"}});
  }
  CHECK(all.size() == kMostProblems);
}

TEST_CASE("a text falls back to English") {
  const LocalText both{"seed", "semilla"};
  CHECK(both.in("es") == "semilla");
  CHECK(both.in("en") == "seed");
  CHECK(both.in("fr") == "seed");
  CHECK(LocalText{"seed", ""}.in("es") == "seed");
  CHECK(LocalText{}.empty());
}
