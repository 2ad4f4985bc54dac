#include "core/brief.h"

#include "core/base64url.h"
#include "documents.h"

using namespace trowelbell;

namespace {

const documents::Read kRead = documents::reader_of(read_brief);

std::string good_text() {
  return dump_json(documents::brief());
}

}  // namespace

TEST_CASE("a brief is read field by field") {
  Problems problems;
  const Brief brief = read_brief(documents::brief(), problems);
  CHECK(problems.empty());
  CHECK(brief.visit == "fern-lane-0308");
  CHECK(brief.key == "k3y-only_for-the-header");
  CHECK(brief.lesson == "window-garden");
  CHECK(brief.school == "Fern Lane School");
  CHECK(brief.room == "Room 4");
  CHECK(brief.sponsor == "Friends of the Garden");
  CHECK(brief.sheet_language == "es");
  CHECK(format_date(brief.date) == "2027-03-08");
  CHECK(brief.start_minutes == 545);
  CHECK(brief.bell_minutes == 590);
  CHECK(brief.utc_offset_minutes == -420);
  CHECK(brief.children == 24);
  CHECK(brief.adults == 4);
  CHECK(brief.tables == 5);
  CHECK(brief.kits == 27);
  CHECK(brief.warmth.day == 21.1);
  CHECK(brief.warmth.night == 18.3);
  CHECK(brief.warmth.closed == 15.6);
  REQUIRE(brief.closed.size() == 1);
  CHECK(format_date(brief.closed[0].to) == "2027-04-02");
  REQUIRE(brief.half_days.size() == 1);
  CHECK(format_date(brief.half_days[0]) == "2027-03-12");
  CHECK(brief.school_asks.size() == 2);
  // 2027-03-08 09:05 at UTC-7 is 16:05 UTC: `date -u -d '2027-03-08 16:05' +%s` of GNU coreutils
  // gives 1804521900.
  CHECK(brief.start_ms() == 1804521900000);
  CHECK(brief.bell_ms() - brief.start_ms() == 45 * 60 * 1000);
}

TEST_CASE("whole degrees are written as whole numbers, others as they are") {
  Brief brief;
  brief.warmth = {21, 18.5, 0};
  CHECK(dump_json(brief_json(brief)["warmth"]) == R"({"closed":0,"day":21,"night":18.5})");
}

TEST_CASE("a brief with the least in it") {
  Json least = documents::brief();
  for (const char* optional : {"sponsor", "sheet_language", "tables", "kits", "warmth", "closed",
                               "half_days", "school_asks"}) {
    least.erase(optional);
  }
  Problems problems;
  const Brief brief = read_brief(least, problems);
  CHECK(problems.empty());
  CHECK(brief.sponsor.empty());
  CHECK(brief.sheet_language == "en");
  CHECK(brief.tables == 1);
  CHECK(brief.kits == 0);
  CHECK(brief.warmth.day == 20);
}

TEST_CASE("the brief's reader is strict") {
  documents::reader_is_strict(
      documents::brief(), kRead,
      {"/sponsor", "/sheet_language", "/tables", "/kits", "/warmth", "/warmth/day", "/warmth/night",
       "/warmth/closed", "/closed", "/half_days", "/school_asks"});
}

TEST_CASE("a brief's bounds are told") {
  documents::bad_rows_are_told(documents::brief(), kRead,
                               {{"/children", "0", ""},
                                {"/children", "61", ""},
                                {"/adults", "21", ""},
                                {"/tables", "0", ""},
                                {"/kits", "121", ""},
                                {"/kits", "-1", ""},
                                {"/utc_offset_minutes", "841", ""},
                                {"/warmth/day", "41", ""},
                                {"/warmth/day", "40.01", ""},
                                {"/warmth/day", "\"70F\"", ""},
                                {"/warmth/night", "-0.1", ""},
                                {"/warmth/closed", "1e300", ""},
                                {"/date", "\"2027-02-29\"", ""},
                                {"/date", "\"2027-3-8\"", ""},
                                {"/date", "\"1999-12-31\"", ""},
                                {"/start", "\"24:00\"", ""},
                                {"/start", "\"9:05\"", ""},
                                {"/bell", "\"09:05\"", ""},
                                {"/bell", "\"08:00\"", ""},
                                {"/key", "\"short\"", ""},
                                {"/key", "\"has a blank in the middle\"", ""},
                                {"/key", "\"slash/slash/slash/slash\"", ""},
                                {"/visit", "\"../etc\"", ""},
                                {"/school", "\"\"", ""},
                                {"/school", "\"a\\u001b[31mb\"", ""},
                                {"/sheet_language", "\"fr\"", ""},
                                {"/closed/0/to", "\"2027-03-28\"", ""},
                                {"/half_days/0", "\"tomorrow\"", ""},
                                {"/school_asks/0", "\"two\\nlines\"", ""}});
  Json many = documents::brief();
  many["closed"] = Json::array();
  for (int i = 0; i < 101; ++i) {
    many["closed"].push_back({{"from", "2027-03-29"}, {"to", "2027-03-29"}});
  }
  CHECK(documents::tells(kRead(many), "/closed"));
  many["closed"].erase(0);
  CHECK(kRead(many).empty());
}

