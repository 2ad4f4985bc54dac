#include "command.h"

using namespace trowelbell::cli_test;
using trowelbell::Json;

namespace {

Result check(std::vector<std::string> names, const std::string& input = "") {
  names.insert(names.begin(), "check");
  names.insert(names.end(), {"--content", kContent});
  return run(std::move(names), input);
}

Json shipped(const std::string& path) {
  return json_of(file_text(kContent + "/" + path));
}

}  // namespace

TEST_CASE("the shipped content is good, checked against itself") {
  const Result result = check({kContent});
  CHECK(result.status == 0);
  CHECK(has(result.out, "lessons/window-garden.json: good (lesson)\n"));
  CHECK(has(result.out, "demo/county.json: good (county)\n"));
  CHECK_FALSE(has(result.out, "schema"));
  CHECK(has(result.out, " 0 problems\n"));
  CHECK(result.err.empty());
}

TEST_CASE("a problem is one line with the file, the place, what is wrong and what is allowed") {
  const Folder folder;
  Json brief = demo_brief();
  brief["children"] = 61;
  brief["warmth"]["day"] = "warm";
  const std::string file = folder.write("bad.json", brief);
  const Result result = check({file});
  CHECK(result.status == 1);
  CHECK(
      result.out ==
      file +
          ": /children: must be a whole number from 1 to 60, without quotes or a decimal point\n" +
          file +
          ": /warmth/day: must be a number from 0 to 40, without quotes\n"
          "1 file, 2 problems\n");
  CHECK(result.err.empty());
}

TEST_CASE("what a file names must be in the content") {
  const Folder folder;
  Json lesson = shipped("lessons/window-garden.json");
  lesson["story"] = "gone";
  lesson["steps"][0]["drawing"] = "unicorn";
  const Result result = check({folder.write("lesson.json", lesson)});
  CHECK(result.status == 1);
  CHECK(has(result.out,
            "/story: names the story \"gone\", which is not in the content; there is \""));
  CHECK(has(result.out, "/steps/0/drawing: is not the name of a drawing here"));
  Json brief = demo_brief();
  brief["lesson"] = "gone";
  CHECK(has(check({folder.write("brief.json", brief)}).out, "/lesson: names the lesson \"gone\""));
  Json spanish = shipped("lang/es.json");
  spanish["texts"].erase("date.range");
  CHECK(has(check({folder.write("es.json", spanish)}).out, "/texts/date.range: is missing"));
  Json index = shipped("index.json");
  CHECK(has(check({folder.write("index2.json", index)}).out,
            "/care: names the file \"care/cards.json\", which is not there"));
}

TEST_CASE("standard input, journals and reports are checked too") {
  CHECK(check({"-"}, trowelbell::dump_json(demo_brief())).out ==
        "standard input: good (brief)\n1 file, 0 problems\n");
  const Json events = {event(1, moment(9, 5), "start"),
                       event(2, moment(9, 6), "page", {{"page", 99}})};
  const Result journal_result = check({"-"}, trowelbell::dump_json(journal(events)));
  CHECK(journal_result.status == 1);
  CHECK(has(journal_result.out, "standard input: /events/1/data/page: must be"));
  CHECK(
      has(check({"-"}, R"({"format":"trowelbell.report","version":1})").out, "/visit: is missing"));
}

TEST_CASE("files that are none of ours are refused with what is known") {
  const Folder folder;
  for (const char* text : {"{}", "[]", "7", R"({"format":"trowelbell.song"})", R"({"format":7})"}) {
    const Result result = check({folder.write("x.json", std::string(text))});
    CHECK(result.status == 1);
    CHECK(has(result.out, "\"trowelbell.lesson\""));
  }
  CHECK(has(check({folder.write("x.json", std::string())}).out, "x.json: the file is empty"));
  CHECK(has(check({folder.write("x.json", std::string("{\"format\":"))}).out, "stops too early"));
  CHECK(has(check({folder.at("gone.json")}).out,
            "gone.json: the file cannot be opened (No such file or directory)"));
}

TEST_CASE("the limits of the file's own format hold") {
  const Folder folder;
  Json brief = demo_brief();
  brief["more"] = std::string(70'000, 'x');
  CHECK(has(check({folder.write("big.json", brief)}).out, "is too long"));
}

TEST_CASE("a file cannot steer the terminal") {
  Json language = shipped("lang/en.json");
  language["texts"]["\x1b[2Jgone"] = "x";
  language["\x1b[31m"] = 1;
  const Result result = check({"-"}, trowelbell::dump_json(language));
  CHECK(result.status == 1);
  CHECK_FALSE(has(result.out, "\x1b"));
}

TEST_CASE("drafts without Spanish and visits on closed days are noted, not refused") {
  const Folder folder;
  Json story = shipped("stories/a-pot-of-not-yet.json");
  story["pages"][1]["text"].erase("es");
  const Result draft = check({folder.write("story.json", story)});
  CHECK(draft.status == 0);
  CHECK(
      has(draft.out, "note: " + folder.at("story.json") + ": /pages/1/text: has no Spanish text"));
  Json brief = demo_brief();
  brief["date"] = "2027-03-13";  // a Saturday, by GNU date
  const Result saturday = check({folder.write("brief.json", brief)});
  CHECK(saturday.status == 0);
  CHECK(has(saturday.out, "/date: 2027-03-13 is a weekend or a closed day"));
}

TEST_CASE("--json gives the same to programs") {
  const Folder folder;
  Json brief = demo_brief();
  brief["adults"] = 0;
  const Result result = check({"--json", folder.write("bad.json", brief), kCounty});
  CHECK(result.status == 1);
  const Json document = json_of(result.out);
  CHECK(document["problems"] == 1);
  CHECK(document["files"].size() == 2);
  CHECK(document["files"][0]["kind"] == "brief");
  CHECK(document["files"][0]["problems"][0]["pointer"] == "/adults");
  CHECK(document["files"][1]["problems"].empty());
}

TEST_CASE("a folder without files and a content folder without an index are the call's fault") {
  const Folder folder;
  CHECK(check({folder.at("")}).status == 2);
  CHECK(run({"check", kCounty, "--content", folder.at("")}).status == 2);
}
