#include "core/county.h"

#include "documents.h"

using namespace trowelbell;

namespace {

constexpr std::string_view kKey = "k3y-only_for-the-header";
const documents::Read kRead = documents::reader_of(read_county);

County county(const Json& document = documents::county()) {
  Problems problems;
  County read = read_county(document, problems);
  REQUIRE(problems.empty());
  return read;
}

Brief made(const County& from, std::optional<Date> date = {},
           std::optional<std::int64_t> start = {}) {
  Problems problems;
  const auto brief = make_brief(from, "fern-4", date, start, kKey, problems);
  REQUIRE(brief.has_value());
  CHECK(problems.empty());
  return *brief;
}

Date march(int day) {
  return std::chrono::year{2027} / 3 / day;
}

}  // namespace

TEST_CASE("a brief is made from a planned visit, its school and its sponsor") {
  Json expected = documents::brief();
  expected["visit"] = "fern-4";
  expected["sponsor"] = "Quiet Kettle Tea";
  expected["school_asks"] = {"Sign in at the office."};
  CHECK(brief_json(made(county())) == expected);
}

TEST_CASE("a visit can be moved; the bell keeps the length of the slot") {
  const Brief later = made(county(), march(9), 600);
  CHECK(format_date(later.date) == "2027-03-09");
  CHECK(later.start_minutes == 600);
  CHECK(later.bell_minutes == 645);
  Problems problems;
  CHECK(make_brief(county(), "fern-4", {}, 23 * 60 + 14, kKey, problems)->bell_minutes ==
        23 * 60 + 59);
  CHECK_FALSE(make_brief(county(), "fern-4", {}, 23 * 60 + 15, kKey, problems).has_value());
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].what.find("midnight") != std::string::npos);
}

TEST_CASE("the offset follows the season") {
  // The document changes on 2027-03-14, as the clocks of most of the United States do on the second
  // Sunday in March (15 U.S.C. 260a, from memory).
  CHECK(made(county(), march(13)).utc_offset_minutes == -420);
  CHECK(made(county(), march(14)).utc_offset_minutes == -360);
  CHECK(made(county(), march(15)).start_ms() - made(county(), march(12)).start_ms() ==
        71 * 3600 * 1000);
}

TEST_CASE("a change may come at a minute of its day") {
  School school;
  school.utc_offset_minutes = -420;
  school.offset_changes = {{march(14), -360, 180}, {march(20), -420, 120}};
  CHECK(utc_offset_at(school, march(13), 1439) == -420);
  CHECK(utc_offset_at(school, march(14), 179) == -420);
  CHECK(utc_offset_at(school, march(14), 180) == -360);
  CHECK(utc_offset_at(school, march(20), 119) == -360);
  CHECK(utc_offset_at(school, march(20), 120) == -420);
  CHECK(clock_time(school, march(14), 119) == ClockTime::once);
  CHECK(clock_time(school, march(14), 120) == ClockTime::skipped);
  CHECK(clock_time(school, march(14), 180) == ClockTime::once);
  CHECK(clock_time(school, march(20), 59) == ClockTime::once);
  CHECK(clock_time(school, march(20), 60) == ClockTime::twice);
  CHECK(clock_time(school, march(20), 120) == ClockTime::once);
  CHECK(clock_time(school, march(21), 60) == ClockTime::once);
}

TEST_CASE("a zone and a calendar file wait to be looked up") {
  const Json document = documents::county_by_names();
  const County waiting = county(document);
  const School& school = waiting.schools[0];
  CHECK(school.time_zone == "America/Denver");
  CHECK_FALSE(school.utc_offset_minutes.has_value());
  REQUIRE(school.calendar.has_value());
  CHECK(school.calendar->file == "fern lane.ics");
  CHECK(school.calendar->closed_words == std::vector<std::string>{"No school"});
  CHECK(school.calendar->half_day_words.size() > 4);  // the usual ones
  County half = waiting;
  half.schools[0].utc_offset_minutes = -420;
  for (const County& unready : {waiting, half}) {
    Problems problems;
    CHECK_FALSE(make_brief(unready, "fern-4", {}, {}, kKey, problems).has_value());
    CHECK(documents::tells(problems, "/schools"));
  }
  half.schools[0].calendar.reset();
  CHECK(made(half).utc_offset_minutes == -420);
}

