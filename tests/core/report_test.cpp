#include "core/report.h"

#include <doctest/doctest.h>

#include "core/journal.h"
#include "tests/core/small_visit.h"

using namespace trowelbell;
using small_visit::kHelper;
using small_visit::kLead;
using small_visit::moment;
using small_visit::Phone;

namespace {

// As step_times would give them: the plan counts here.
const std::vector<StepSeconds> kTimes = {
    {60, 120, 180}, {200, 300, 600}, {240, 420, 600}, {60, 120, 180}, {30, 60, 90}};

Json report(const Phone& phone, std::int64_t revision = 1) {
  return make_report(small_visit::brief(), small_visit::lesson(), kTimes, phone.journal.events(),
                     kLead, revision);
}

// A whole visit of two phones, as it would go in a room. 2027-03-08 09:00 at UTC-5 is 1804514400 s
// after 1970
// (`date -u -d 2027-03-08T14:00Z +%s`).
Phone whole_visit() {
  Phone lead(kLead), helper(kHelper);
  lead.tap(-600, "tick", {{"list", "ready"}, {"item", "aprons"}, {"done", true}});
  lead.tap(-590, "tick", {{"list", "ready"}, {"item", "water"}, {"done", true}});
  lead.tap(-580, "tick", {{"list", "ready"}, {"item", "water"}, {"done", false}});
  lead.tap(-575, "tick", {{"list", "packed"}, {"item", "cup"}, {"done", true}});
  lead.tap(-570, "lacking", {{"item", "tray"}, {"count", 1}});
  lead.tap(0, "start");
  helper.tap(20, "place", {{"place", 1}, {"is", "present"}});
  helper.tap(30, "place", {{"place", 2}, {"is", "present"}});
  helper.tap(35, "place", {{"place", 3}, {"is", "absent"}});
  lead.tap(100, "step", {{"step", "story"}});  // hello: 100 s
  lead.tap(140, "page", {{"page", 1}});        // page 1: 40 s
  lead.tap(150, "hold", {{"reason", "drill"}});
  lead.tap(270, "resume");                                       // held 120 s
  lead.tap(300, "page", {{"page", 2}});                          // page 2: 10 + 30 s
  const Event slip = lead.tap(320, "step", {{"step", "song"}});  // one too far,
  lead.undo(322, slip);                                          // taken back: the story went on
  lead.tap(340, "step", {{"step", "plant"}});                    // story: 50 + 70 s; page 3: 40 s
  lead.tap(345, "adults", {{"count", 4}});                       // the teacher's aide joins
  helper.tap(350, "place", {{"place", 4}, {"is", "late"}});
  lead.tap(360, "kit", {{"pile", "given"}, {"by", 4}});
  lead.tap(365, "kit", {{"pile", "spoiled"}, {"by", 1}});
  lead.tap(370, "mishap", {{"card", "spill"}});
  const Event twice = lead.tap(371, "mishap", {{"card", "spill"}});
  lead.undo(380, twice);
  lead.tap(400, "choose", {{"step", "song"}, {"choice", "drop"}});
  helper.tap(500, "others", {{"is", "present"}});
  helper.tap(510, "place", {{"place", 5}, {"is", "left_early"}});
  lead.tap(640.4, "step", {{"step", "goodbye"}});  // plant: 300.4 s
  lead.tap(660, "kit", {{"pile", "with_teacher"}, {"by", 2}});
  lead.tap(670, "tick", {{"list", "handover"}, {"item", "watering"}, {"done", true}});
  lead.tap(675, "taken", {{"by", "teacher"}});
  lead.tap(700.9, "finish");  // goodbye: 60.5 s; 11 min 40.9 s in all, with four adults
  lead.tap(710, "note", {{"text", "Sill faces \"north\".\nBring lamps."}});
  lead.tap(720, "report");
  lead.merge_from(helper);
  return lead;
}

}  // namespace

