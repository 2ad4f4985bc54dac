#include "command.h"

using namespace trowelbell::cli_test;
using trowelbell::Json;

namespace {

struct Visit {
  Folder folder;
  std::string brief = folder.write("brief.json", demo_brief());

  Result pace(const std::string& at, std::vector<std::string> more = {}) const {
    std::vector<std::string> call = {"pace", "--brief", brief, "--content", kContent, "--at", at};
    call.insert(call.end(), more.begin(), more.end());
    return run(call);
  }
  Json plan(const std::string& at, std::vector<std::string> more = {}) const {
    more.emplace_back("--json");
    const Result result = pace(at, more);
    REQUIRE(result.status == 0);
    return json_of(result.out);
  }
};

std::int64_t kept_ms(const Json& plan) {
  std::int64_t sum = 0;
  for (const Json& step : plan["steps"]) {
    sum += step["milliseconds"].get<std::int64_t>();
  }
  return sum;
}

}  // namespace

TEST_CASE("the plan fills the time to the bell and no more") {
  const Visit visit;
  const std::int64_t reserve =
      json_of(file_text(kContent + "/lessons/window-garden.json"))["reserve_seconds"];
  for (const char* at : {"08:00", "09:05", "09:10:30", "09:20", "09:24:59"}) {
    CAPTURE(at);
    const Json plan = visit.plan(at);
    // Before the start the time runs from the start on.
    const std::int64_t room =
        std::min<std::int64_t>(plan["seconds_to_bell"].get<std::int64_t>(), 45 * 60) - reserve;
    CHECK(plan["seconds_short"] == 0);
    CHECK(kept_ms(plan) == (room - plan["seconds_to_spare"].get<std::int64_t>()) * 1000);
  }
  CHECK(visit.plan("09:10:30")["seconds_to_bell"] == 39 * 60 + 30);
  CHECK(visit.plan("09:51")["seconds_to_bell"] == -60);
  CHECK(visit.plan("09:45")["seconds_short"] > 0);
}

TEST_CASE("the plan in words") {
  const Visit visit;
  const Result result = visit.pace("09:20");
  CHECK(result.status == 0);
  CHECK(result.err.empty());
  CHECK(has(result.out,
            "A garden in the window, Fern Hollow School, Room 4, 2027-03-09\n"
            "At 09:20:00: 30:00 to the bell (bell 09:50:00), 0:00 to spare\n"));
  CHECK(has(result.out, "kept, shortened; plan "));
  CHECK(has(result.out, "left out: "));
  CHECK(has(result.out, "To leave with the teacher:\n  - "));
  CHECK(has(visit.pace("09:05").out, "kept, as planned"));
  CHECK(has(visit.pace("09:45").out, " too short even when every step is hurried"));
  CHECK(has(visit.pace("09:51").out, "1:00 after the bell"));
}

TEST_CASE("a journal counts up to the moment asked for") {
  const Visit visit;
  const Json lesson = json_of(file_text(kContent + "/lessons/window-garden.json"));
  const std::string first = lesson["steps"][0]["id"], second = lesson["steps"][1]["id"];
  // Out of order, and one event twice, as two phones' files laid together may be.
  const Json start = event(1, moment(9, 5), "start"),
             step = event(2, moment(9, 7), "step", {{"step", second}});
  const std::string file = visit.folder.write("journal.json", journal({step, start, step}));
  const Json before = visit.plan("09:04", {"--journal", file});
  CHECK(before["phase"] == "before");
  const Json in_first = visit.plan("09:06", {"--journal", file});
  CHECK(in_first["phase"] == "running");
  CHECK(in_first["steps"][0]["current"] == true);
  const Json in_second = visit.plan("09:08", {"--journal", file});
  CHECK(in_second["steps"][0]["over"] == true);
  CHECK(in_second["steps"][0]["milliseconds"] == 120'000);
  CHECK(in_second["steps"][1]["current"] == true);
  CHECK(has(visit.pace("09:08", {"--journal", file}).out, "done; plan "));
  CHECK(has(visit.pace("09:08", {"--journal", file}).out, "now, "));
  CHECK(has(visit.pace("09:40", {"--journal", file}).out, "now, over its time by "));
}

TEST_CASE("what pace does not take") {
  const Visit visit;
  for (const char* at :
       {"", "9:05", "09:05:60", "24:00", "09:05:1", "09:05-10", "09:05:1x", "now"}) {
    CAPTURE(at);
    CHECK(visit.pace(at).status == 2);
  }
  CHECK(visit.pace("09:05", {"--language", "fr"}).status == 2);
  CHECK(run({"pace", "--brief", "-", "--journal", "-", "--at", "09:05", "--content", kContent})
            .status == 2);
  CHECK(run({"pace", "--brief", visit.brief, "--at", "09:05", "--content", visit.folder.at("")})
            .status == 2);
  CHECK(run({"pace", "--brief", visit.folder.at("gone"), "--at", "09:05", "--content", kContent})
            .status == 1);
  Json other = journal(Json::array());
  other["visit"] = "another-visit";
  const Result wrong = visit.pace("09:05", {"--journal", visit.folder.write("other.json", other)});
  CHECK(wrong.status == 1);
  CHECK(has(wrong.err, "give the files of one visit"));
  Json no_lesson = demo_brief();
  no_lesson["lesson"] = "gone";
  const Result gone = run({"pace", "--brief", visit.folder.write("b.json", no_lesson), "--at",
                           "09:05", "--content", kContent});
  CHECK(gone.status == 1);
  CHECK(has(gone.err, "names the lesson \"gone\""));
}

TEST_CASE("Spanish reading takes its own time") {
  const Visit visit;
  const auto reading = [](const Json& plan) {
    for (const Json& step : plan["steps"]) {
      if (step["id"] == "story") {
        return step["planned_seconds"].get<std::int64_t>();
      }
    }
    return std::int64_t{0};
  };
  CHECK(reading(visit.plan("09:05")) > 60);
  CHECK(reading(visit.plan("09:05", {"--language", "es"})) != reading(visit.plan("09:05")));
}
