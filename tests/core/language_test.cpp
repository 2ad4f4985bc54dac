#include "core/language.h"

#include "documents.h"

using namespace trowelbell;

namespace {

const documents::Read kRead = documents::reader_of(read_language);

Language language() {
  Problems problems;
  Language read = read_language(documents::language(), problems);
  REQUIRE(problems.empty());
  return read;
}

Date day(int year, unsigned month, unsigned day) {
  return std::chrono::year{year} / static_cast<int>(month) / static_cast<int>(day);
}

}  // namespace

TEST_CASE("texts are said with their values") {
  const Language words = language();
  CHECK(words.tag() == "en");
  CHECK(words.say("hello", {{"name", "Lina"}}) == "Hello, Lina!");
  CHECK(words.say("hello", {{"other", "x"}}) == "Hello, {name}!");
  CHECK(words.say("hello", {{"name", "{name}{n}"}}) == "Hello, {name}{n}!");
  CHECK(words.say("braces") == "{ {x");
  CHECK(words.say("no.such.key", {{"name", "x"}}) == "no.such.key");
  CHECK(words.has("hello"));
  CHECK_FALSE(words.has("no.such.key"));
}

TEST_CASE("counts have two forms") {
  const Language words = language();
  CHECK(words.count("kits", 1) == "1 kit");
  CHECK(words.count("kits", 0, {{"room", "Room 4"}}) == "0 kits for Room 4");
  CHECK(words.count("kits", 12, {{"room", "{n}"}}) == "12 kits for {n}");
  CHECK(words.count("pots", 1) == "pots.one");
}

TEST_CASE("dates are said from the language's words") {
  const Language words = language();
  // Weekdays as `date -d` of GNU coreutils has them: 2027-03-08 is a Monday, 2027-03-12 a Friday,
  // 2027-04-02 a Friday.
  CHECK(words.date(day(2027, 3, 8)) == "Mon 8 March");
  CHECK(words.date_range(day(2027, 3, 8), day(2027, 3, 8)) == "Mon 8 March");
  CHECK(words.date_range(day(2027, 3, 8), day(2027, 3, 12)) == "Mon 8 to Fri 12 March");
  CHECK(words.date_range(day(2027, 3, 9), day(2027, 4, 2)) == "Tue 9 March to Fri 2 April");
}

TEST_CASE("placeholders are found once each") {
  CHECK(placeholders("{b} and {a}, {b}") == std::set<std::string>{"a", "b"});
  CHECK(placeholders("none { here").empty());
}

TEST_CASE("the language's reader is strict") {
  documents::wrong_types_are_told_where_they_are(documents::language(), kRead);
  documents::header_is_checked(documents::language(), kRead);
  documents::bad_rows_are_told(documents::language(), kRead,
                               {{"/language", "\"E\"", ""},
                                {"/language", "\"english-please\"", ""},
                                {"/texts", "{}", ""},
                                {"/texts/hello", "\"\"", ""},
                                {"/texts/hello", "\"a\\tb\"", ""},
                                {"/texts/Not A Key", "\"x\"", "/texts"}});
  for (const char* field : {"/format", "/version", "/language", "/texts"}) {
    CHECK_FALSE(kRead(documents::without(documents::language(), field)).empty());
  }
  Json many = documents::language();
  for (int i = 0; many["texts"].size() < 2000; ++i) {
    many["texts"]["k" + std::to_string(i)] = "x";
  }
  CHECK(kRead(many).empty());
  many["texts"]["one-more"] = "x";
  CHECK(documents::tells(kRead(many), "/texts"));
}