TEST_CASE("the report of a whole visit, worked out by hand") {
  const Phone lead = whole_visit();
  const std::string expected =
      R"({"adult_minutes":48,"adults":4,"began_at":1804514400000,"bell_at":1804517100000,)"
      R"("children":{"absent":1,"late":1,"left_early":1,"places":5,"present":2,"unknown":0},)"
      R"("date":"2027-03-08","device":"aaaaaaaaaaaaaaaa","ended_at":1804515100900,"events":34,)"
      R"("format":"trowelbell.report","handover":{"bags":false,"watering":true},)"
      R"("holds":[{"reason":"drill","seconds":120}],)"
      R"("kits":{"brought":8,"given":4,"spare":0,"spoiled":1,"unaccounted":1,"with_teacher":2},)"
      R"("lacking":{"tray":1},"lesson":"window-garden","mishaps":{"spill":1},"note":"Sill faces \"north\".\nBring lamps.",)"
      R"("pages":[40,40,40],"ready":{"aprons":true,"water":false},"revision":28,"room":"Room 4",)"
      R"("school":"Fern Lane School","sponsor":"Friends of the Garden","steps":[)"
      R"({"actual_seconds":100,"id":"hello","outcome":"done","planned_seconds":120},)"
      R"({"actual_seconds":120,"id":"story","outcome":"done","planned_seconds":300},)"
      R"({"actual_seconds":300,"id":"plant","outcome":"done","planned_seconds":420},)"
      R"({"actual_seconds":0,"id":"song","outcome":"left_out","planned_seconds":120},)"
      R"({"actual_seconds":61,"id":"goodbye","outcome":"done","planned_seconds":60}],)"
      R"("taken_by":"teacher","version":1,"visit":"fern-lane-0308"})";
  CHECK(dump_json(report(lead, lead.journal.events().back().seq)) == expected);
}

TEST_CASE("the collector reads out of a report what went in") {
  Problems problems;
  const ReportFacts facts = read_report(report(whole_visit(), 28), problems);
  CHECK(problems == Problems{});
  CHECK(facts.visit == "fern-lane-0308");
  CHECK(facts.device == kLead);
  CHECK(facts.revision == 28);
  CHECK(facts.lesson == "window-garden");
  CHECK(facts.school == "Fern Lane School");
  CHECK(facts.room == "Room 4");
  CHECK(facts.sponsor == "Friends of the Garden");
  CHECK(facts.date == small_visit::brief().date);
  CHECK(facts.began_at == moment(0));
  CHECK(facts.ended_at == moment(700.9));
  CHECK(facts.bell_at == moment(2700));
  REQUIRE(facts.steps.size() == 5);
  CHECK(facts.steps[2].id == "plant");
  CHECK(facts.steps[2].planned_seconds == 420);
  CHECK(facts.steps[2].actual_seconds == 300);
  CHECK(facts.steps[2].outcome == Outcome::done);
  CHECK(facts.steps[3].outcome == Outcome::left_out);
  CHECK(facts.children.places == 5);
  CHECK(facts.children.present == 2);
  CHECK(facts.children.late == 1);
  CHECK(facts.children.absent == 1);
  CHECK(facts.children.left_early == 1);
  CHECK(facts.children.unknown == 0);
  CHECK(facts.adults == 4);
  CHECK(facts.adult_minutes == 48);
  CHECK(facts.kits.brought == 8);
  CHECK(facts.kits.given == 4);
  CHECK(facts.kits.spoiled == 1);
  CHECK(facts.kits.with_teacher == 2);
  CHECK(facts.kits.spare == 0);
  CHECK(facts.lacking == std::map<std::string, std::int64_t>{{"tray", 1}});
  CHECK(facts.mishaps == std::map<std::string, std::int64_t>{{"spill", 1}});
  CHECK(facts.taken_by == "teacher");
  CHECK(facts.note == "Sill faces \"north\".\nBring lamps.");
  CHECK(facts.events == 34);
}

TEST_CASE("a report says nothing of the key") {
  CHECK(dump_json(report(whole_visit())).find(small_visit::brief().key) == std::string::npos);
}

TEST_CASE("a step was done, left out or not reached") {
  Phone lead(kLead);
  const auto outcomes = [&] {
    const Json document = report(lead);
    std::string all;
    for (const Json& step : document["steps"]) all += step["outcome"].get<std::string>() + " ";
    return all;
  };
  lead.tap(-1, "choose", {{"step", "goodbye"}, {"choice", "drop"}});
  CHECK(outcomes() == "not_reached not_reached not_reached not_reached left_out ");
  lead.tap(0, "start");
  CHECK(outcomes() == "done not_reached not_reached not_reached left_out ");
  lead.tap(10, "step", {{"step", "plant"}});
  CHECK(outcomes() == "done left_out done not_reached left_out ");
  lead.tap(20, "choose", {{"step", "goodbye"}, {"choice", "auto"}});
  lead.tap(30, "choose", {{"step", "hello"}, {"choice", "drop"}});  // too late: it was held
  lead.tap(40, "finish");
  CHECK(outcomes() == "done left_out done not_reached not_reached ");
}

