#include "command.h"

using namespace trowelbell::cli_test;
using trowelbell::Json;

namespace {

const std::string kLesson = "lessons/window-garden.json";

// Of a class of 24 with 4 adults (6 rounds); every step but the story took `percent` of its plan.
Json report(int number, int percent) {
  const Json lesson = json_of(file_text(kContent + "/" + kLesson));
  Json steps = Json::array();
  for (const Json& step : lesson["steps"]) {
    std::int64_t plan =
        step.contains("seconds") ? step["seconds"]["plan"].get<std::int64_t>() : 400;
    if (step.contains("per_child")) plan += 6 * step["per_child"]["plan"].get<std::int64_t>();
    steps.push_back({{"id", step["id"]},
                     {"planned_seconds", plan},
                     {"actual_seconds", plan * percent / 100},
                     {"outcome", "done"}});
  }
  Json document = json_of(R"({"format": "trowelbell.report", "version": 1, "revision": 1,
    "device": "aaaaaaaaaaaaaaaa", "lesson": "window-garden", "school": "Fern Hollow School",
    "room": "Room 4", "date": "2027-03-09", "began_at": 1, "ended_at": 2, "bell_at": 3,
    "children": {"places": 24, "present": 24, "late": 0, "absent": 0, "left_early": 0, "unknown": 0},
    "adults": 4, "adult_minutes": 4,
    "kits": {"brought": 0, "given": 0, "spoiled": 0, "with_teacher": 0, "spare": 0, "unaccounted": 0},
    "mishaps": {}, "holds": [], "pages": [], "handover": {}, "ready": {}, "taken_by": "", "events": 1})");
  document["visit"] = "v" + std::to_string(number);
  document["steps"] = std::move(steps);
  return document;
}

struct Season {
  Folder folder;
  std::string file;

  explicit Season(const std::vector<int>& percents) {
    Json reports = Json::array();
    for (const int percent : percents) {
      reports.push_back(report(static_cast<int>(reports.size()), percent));
    }
    file = folder.write("reports.json", reports);
  }
  Result learn(std::vector<std::string> more = {}) const {
    more.insert(more.begin(), {"learn", file, "--lesson", "window-garden", "--content", kContent});
    return run(more);
  }
};

const std::vector<int> kPercents = {100, 110, 120, 130, 200};

Json step_of(const Json& answer, const std::string& id) {
  for (const Json& step : answer["steps"]) {
    if (step["id"] == id) return step;
  }
  FAIL("no step \"" << id << "\"");
  return {};
}

}  // namespace

TEST_CASE("times are learned: quantiles, by band, with their counts") {
  const Season season(kPercents);
  const Result result = season.learn({"--json"});
  CHECK(result.status == 0);
  CHECK(result.err.empty());
  const Json answer = json_of(result.out);
  CHECK(answer["visits"] == 5);
  CHECK(answer["reports"] == 5);
  const Json hello = step_of(answer, "hello");  // planned 75 s
  CHECK(hello["all"]["visits"] == 5);
  // Took 75, 82, 90, 97 and 150 s: by definition 7 the tenth stands at place 0.4, the ninetieth at
  // 3.6.
  CHECK(hello["all"]["seconds"][0].get<double>() == doctest::Approx(77.8));
  CHECK(hello["all"]["seconds"][1] == 90);
  CHECK(hello["all"]["seconds"][2].get<double>() == doctest::Approx(128.8));
  CHECK(hello["all"]["of_plan"][1].get<double>() == doctest::Approx(1.2));
  CHECK(hello["bands"][0]["visits"] == 0);
  CHECK(hello["bands"][2] == Json({{"from", 23},
                                   {"to", 60},
                                   {"visits", 5},
                                   {"seconds", hello["all"]["seconds"]},
                                   {"of_plan", hello["all"]["of_plan"]}}));
  CHECK(hello["lesson"]["seconds"] == Json({{"min", 40}, {"plan", 75}, {"max", 120}}));
  CHECK(hello["proposed"]["seconds"] == Json({{"min", 40}, {"plan", 90}, {"max", 129}}));
  CHECK(step_of(answer, "hand-out")["proposed"]["per_child"] ==
        Json({{"min", 6}, {"plan", 12}, {"max", 20}}));
  CHECK(step_of(answer, "story")["proposed"].is_null());
  CHECK(step_of(answer, "story")["all"]["visits"] == 5);
}

TEST_CASE("the times in words") {
  const std::string out = Season(kPercents).learn().out;
  CHECK(has(out, "A garden in the window: 5 visits from 5 reports\n"));
  CHECK(has(out, "    all classes         5    1:18    1:30    2:09     104   120   172\n"));
  CHECK(has(out, "    1 to 15             0  too few\n"));
  CHECK(has(out, "    23 or more          5    1:18 "));
  CHECK(has(out, "    lesson    0:40 1:15 2:00\n    proposed  0:40 1:30 2:09\n"));
  CHECK(has(out, "    lesson    0:45 1:00 2:00, each round 0:06 0:10 0:20\n"));
  CHECK(has(out, "the story's time comes from its pages"));
  CHECK(has(Season({100, 100, 100, 100, 100}).learn().out, "    proposed  as it is\n"));
  CHECK(has(Season({30, 30, 30, 30, 30}).learn().out, "the shortest stays"));
  const std::string few = Season({100, 110}).learn().out;
  CHECK(has(few, "    all classes         2  too few\n"));
  CHECK_FALSE(has(few, "proposed  "));
  CHECK(has(Season({100, 110, 120}).learn({"--least", "3"}).out, "    proposed  "));
}

