#include "core/lesson.h"

#include "documents.h"

using namespace trowelbell;

namespace {

const documents::Read kRead = documents::reader_of(read_lesson);

}  // namespace

TEST_CASE("a lesson is read field by field") {
  Problems problems;
  const Lesson lesson = read_lesson(documents::lesson(), problems);
  CHECK(problems.empty());
  CHECK(lesson.id == "window-garden");
  CHECK(lesson.title == LocalText{"A window garden", "Un jardín"});
  CHECK(lesson.story == "not-yet");
  CHECK(lesson.species == std::vector<std::string>{"garden-bean"});
  CHECK(lesson.comfort_percent == 75);
  CHECK(lesson.reserve_seconds == 90);
  CHECK(lesson.least_adults == 2);
  REQUIRE(lesson.steps.size() == 2);
  const Step& hello = lesson.steps[0];
  CHECK(hello.keep == Keep::should);
  CHECK(hello.worth == 40);
  CHECK_FALSE(hello.reading);
  CHECK(hello.seconds == StepSeconds{30, 60, 90});
  CHECK(hello.per_child == StepSeconds{5, 10, 20});
  CHECK(hello.who == "helper");
  CHECK(hello.say.at(0).es == "¡Hola!");
  CHECK(hello.act.at(0).en == "Wave.");
  CHECK(hello.watch.at(0).en == "The door.");
  CHECK(hello.safety);
  CHECK(hello.cards.at(0) == "two-adults");
  CHECK(hello.drawing == "wave");
  CHECK(hello.left_with_teacher.en == "Sing it.");
  CHECK(lesson.steps[1].reading);
  CHECK(lesson.steps[1].keep == Keep::must);
  CHECK(lesson.steps[1].seconds == StepSeconds{});
  REQUIRE(lesson.kit.size() == 1);
  CHECK(lesson.kit[0].count == 2);
  CHECK(lesson.kit[0].per == "child");
  CHECK(lesson.kit[0].cut_parts == 3);
  CHECK(lesson.kit[0].packs == std::vector<Pack>{{10, 0}});
  CHECK_FALSE(lesson.kit[0].reusable);
  CHECK(lesson.ready.at(0).id == "aprons");
  CHECK(lesson.handover.at(0).text.es == "¿Quién riega?");
}

TEST_CASE("the lesson's reader is strict") {
  documents::reader_is_strict(documents::lesson(), kRead,
                              {"/title/es",
                               "/comfort_percent",
                               "/reserve_seconds",
                               "/least_adults",
                               "/steps/*/title/es",
                               "/steps/*/worth",
                               "/steps/*/per_child",
                               "/steps/*/say",
                               "/steps/*/say/*/es",
                               "/steps/*/do",
                               "/steps/*/do/*/es",
                               "/steps/*/watch/*/es",
                               "/steps/*/safety",
                               "/steps/*/cards",
                               "/steps/*/drawing",
                               "/steps/*/left_with_teacher",
                               "/steps/*/left_with_teacher/es",
                               "/kit",
                               "/kit/*/name/es",
                               "/kit/*/cut_parts",
                               "/kit/*/pack",
                               "/ready",
                               "/ready/*/text/es",
                               "/handover",
                               "/handover/*/text/es"});
}

TEST_CASE("a lesson's bounds and rules are told") {
  documents::bad_rows_are_told(
      documents::lesson(), kRead,
      {{"/comfort_percent", "0", ""},
       {"/comfort_percent", "101", ""},
       {"/reserve_seconds", "901", ""},
       {"/species", "[]", ""},
       {"/species", R"(["a", "b", "c", "d", "e"])", ""},
       {"/steps", "[]", ""},
       {"/steps/0/keep", "\"always\"", ""},
       {"/steps/0/worth", "1001", ""},
       {"/steps/0/who", "\"dog\"", ""},
       {"/steps/0/seconds/min", "61", "/steps/0/seconds/plan"},
       {"/steps/0/seconds/max", "59", ""},
       {"/steps/0/seconds/plan", "7201", ""},
       {"/steps/0/per_child/plan", "4", ""},
       {"/steps/0/watch", "[]", ""},
       {"/steps/1/seconds", R"({"min": 1, "plan": 1, "max": 1})", ""},
       {"/steps/1/per_child", R"({"min": 1, "plan": 1, "max": 1})", "/steps/1/seconds"},
       {"/steps/1/id", "\"hello\"", ""},
       {"/kit/0/count", "0", ""},
       {"/kit/0/per", "\"dog\"", ""},
       {"/kit/0/cut_parts", "0", ""},
       {"/kit/0/pack", "0", ""}});
  Json two_stories = documents::lesson();
  two_stories["steps"].push_back(two_stories["steps"][1]);
  two_stories["steps"][2]["id"] = "again";
  CHECK(documents::tells(kRead(two_stories), "/steps"));
  Json no_time = documents::lesson();
  no_time["steps"][0]["seconds"] = {{"min", 0}, {"plan", 0}, {"max", 0}};
  CHECK(kRead(no_time).empty());  // each child's time remains
  no_time["steps"][0].erase("per_child");
  CHECK(documents::tells(kRead(no_time), "/steps/0/seconds"));
}

TEST_CASE("a step is found by its id") {
  Problems problems;
  const Lesson lesson = read_lesson(documents::lesson(), problems);
  CHECK(step_index(lesson, "hello") == 0);
  CHECK(step_index(lesson, "story") == 1);
  CHECK(step_index(lesson, "nap") == 2);
}

TEST_CASE("an item may come in several packs with prices, or come back from a visit") {
  Json document = documents::lesson();
  Json& item = document["kit"][0];
  item.erase("pack");
  item.erase("cut_parts");
  item["packs"] =
      documents::parsed(R"([{"size": 50, "price_cents": 300}, {"size": 200, "price_cents": 999}])");
  item["reusable"] = true;
  Problems problems;
  const Lesson lesson = read_lesson(document, problems);
  REQUIRE(problems.empty());
  CHECK(lesson.kit[0].packs == std::vector<Pack>{{50, 300}, {200, 999}});
  CHECK(lesson.kit[0].reusable);
  documents::bad_rows_are_told(document, kRead,
                               {{"/kit/0/pack", "50", ""},
                                {"/kit/0/packs", "[]", ""},
                                {"/kit/0/packs/0/size", "0", ""},
                                {"/kit/0/packs/0/size", "1001", ""},
                                {"/kit/0/packs/1/price_cents", "0", ""},
                                {"/kit/0/packs/1/price_cents", "1000001", ""},
                                {"/kit/0/cut_parts", "3", "/kit/0/reusable"},
                                {"/kit/0/reusable", "\"yes\"", ""}});
}