TEST_CASE("what still runs counts up to the last event") {
  Phone lead(kLead);
  CHECK(report(lead)["began_at"] == 0);
  CHECK(report(lead)["adult_minutes"] == 0);
  lead.tap(0, "start");
  lead.tap(100, "step", {{"step", "story"}});
  lead.tap(160, "report");
  Json now = report(lead);
  CHECK(now["steps"][1]["actual_seconds"] == 60);
  CHECK(now["pages"] == Json::array({60}));
  CHECK(now["ended_at"] == 0);
  CHECK(now["adult_minutes"] == 9);  // 2 min 40 s, three adults
  lead.tap(170, "hold", {{"reason", "teacher"}});
  lead.tap(200, "report");
  now = report(lead);
  CHECK(now["holds"] == Json::array({{{"reason", "teacher"}, {"seconds", 30}}}));
  CHECK(now["steps"][1]["actual_seconds"] == 70);

  // The finish was forgotten and the report sent in the evening: the team left with the bell, after
  // 45 minutes.
  lead.tap(9 * 3600, "report");
  CHECK(report(lead)["adult_minutes"] == 135);
}

TEST_CASE("minutes are rounded half up") {
  struct Row {
    double seconds;
    int minutes;
  };
  for (const Row row : {Row{29.999, 0}, {30, 1}, {89.999, 1}, {90, 2}}) {
    CAPTURE(row.seconds);
    Phone lead(kLead);
    lead.tap(0, "start");
    lead.tap(row.seconds, "finish");
    CHECK(report(lead)["adult_minutes"] == 3 * row.minutes);
  }
}

