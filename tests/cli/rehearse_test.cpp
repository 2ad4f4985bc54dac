#include <cmath>

#include "command.h"

using namespace trowelbell::cli_test;
using trowelbell::Json;

namespace {

struct Visit {
  Folder folder;
  std::string brief = folder.write("brief.json", demo_brief());

  Result rehearse(std::vector<std::string> more = {}) const {
    std::vector<std::string> call = {"rehearse", "--brief", brief, "--content", kContent};
    call.insert(call.end(), more.begin(), more.end());
    return run(call);
  }
  Json answer(std::vector<std::string> more = {}) const {
    more.emplace_back("--json");
    const Result result = rehearse(more);
    REQUIRE_MESSAGE(result.status == 0, result.err);
    CHECK(result.err.empty());
    return json_of(result.out);
  }
};

Result of_lesson(std::vector<std::string> more) {
  std::vector<std::string> call = {"rehearse", "--lesson", "window-garden", "--content", kContent};
  call.insert(call.end(), more.begin(), more.end());
  return run(call);
}

const Json& named(const Json& answer, const std::string& name) {
  for (const Json& entry : answer["cases"]) {
    if (entry["case"] == name) return entry;
  }
  FAIL("no case \"" << name << "\"");
  return answer;
}

}  // namespace

TEST_CASE("the counts are the ones written down, by the brief and by the lesson's name") {
  const Json written =
      json_of(file_text(std::string(TROWELBELL_TEST_DIR) + "/core/rehearsal_counts.json"));
  const Visit visit;
  for (const Json& answer :
       {visit.answer(),
        json_of(of_lesson({"--children", "24", "--minutes", "45", "--json"}).out)}) {
    CHECK(answer["visits"] == 2000);
    CHECK(answer["seed"] == 1);
    CHECK(answer["least_adults"] == 3);
    REQUIRE(answer["rows"].size() == 8);
    for (std::size_t i = 0; i < 8; ++i) {
      const Json& row = answer["rows"][i];
      CHECK(row["adults"] == i + 1);
      CHECK(row["fits"] == (i > 0));
      REQUIRE(row["starts"].size() == 5);
      for (std::size_t late = 0; late < 5; ++late) {
        const Json& start = row["starts"][late];
        CHECK(start["minutes_late"] == 5 * late);
        if (late % 2 == 0) CHECK(start["by_bell"] == written["by_bell"][i][late / 2]);
        // The standard error of a share p of n: sqrt(p (1 - p) / n), any textbook.
        const double p = start["by_bell"].get<double>() / 2000;
        CHECK(start["chance"].get<double>() == doctest::Approx(p));
        CHECK(start["standard_error"].get<double>() ==
              doctest::Approx(std::sqrt(p * (1 - p) / 2000)));
      }
    }
  }
}

TEST_CASE("same seed, same bytes; another seed, another luck") {
  const Visit visit;
  const auto out = [&](const char* seed) {
    return visit.rehearse({"--seed", seed, "--visits", "300", "--json"}).out;
  };
  CHECK(out("5") == out("5"));
  CHECK(json_of(out("5"))["rows"] != json_of(out("6"))["rows"]);
  CHECK(json_of(out("5"))["visits"] == 300);
}

TEST_CASE("as planned, late and short-handed: the steps are those that pace shows") {
  const Visit visit;
  const Json answer = visit.answer({"--visits", "50"});
  const Json &typical = named(answer, "typical"), &late = named(answer, "late"),
             &few = named(answer, "short_handed");
  CHECK(typical["adults"] == 4);
  CHECK(late["adults"] == 4);
  CHECK(late["minutes_late"] == 10);
  CHECK(few["adults"] == 2);
  CHECK(few["minutes_late"] == 0);
  CHECK(late["by_bell"] == answer["rows"][3]["starts"][2]["by_bell"]);
  CHECK(few["by_bell"] == answer["rows"][1]["starts"][0]["by_bell"]);

  Json two = demo_brief();
  two["adults"] = 2;
  const auto shown = [&](const std::string& brief, const char* at) {
    return json_of(
        run({"pace", "--brief", brief, "--content", kContent, "--at", at, "--json"}).out)["steps"];
  };
  const auto same = [](const Json& rehearsed, const Json& paced) {
    REQUIRE(rehearsed["steps"].size() == paced.size());
    for (std::size_t i = 0; i < paced.size(); ++i) {
      for (const char* key : {"id", "kept", "milliseconds", "planned_seconds", "why"}) {
        CHECK(rehearsed["steps"][i][key] == paced[i][key]);
      }
    }
  };
  same(typical, shown(visit.brief, "09:05"));
  same(late, shown(visit.brief, "09:15"));
  same(few, shown(visit.folder.write("two.json", two), "09:05"));
}