TEST_CASE("a new lesson is written only when asked for, never over another, and passes check") {
  const Season season(kPercents);
  const std::string out = season.folder.at("learned.json");
  CHECK(season.learn().status == 0);
  CHECK_FALSE(std::filesystem::exists(out));
  const std::string before = file_text(kContent + "/" + kLesson);
  CHECK(season.learn({"--out", out}).status == 0);
  CHECK(file_text(kContent + "/" + kLesson) == before);
  const Result checked = run({"check", out, "--content", kContent});
  CHECK(checked.status == 0);
  CHECK(has(checked.out, ": good (lesson)\n1 file, 0 problems\n"));

  // Only times differ, and of these neither the shortest nor the story's.
  const Json learned = json_of(file_text(out));
  const Json changes = Json::diff(json_of(before), learned);
  CHECK(changes.size() > 10);
  for (const Json& change : changes) {
    const std::string path = change["path"];
    CAPTURE(path);
    CHECK(change["op"] == "replace");
    CHECK((has(path, "/seconds/") || has(path, "/per_child/")));
    CHECK((has(path, "/plan") || has(path, "/max")));
  }
  CHECK(learned["steps"][2]["seconds"] == Json({{"min", 40}, {"plan", 90}, {"max", 129}}));
  // In its author's order.
  CHECK(file_text(out).rfind("{\n  \"format\": \"trowelbell.lesson\",\n  \"version\": 1,\n", 0) ==
        0);

  const std::string kept = season.folder.write("kept.json", std::string("mine"));
  const Result refused = season.learn({"--out", kept});
  CHECK(refused.status == 2);
  CHECK(has(refused.err, "is there already; give another name, or --force to replace it"));
  CHECK(file_text(kept) == "mine");
  CHECK(season.learn({"--out", kept, "--force"}).status == 0);
  CHECK(file_text(kept) == file_text(out));
  CHECK(season.learn({"--out", season.folder.at("gone/learned.json")}).status == 1);
  CHECK(season.learn({"--force"}).status == 2);

  const std::string never = season.folder.at("never.json");
  const Result few = Season({100}).learn({"--out", never});
  CHECK(few.status == 1);
  CHECK(has(few.err, "too few visits for any proposal"));
  CHECK_FALSE(std::filesystem::exists(never));
}

TEST_CASE("a visit teaches once; reports that cannot be read and other lessons do not") {
  const Folder folder;
  std::filesystem::create_directories(folder.at("all"));
  for (int i = 0; i < 5; ++i) {
    folder.write("all/" + std::to_string(i) + ".json", report(i, 100 + i));
  }
  Json newer = report(4, 300), other = report(7, 500), bad = report(8, 100), gone = report(6, 100);
  newer["revision"] = 2;
  other["lesson"] = "another";
  bad["adults"] = 0;
  gone["steps"][0]["id"] = "greeting";
  folder.write("all/newer.json", newer);
  folder.write("all/other.json", other);
  folder.write("all/bad.json", bad);
  folder.write("all/gone.json", gone);
  const auto call = [&](std::vector<std::string> more) {
    more.insert(more.begin(),
                {"learn", folder.at("all"), "--lesson", "window-garden", "--content", kContent});
    return run(more);
  };
  const Result result = call({"--json"});
  CHECK(result.status == 1);
  CHECK(has(result.err, "left out: " + folder.at("all/bad.json") + ": /adults: must be"));
  const Json answer = json_of(result.out);
  CHECK(answer["reports"] == 8);
  CHECK(answer["left_out"] == 1);
  CHECK(answer["visits"] == 6);
  CHECK(answer["unknown_steps"] == Json::array({"greeting"}));
  CHECK(step_of(answer, "sign-in")["all"]["visits"] == 5);
  CHECK(step_of(answer, "sign-in")["all"]["of_plan"][2].get<double>() > 2);
  CHECK(has(call({}).out, "6 visits from 8 reports\n1 report could not be read and was left out"));
  CHECK(has(call({}).out, "the step greeting was done, but the lesson no longer has it\n"));
}

TEST_CASE("what learn does not take") {
  const Season season(kPercents);
  CHECK(run({"learn", season.file, "--content", kContent}).status == 2);
  CHECK(run({"learn", "--lesson", "window-garden"}).status == 2);
  CHECK(run({"learn", season.file, "--lesson", "gone", "--content", kContent}).status == 2);
  CHECK(season.learn({"--least", "2"}).status == 2);
  CHECK(run({"learn", season.folder.at("gone"), "--lesson", "window-garden", "--content", kContent})
            .status == 1);
}
