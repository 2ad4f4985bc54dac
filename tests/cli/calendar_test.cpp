// A school's calendar file and time zone, from the county file to the brief.
#include "command.h"

using namespace trowelbell::cli_test;
using trowelbell::Json;

namespace {

const char* const kCalendar =
    "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//example//test//EN\r\n"
    "BEGIN:VEVENT\r\nUID:1\r\nDTSTAMP:20260601T000000Z\r\nDTSTART;VALUE=DATE:20270329\r\n"
    "DTEND;VALUE=DATE:20270403\r\nSUMMARY:Spring break\r\nEND:VEVENT\r\n"
    "BEGIN:VEVENT\r\nUID:2\r\nDTSTAMP:20260601T000000Z\r\nDTSTART:20270317T190000Z\r\n"
    "DTEND:20270317T210000Z\r\nRRULE:FREQ=WEEKLY;COUNT=3\r\nSUMMARY:Early release\r\nEND:VEVENT\r\n"
    "BEGIN:VEVENT\r\nUID:3\r\nDTSTAMP:20260601T000000Z\r\nDTSTART;VALUE=DATE:20270405\r\n"
    "RRULE:FREQ=WEEKLY;COUNT=4\r\nSUMMARY:Assembly\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n";

struct County {
  Folder folder;
  Json document = json_of(file_text(kCounty));
  Json& school = document["schools"][0];

  County() {
    school.erase("utc_offset_minutes");
    school["time_zone"] = "America/Denver";
    school["closed"] = Json::array();
    school["half_days"] = Json::array();
    school["calendar"] = {{"file", "fern.ics"}};
    folder.write("fern.ics", std::string(kCalendar));
    folder.write("tansy-bend.ics", file_text(kContent + "/demo/tansy-bend.ics"));
  }
  Result call(std::vector<std::string> more) {
    more.insert(more.begin(), {"brief", folder.write("county.json", document), "--visit", kVisit});
    return run(more);
  }
  Json brief(std::vector<std::string> more = {}) {
    more.emplace_back("--json");
    const Result result = call(std::move(more));
    REQUIRE_MESSAGE(result.status == 0, result.err);
    return json_of(result.out)["briefs"][0]["brief"];
  }
};

}  // namespace

TEST_CASE("a brief has the days of the calendar file and the offset of the zone") {
  County county;
  const Json march = county.brief({"--date", "2027-03-09"});
  CHECK(march["utc_offset_minutes"] == -420);
  CHECK(march["closed"] == Json::array({{{"from", "2027-03-29"}, {"to", "2027-04-02"}}}));
  CHECK(march["half_days"] == Json{"2027-03-17", "2027-03-24", "2027-03-31"});
  CHECK_FALSE(march.contains("time_zone"));
  CHECK_FALSE(march.contains("calendar"));
  // The clocks of Denver go forward on 2027-03-14.
  CHECK(county.brief({"--date", "2027-03-15"})["utc_offset_minutes"] == -360);
  CHECK(county.brief({"--date", "2027-08-20"})["closed"].empty());
}

TEST_CASE("the county's own days and words count beside the file") {
  County county;
  county.school["closed"] = {{{"from", "2027-03-26"}, {"to", "2027-03-28"}}};
  county.school["half_days"] = {"2027-03-10"};
  county.school["calendar"]["closed_words"] = {"assembly", "spring break"};
  county.school["calendar"]["half_day_words"] = Json::array();
  const Json brief = county.brief({"--date", "2027-03-09"});
  CHECK(brief["closed"].size() == 5);
  CHECK(brief["closed"][0] == Json{{"from", "2027-03-26"}, {"to", "2027-04-02"}});
  CHECK(brief["closed"][1] == Json{{"from", "2027-04-05"}, {"to", "2027-04-05"}});
  CHECK(brief["half_days"] == Json{"2027-03-10"});
}

TEST_CASE("brief says how it read the calendar, and check lists every event") {
  County county;
  const Result made = county.call({"--date", "2027-03-09"});
  CHECK(has(made.err,
            "note: fern.ics: near the visits, events that close the school: 1, half "
            "days: 1, neither: 1, not understood: 0; trowelbell check lists them\n"));
  CHECK_FALSE(has(made.err, "tansy-bend.ics"));  // not this visit's school
  const Result checked =
      run({"check", county.folder.write("county.json", county.document), "--content", kContent});
  CHECK(checked.status == 0);
  CHECK(has(checked.out, "\"Spring break\" closes the school: 2027-03-29 to 2027-04-02\n"));
  CHECK(has(checked.out, "\"Early release\" makes a half day: 2027-03-17 and 2 more\n"));
  CHECK(has(checked.out, "\"Assembly\" says neither: 2027-04-05 and 3 more\n"));
}

TEST_CASE("hours that a change of clocks takes away or gives twice are told") {
  County county;
  CHECK(has(county.call({"--date", "2027-03-14", "--start", "02:30"}).err,
            "02:30 is skipped; it is counted by the clock before the change"));
  CHECK(has(county.call({"--date", "2027-11-07", "--start", "01:30"}).err,
            "01:30 comes twice; the first is meant"));
  CHECK_FALSE(has(county.call({"--date", "2027-03-15", "--start", "02:30"}).err, "clocks"));
}

TEST_CASE("a calendar or zone that is not there makes no brief, and says what to do") {
  const auto told = [](County& county, const char* path, const char* what) {
    const Result made = county.call({});
    CHECK(made.status == 1);
    CHECK(made.out.empty());
    CHECK(has(made.err, path));
    CHECK_MESSAGE(has(made.err, what), made.err);
    const Result checked = run({"check", county.folder.at("county.json"), "--content", kContent});
    CHECK(checked.status == 1);
    CHECK(has(checked.out, what));
  };
  County zone;
  zone.school["time_zone"] = "America/Alderquill";
  told(zone, "/schools/0/time_zone", "is no time zone of this system's database");
  County gone;
  gone.school["calendar"]["file"] = "gone.ics";
  told(gone, "/schools/0/calendar/file", "names \"gone.ics\", which cannot be opened");
  County other;
  other.folder.write("fern.ics", std::string("summer: closed"));
  told(other, "/schools/0/calendar/file", "which is not an iCalendar file");
}