TEST_CASE(
    "a visit left running for a month, with holds without end, still makes a report that is "
    "taken") {
  Phone lead(kLead);
  lead.tap(0, "start");
  for (int i = 0; i < 150; ++i) {
    lead.tap(10 + 4 * i, "hold", {{"reason", "child"}});
    lead.tap(13 + 4 * i, "resume");
  }
  lead.tap(30 * 86'400.0, "finish");
  const Json document = report(lead);
  CHECK(document["holds"].size() == kMostHolds);
  std::int64_t held = 0;
  for (const Json& hold : document["holds"]) held += hold["seconds"].get<std::int64_t>();
  CHECK(held == 150 * 3);
  CHECK(document["steps"][0]["actual_seconds"] == 86'400);
  CHECK(document["adult_minutes"] == 3 * 1440);
  Problems problems;
  read_report(document, problems);
  CHECK(problems == Problems{});
}

TEST_CASE("the longest report fits its limit and is taken") {
  Lesson lesson;
  lesson.id = std::string(64, 'l');
  const auto long_id = [](int i) { return std::string(62, 'x') + std::to_string(10 + i); };
  for (int i = 0; i < 60; ++i) {
    lesson.steps.push_back(small_visit::step(long_id(i), Keep::must, {}));
    lesson.ready.push_back({long_id(i), {}});
    lesson.handover.push_back({long_id(i), {}});
  }
  lesson.steps[0].reading = true;
  Brief brief = small_visit::brief();
  brief.visit = brief.lesson = lesson.id;
  brief.school = brief.sponsor = std::string(120, '"');
  brief.room = std::string(60, '\\');
  Phone lead(kLead);
  lead.tap(0, "start");
  for (int page = 0; page < 60; ++page) lead.tap(page, "page", {{"page", page}});
  for (int i = 0; i < 110; ++i) {
    lead.tap(100 + i, "hold", {{"reason", "teacher"}});
    lead.tap(100.5 + i, "resume");
    lead.tap(100.6 + i, "mishap", {{"card", std::string(60, 'm') + std::to_string(100 + i)}});
  }
  lead.tap(300, "note", {{"text", std::string(500, '\n')}});
  const std::vector<StepSeconds> times(60, {INT64_MAX, INT64_MAX, INT64_MAX});
  const Json document =
      make_report(brief, lesson, times, lead.journal.events(), kLead, kLargestExact);
  const std::string body = dump_json(document);
  CHECK(body.size() < kReportLimits.bytes);
  Problems problems;
  const auto parsed = parse_json(body, kReportLimits, problems);
  REQUIRE(parsed);
  read_report(*parsed, problems);
  CHECK(problems == Problems{});
}

TEST_CASE("a report with a wrong field is refused, and the field is named") {
  struct Row {
    const char* at;     // JSON Pointer of what is changed
    Json value;         // discarded: taken away
    const char* names;  // the pointer of the problem; "" as `at`
  };
  const Json gone(Json::value_t::discarded);
  const Row rows[] = {
      {"/format", "trowelbell.brief", ""},
      {"/version", 2, ""},
      {"/visit", "Fern Lane", ""},
      {"/visit", gone, ""},
      {"/device", "aaaaaaaaaaaaaaa", ""},
      {"/device", "AAAAAAAAAAAAAAAA", ""},
      {"/device", "gaaaaaaaaaaaaaaa", ""},
      {"/revision", 0, ""},
      {"/revision", "1", ""},
      {"/lesson", gone, ""},
      {"/school", "", ""},
      {"/school", std::string(121, 'x'), ""},
      {"/room", gone, ""},
      {"/sponsor", 4, ""},
      {"/date", "2027-02-29", ""},
      {"/date", "8 March", ""},
      {"/began_at", -1, ""},
      {"/ended_at", 1.5, ""},
      {"/bell_at", gone, ""},
      {"/steps", Json::array(), ""},
      {"/steps/1/id", "", ""},
      {"/steps/1/planned_seconds", 86'401, ""},
      {"/steps/1/actual_seconds", -1, ""},
      {"/steps/1/outcome", "skipped", ""},
      {"/children", gone, ""},
      {"/children/places", 6, ""},
      {"/children/present", 3, "/children/places"},
      {"/children/late", 61, ""},
      {"/children/unknown", gone, ""},
      {"/adults", 0, ""},
      {"/adults", 21, ""},
      {"/adult_minutes", 28'801, ""},
      {"/kits/given", 5, "/kits/unaccounted"},
      {"/kits/spare", -1, ""},
      {"/kits/unaccounted", 0, ""},
      {"/lacking/tray", 0, ""},
      {"/mishaps", Json::array(), ""},
      {"/mishaps/spill", 0, ""},
      {"/mishaps/Ana fell", 1, ""},
      {"/holds/0/reason", "tea", ""},
      {"/holds/0/seconds", "120", ""},
      {"/pages/0", 86'401, ""},
      {"/pages", 3, ""},
      {"/handover/bags", 1, ""},
      {"/handover", gone, ""},
      {"/ready/water", "yes", ""},
      {"/taken_by", "dog", ""},
      {"/taken_by", gone, ""},
      {"/note", std::string(501, 'x'), ""},
      {"/note", "\x1b[31m", ""},
      {"/events", -1, ""},
  };
  const Json good = report(whole_visit());
  for (const Row& row : rows) {
    CAPTURE(std::string(row.at));
    CAPTURE(dump_json(row.value));
    Json bad = good;
    const Json::json_pointer at(row.at);
    if (row.value.is_discarded()) {
      bad[at.parent_pointer()].erase(at.back());
    } else {
      bad[at] = row.value;
    }
    Problems problems;
    read_report(bad, problems);
    REQUIRE_FALSE(problems.empty());
    CHECK(problems.size() <= 2);  // a count out of bounds may upset its sum, too
    CHECK(problems[0].path == (std::string_view(row.names).empty() ? row.at : row.names));
  }
}

TEST_CASE("a report without bounds, or that is no report, is refused") {
  Json many = report(whole_visit());
  for (int i = 0; i < 200; ++i) {
    many["mishaps"]["kind-" + std::to_string(i)] = 1;
    many["pages"].push_back(1);
    many["steps"].push_back(many["steps"][0]);
    many["holds"].push_back(many["holds"][0]);
    many["ready"]["item-" + std::to_string(i)] = true;
  }
  Problems problems;
  read_report(many, problems);
  CHECK(problems.size() == 5);
  for (const Json& other : {Json(), Json(3), Json::array(), Json::object(), Json("report")}) {
    problems.clear();
    read_report(other, problems);
    CHECK(problems.size() == 1);
  }
}

TEST_CASE("fields of a newer writer are taken without a word") {
  Json newer = report(whole_visit());
  newer["weather"] = "rain";
  newer["children"]["shoes"] = 10;
  newer["steps"][0]["mood"] = {1, 2};
  Problems problems;
  read_report(newer, problems);
  CHECK(problems == Problems{});
}