TEST_CASE("names of zones and calendar files open nothing else") {
  documents::reader_is_strict(
      documents::county_by_names(), kRead,
      {"/schools/*/calendar", "/schools/*/calendar/closed_words", "/visits"});
  for (const char* good : {R"("UTC")", R"("America/Argentina/Buenos_Aires")", R"("Etc/GMT+5")"}) {
    CHECK(kRead(documents::with(documents::county_by_names(), "/schools/0/time_zone",
                                documents::parsed(good)))
              .empty());
  }
  documents::bad_rows_are_told(documents::county_by_names(), kRead,
                               {{"/schools/0/time_zone", "\"\"", ""},
                                {"/schools/0/time_zone", "\"localtime\"", ""},
                                {"/schools/0/time_zone", "\"/etc/localtime\"", ""},
                                {"/schools/0/time_zone", "\"America/../UTC\"", ""},
                                {"/schools/0/time_zone", "\"file:UTC\"", ""},
                                {"/schools/0/time_zone", "\"America//Denver\"", ""},
                                {"/schools/0/time_zone", "\"America/\"", ""},
                                {"/schools/0/utc_offset_minutes", "-420", ""},
                                {"/schools/0/utc_offset_changes", "[]", ""},
                                {"/schools/0/calendar/file", "\"../fern.ics\"", ""},
                                {"/schools/0/calendar/file", "\"a\\\\b.ics\"", ""},
                                {"/schools/0/calendar/file", "\".ics\"", ""},
                                {"/schools/0/calendar/file", "\"\"", ""},
                                {"/schools/0/calendar/closed_words/0", "\"\"", ""}});
}

TEST_CASE("only the near calendar comes along") {
  Json document = documents::county();
  document["schools"][0]["closed"] = documents::parsed(R"([
    {"from": "2026-12-21", "to": "2027-02-21"}, {"from": "2026-12-21", "to": "2027-02-22"},
    {"from": "2027-07-06", "to": "2027-08-01"}, {"from": "2027-07-07", "to": "2027-08-01"}])");
  document["schools"][0]["half_days"] = {"2027-02-21", "2027-02-22", "2027-07-06", "2027-07-07"};
  const Brief brief = made(county(document));
  // 14 days before 2027-03-08 is 2027-02-22, 120 days after it 2027-07-06.
  REQUIRE(brief.closed.size() == 2);
  CHECK(format_date(brief.closed[0].to) == "2027-02-22");
  CHECK(format_date(brief.closed[1].from) == "2027-07-06");
  REQUIRE(brief.half_days.size() == 2);
  CHECK(format_date(brief.half_days[0]) == "2027-02-22");
  CHECK(format_date(brief.half_days[1]) == "2027-07-06");
}

TEST_CASE("an unknown visit and a bad key make no brief") {
  Problems problems;
  CHECK_FALSE(make_brief(county(), "fern-5", {}, {}, kKey, problems).has_value());
  CHECK(documents::tells(problems, "/visits"));
  problems.clear();
  CHECK_FALSE(make_brief(county(), "fern-4", {}, {}, "short", problems).has_value());
  CHECK(documents::tells(problems, "/key"));
}

TEST_CASE("the county's reader is strict") {
  documents::reader_is_strict(
      documents::county(), kRead,
      {"/schools/*/utc_offset_changes", "/schools/*/warmth", "/schools/*/warmth/day",
       "/schools/*/warmth/night", "/schools/*/warmth/closed", "/schools/*/closed",
       "/schools/*/half_days", "/schools/*/school_asks", "/schools/*/sheet_language", "/visits",
       "/visits/*/sponsor", "/visits/*/tables", "/visits/*/kits"});
  documents::bad_rows_are_told(documents::county(), kRead,
                               {{"/schools", "[]", ""},
                                {"/visits/0/school", "\"elm\"", ""},
                                {"/visits/0/sponsor", "\"teapot\"", ""},
                                {"/visits/0/bell", "\"09:05\"", ""},
                                {"/visits/0/children", "0", ""},
                                {"/visits/0/date", "\"2027-02-30\"", ""},
                                {"/schools/0/utc_offset_minutes", "-721", ""},
                                {"/schools/0/closed/0/to", "\"2027-03-01\"", ""}});
  Json twice = documents::county();
  twice["visits"].push_back(twice["visits"][0]);
  CHECK(documents::tells(kRead(twice), "/visits/1/id"));
  Json backwards = documents::county();
  backwards["schools"][0]["utc_offset_changes"].push_back(
      {{"from", "2027-03-14"}, {"utc_offset_minutes", 0}});
  CHECK(documents::tells(kRead(backwards), "/schools/0/utc_offset_changes/1/from"));
}