TEST_CASE("a brief is written as it was read, unknown fields included") {
  Json document = documents::brief();
  document["colour_of_the_door"] = {{"r", 1}, {"list", {1, 2}}};
  Problems problems;
  const Brief brief = read_brief(document, problems);
  CHECK(brief_json(brief) == document);
  CHECK(dump_json(brief_json(read_brief(brief_json(brief), problems))) == dump_json(document));
  CHECK(problems.empty());
}

TEST_CASE("a brief cut at any byte is refused") {
  const std::string text = good_text();
  for (std::size_t length = 0; length < text.size(); ++length) {
    Problems problems;
    CHECK_FALSE(brief_from_text(text.substr(0, length), problems).has_value());
    CHECK(problems.size() == 1);
  }
  Problems problems;
  CHECK(brief_from_text(text, problems).has_value());
}

TEST_CASE("a brief with any one byte changed is read whole or refused, never half") {
  const std::string text = good_text();
  for (std::size_t at = 0; at < text.size(); ++at) {
    for (const char c : {'\0', '"', '}', '9', '\xFF', '\\'}) {
      std::string changed = text;
      changed[at] = c;
      Problems problems;
      const bool is_read = brief_from_text(changed, problems).has_value();
      CHECK(is_read == problems.empty());
    }
  }
}

TEST_CASE("a brief too long or too deep is refused") {
  Problems problems;
  CHECK_FALSE(brief_from_text(good_text() + std::string(64 * 1024, ' '), problems).has_value());
  CHECK(problems.at(0).what.find("too long") != std::string::npos);
  Json deep = documents::brief();
  deep["extra"] = documents::parsed("[[[[[[[[1]]]]]]]]");
  problems.clear();
  CHECK_FALSE(brief_from_text(dump_json(deep), problems).has_value());
  CHECK(problems.at(0).what.find("too deep") != std::string::npos);
}

TEST_CASE("earlier problems in the list do not spoil or save a brief") {
  Problems full(kMostProblems, Problem{"", "is of another file"});
  CHECK(brief_from_text(good_text(), full).has_value());
  CHECK_FALSE(brief_from_text("{}", full).has_value());
}

TEST_CASE("a brief travels as a link") {
  Problems problems;
  const Brief brief = read_brief(documents::brief(), problems);
  const std::string fragment = brief_fragment(brief);
  CHECK(fragment == "b=" + base64url(dump_json(documents::brief())));
  // Only characters that RFC 3986 allows in a fragment as they are.
  CHECK(fragment.find_first_not_of(
            "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_=") ==
        std::string::npos);
  const std::string links[] = {fragment, "#" + fragment, "https://visits.example/#" + fragment,
                               fragment.substr(0, 76) + "\r\n" + fragment.substr(76) + " "};
  for (const std::string& link : links) {
    const auto back = brief_from_fragment(link, problems);
    REQUIRE(back.has_value());
    CHECK(brief_json(*back) == documents::brief());
  }
  CHECK(problems.empty());
}

TEST_CASE("a link cut or damaged is refused with advice") {
  Problems none;
  const std::string fragment = brief_fragment(read_brief(documents::brief(), none));
  for (std::size_t length = 0; length < fragment.size(); ++length) {
    Problems problems;
    CHECK_FALSE(brief_from_fragment(fragment.substr(0, length), problems).has_value());
    CHECK(problems.size() == 1);
  }
  for (const std::string& bad : {std::string(), std::string("#"), std::string("b="), fragment + "!",
                                 fragment + "=", "x" + fragment, std::string(200'000, 'A'),
                                 "b=" + base64url("[1]"), "b=" + base64url("{}")}) {
    Problems problems;
    CHECK_FALSE(brief_from_fragment(bad, problems).has_value());
    CHECK_FALSE(problems.empty());
  }
}