TEST_CASE("the rehearsal in words") {
  const Visit visit;
  const Result result = visit.rehearse();
  CHECK(result.status == 0);
  CHECK(result.err.empty());
  CHECK(has(result.out,
            "A garden in the window, Fern Hollow School, Room 4, 2027-03-09, 24 children, 4 "
            "adults, 45 minutes\nLeast adults: 3. "));
  CHECK(has(result.out, "where the school asks for more, its number counts"));
  // 1605 of 2000 is 80.25 %, with a standard error of 0.89 points.
  CHECK(has(result.out, "     4  fits "));
  CHECK(has(result.out, "80.2 (0.9)"));
  CHECK(has(result.out, "     1  leaves out 2 steps "));
  CHECK(has(result.out,
            "As planned: 4 adults, on time; by the bell 99.8 %\n  every step as planned, "));
  CHECK(has(result.out, "Late: 4 adults, 10 minutes late; by the bell 80.2 %\n"));
  CHECK(has(result.out, "kept, shortened; plan 1:00\n"));
  CHECK(has(result.out, "left out: keeping it would rush the other steps; plan 2:00\n"));
  CHECK(has(result.out, "Short-handed: 2 adults, on time; "));
  const Result hopeless = of_lesson({"--children", "30", "--minutes", "30", "--visits", "1000"});
  CHECK(has(hopeless.out, "A garden in the window, 30 children, 3 adults, 30 minutes\n"));
  CHECK(has(hopeless.out, "Least adults: none; it does not fit even with 8. "));
  CHECK(has(hopeless.out, "     1  7:40 too short "));
  CHECK(has(hopeless.out, "too short even when every step is hurried\n"));
}

TEST_CASE("what the call says goes before the brief; a larger team has its row too") {
  const Visit visit;
  const Json answer =
      visit.answer({"--children", "12", "--minutes", "30", "--adults", "10", "--visits", "20"});
  CHECK(answer["visit"] == kVisit);
  CHECK(answer["children"] == 12);
  CHECK(answer["minutes"] == 30);
  CHECK(answer["rows"].size() == 10);
  CHECK(named(answer, "short_handed")["adults"] == 8);
  CHECK(named(visit.answer({"--adults", "1", "--visits", "20"}), "short_handed")["adults"] == 1);
  // Spanish has more words to read.
  CHECK(named(visit.answer({"--visits", "20"}), "typical")["steps"][4]["planned_seconds"] !=
        named(visit.answer({"--visits", "20", "--language", "es"}),
              "typical")["steps"][4]["planned_seconds"]);
}

TEST_CASE("what rehearse does not take") {
  const Visit visit;
  CHECK(run({"rehearse", "--content", kContent}).status == 2);
  CHECK(of_lesson({}).status == 2);
  CHECK(of_lesson({"--children", "20"}).status == 2);
  CHECK(of_lesson({"--minutes", "20"}).status == 2);
  struct Row {
    const char *option, *value;
  };
  for (const Row& row : {Row{"--children", "0"}, Row{"--children", "61"}, Row{"--minutes", "0"},
                         Row{"--minutes", "601"}, Row{"--adults", "21"}, Row{"--visits", "0"},
                         Row{"--visits", "100001"}, Row{"--seed", "-1"}, Row{"--seed", "x"},
                         Row{"--language", "fr"}, Row{"--lesson", "window-garden"}}) {
    CAPTURE(row.option);
    CAPTURE(row.value);
    CHECK(visit.rehearse({row.option, row.value}).status == 2);
  }
  const Result gone = run({"rehearse", "--lesson", "gone", "--children", "20", "--minutes", "40",
                           "--content", kContent});
  CHECK(gone.status == 2);
  CHECK(gone.err ==
        "trowelbell: there is no lesson \"gone\" in the content; it has window-garden\n");
  CHECK(run({"rehearse", "--brief", visit.folder.at("gone"), "--content", kContent}).status == 1);
  CHECK(
      of_lesson({"--children", "20", "--minutes", "40", "--content", visit.folder.at("")}).status ==
      2);
}
