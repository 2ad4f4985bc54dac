#include "core/report.h"

#include "command.h"
#include "core/journal_file.h"
#include "core/lesson_time.h"

using namespace trowelbell::cli_test;
using trowelbell::Json;

namespace {

Json visit_events() {
  return {event(1, moment(9, 5), "start"),
          event(2, moment(9, 6), "others", {{"is", "present"}}),
          event(3, moment(9, 7), "place", {{"place", 3}, {"is", "absent"}}),
          event(4, moment(9, 20), "mishap", {{"card", "spill"}}),
          event(5, moment(9, 30), "kit", {{"pile", "given"}, {"by", 23}}),
          event(6, moment(9, 40), "note", {{"text", "Two trays\nwere short."}}),
          event(7, moment(9, 48), "finish"),
          event(8, moment(9, 48, 30), "taken", {{"by", "teacher"}}),
          event(9, moment(9, 49), "report")};
}

struct Visit {
  Folder folder;
  std::string brief = folder.write("brief.json", demo_brief());

  Result report(const Json& events, std::vector<std::string> more = {}) const {
    std::vector<std::string> call = {"report",
                                     "--brief",
                                     brief,
                                     "--content",
                                     kContent,
                                     "--journal",
                                     folder.write("journal.json", journal(events))};
    call.insert(call.end(), more.begin(), more.end());
    return run(call);
  }
};

}  // namespace

TEST_CASE("--json gives the very bytes of dump_json") {
  const Visit visit;
  trowelbell::Problems problems;
  const auto content = [](const std::string& path) {
    return json_of(file_text(kContent + "/" + path));
  };
  const trowelbell::Brief brief = trowelbell::read_brief(demo_brief(), problems);
  const trowelbell::Lesson lesson =
      trowelbell::read_lesson(content("lessons/window-garden.json"), problems);
  const trowelbell::Story story =
      trowelbell::read_story(content("stories/" + lesson.story + ".json"), problems);
  const auto events = trowelbell::read_journal_file(journal(visit_events()), problems).events;
  REQUIRE(problems.empty());
  const auto times = trowelbell::step_times(lesson, story, "en", brief.children, brief.adults);
  const Json expected =
      trowelbell::make_report(brief, lesson, times, events, "0123456789abcdef", 9);

  Json document = json_of(visit.report(visit_events(), {"--json"}).out);
  Json wanted = expected;
  // demo_brief() makes a key anew each time, but no report holds one.
  CHECK(visit.report(visit_events(), {"--json"}).out == trowelbell::dump_json(expected));
  CHECK(document == wanted);
  CHECK_FALSE(has(trowelbell::dump_json(document), brief.key));
}

TEST_CASE("the report in words") {
  const Visit visit;
  const Result result = visit.report(visit_events());
  CHECK(result.status == 0);
  CHECK(result.err.empty());
  CHECK(has(result.out,
            "A garden in the window, Fern Hollow School, Room 4, 2027-03-09\nReport 9 of phone "
            "0123456789abcdef\n"));
  CHECK(has(result.out, "Began 09:05, ended 09:48, bell 09:50\n"));
  CHECK(has(result.out,
            "Children: 23 came of 24 places (23 present, 0 late, 0 left early, 1 absent, 0 not "
            "counted)\n"));
  // 4 adults x 43 minutes.
  CHECK(has(result.out, "Adults: 4, together 172 minutes\n"));
  CHECK(has(result.out,
            "Kits: 27 brought; 23 given, 0 spoiled, 0 left with the teacher, 0 spare, 4 "
            "unaccounted for\n"));
  CHECK(has(result.out, "Mishap: spill, 1 time\n"));
  CHECK(has(result.out, "Handed over to: teacher\n"));
  CHECK(has(result.out, "Note: Two trays?were short.\n"));
}

TEST_CASE("the report is the last one made; later taps are told") {
  const Visit visit;
  Json events = visit_events();
  events.push_back(event(10, moment(9, 50), "mishap", {{"card", "spill"}}));
  const Result result = visit.report(events);
  CHECK(has(result.out, "Mishap: spill, 1 time\n"));
  CHECK(has(result.err, "note: 1 later event is not in this report"));
  events.push_back(event(11, moment(9, 51), "report"));
  const Result newer = visit.report(events);
  CHECK(has(newer.out, "Report 11 of phone"));
  CHECK(has(newer.out, "Mishap: spill, 2 times\n"));
  CHECK(newer.err.empty());
}

TEST_CASE("a visit without a report is reported as it was left") {
  const Visit visit;
  const Result result = visit.report(
      {event(1, moment(9, 5), "start"), event(2, moment(9, 7), "hold", {{"reason", "drill"}})});
  CHECK(result.status == 0);
  CHECK(has(result.out, "Report 2 of phone"));
  CHECK(has(result.out, "Handed over to: nobody yet\n"));
}

TEST_CASE("what report does not take") {
  const Visit visit;
  CHECK(visit.report(Json::array()).status == 1);
  CHECK(visit.report({event(1, moment(9, 5), "page", {{"page", 99}})}).status == 1);
  CHECK(run({"report", "--brief", visit.brief, "--journal", visit.folder.at("gone"), "--content",
             kContent})
            .status == 1);
}
