#include "command.h"

using namespace trowelbell::cli_test;
using trowelbell::Json;

namespace {

const std::string kPhone(16, 'a'), kOtherPhone(16, 'b');

// Three adults for an hour and a half; 22 of 24 children came.
Json report(const std::string& visit, const Json& changes = Json::object()) {
  Json document =
      json_of(R"({"format": "trowelbell.report", "version": 1, "visit": "", "revision": 9,
    "lesson": "window-garden", "school": "Fern Hollow School", "room": "Room 4", "sponsor": "Kettle",
    "date": "2027-03-09", "began_at": 1000000, "ended_at": 6400000, "bell_at": 6500000,
    "steps": [
      {"id": "hello", "planned_seconds": 75, "actual_seconds": 80, "outcome": "done"},
      {"id": "grow", "planned_seconds": 90, "actual_seconds": 0, "outcome": "left_out"}],
    "children": {"places": 24, "present": 20, "late": 1, "absent": 2, "left_early": 1, "unknown": 0},
    "adults": 3, "adult_minutes": 270,
    "kits": {"brought": 27, "given": 22, "spoiled": 1, "with_teacher": 2, "spare": 1, "unaccounted": 1},
    "mishaps": {"spill": 2}, "holds": [], "pages": [], "handover": {}, "ready": {},
    "taken_by": "teacher", "note": "", "events": 40})");
  document["visit"] = visit;
  document["device"] = kPhone;
  document.merge_patch(changes);
  return document;
}

struct Season {
  Folder folder;
  std::string name = folder.at("reports");

  Season() {
    std::filesystem::create_directories(folder.at("reports/april"));
    put("a", report("a"));
    put("b", report("b", {{"sponsor", "Wheel"},
                          {"ended_at", 6600000},
                          {"mishaps", {{"spill", nullptr}, {"unwell", 1}}}}));
    put("april/c",
        report("c", {{"date", "2027-04-01"}, {"school", "=Tansy, \"Bend\""}, {"sponsor", ""}}));
  }
  void put(const std::string& file, const Json& document) const {
    folder.write("reports/" + file + ".json", document);
  }
  Result rollup(std::vector<std::string> more = {}) const {
    more.insert(more.begin(), {"rollup", name});
    return run(more);
  }
  Json answer(std::vector<std::string> more = {}, int status = 0) const {
    more.emplace_back("--json");
    const Result result = rollup(more);
    CHECK(result.status == status);
    return json_of(result.out);
  }
};

const std::vector<std::string> kRate = {"--hour-value", "31.80", "--hour-source",
                                        "a national figure, 2022 data"};

}  // namespace

TEST_CASE("a folder of reports adds up, and so does each grouping") {
  const Season season;
  const Json answer = season.answer();
  CHECK(answer["reports"] == 3);
  CHECK(answer["repeated"] == 0);
  CHECK(answer["left_out"].empty());
  const Json& all = answer["all"];
  CHECK(all["visits"] == 3);
  CHECK(all["children"]["came"] == 66);
  CHECK(all["children"]["absent"] == 6);
  CHECK(all["kits"] == Json({{"brought", 81},
                             {"given", 66},
                             {"spoiled", 3},
                             {"with_teacher", 6},
                             {"spare", 3},
                             {"unaccounted", 3}}));
  CHECK(all["adult_minutes"] == 810);
  CHECK(all["bell"]["ended"] == 3);
  CHECK(all["bell"]["by_bell"] == 2);
  CHECK(all["mishaps"] == Json({{"spill", 4}, {"unwell", 1}}));
  CHECK(all["left_out"] ==
        Json::array({{{"lesson", "window-garden"}, {"step", "grow"}, {"visits", 3}}}));
  CHECK_FALSE(all.contains("value_cents"));
  CHECK_FALSE(answer.contains("rate"));
  CHECK_FALSE(all.contains("sprouts"));
  REQUIRE(answer["by"].size() == 3);
  CHECK(answer["by"]["sponsor"].size() == 3);
  CHECK(answer["by"]["school"].size() == 2);
  CHECK(answer["by"]["month"].size() == 2);
  for (const Json& groups : answer["by"]) {
    std::int64_t came = 0, minutes = 0;
    for (const Json& group : groups) {
      came += group["children"]["came"].get<std::int64_t>();
      minutes += group["adult_minutes"].get<std::int64_t>();
    }
    CHECK(came == 66);
    CHECK(minutes == 810);
  }
  CHECK(season.answer({"--by", "month", "--by", "sponsor"})["by"].size() == 2);
}

TEST_CASE("Wilson intervals stand beside the shares: 8 of 10 is 0.4902 to 0.9433") {
  const Folder folder;
  std::vector<Json> reports;
  for (int i = 0; i < 10; ++i) {
    reports.push_back(report("v" + std::to_string(i), {{"ended_at", i < 8 ? 6400000 : 6500001}}));
  }
  const std::string file = folder.write("all.json", Json(reports));
  const Json share = json_of(run({"rollup", file, "--json"}).out)["all"]["bell"]["by_bell_share"];
  CHECK(share["share"].get<double>() == doctest::Approx(0.8));
  CHECK(std::abs(share["low"].get<double>() - 0.4902) < 0.00005);
  CHECK(std::abs(share["high"].get<double>() - 0.9433) < 0.00005);
  // Rounded outwards, so that no more is claimed than is known.
  CHECK(has(run({"rollup", file}).out,
            "8 of 10 visits that ended: 80.0 %, 95 % interval 49.0 to 94.4 %\n"));
}

TEST_CASE("money only at a stated rate, hours first, the source beside it") {
  const Season season;
  CHECK_FALSE(has(season.rollup().out, "$"));
  const std::string out = season.rollup(kRate).out;
  // Three times 4.5 h at $31.80: three times $143.10.
  CHECK(
      has(out,
          "Adult time        13 h 30 min\n  Volunteer time, valued at $31.80 per hour (a national "
          "figure, 2022 data): $429.30\n"));
  const Json answer = season.answer(kRate);
  CHECK(answer["all"]["value_cents"] == 42'930);
  CHECK(answer["rate"] ==
        Json({{"cents_per_hour", 3180}, {"source", "a national figure, 2022 data"}}));
  CHECK(answer["by"]["month"][0]["value_cents"] == 28'620);

  for (const auto& call : std::vector<std::vector<std::string>>{
           {"--hour-value", "31.80"},
           {"--hour-source", "somebody, 2022"},
           {"--hour-value", "31.8", "--hour-source", "somebody, 2022"},
           {"--hour-value", "0", "--hour-source", "somebody, 2022"},
           {"--hour-value", "31.80", "--hour-source", "somebody"},
           {"--hour-value", "31.80", "--hour-source", "figure 12345"},
           {"--hour-value", "31.80", "--hour-source", "3150"},
           {"--json", "--csv"},
           {"--by", "room"}}) {
    CAPTURE(call.back());
    CHECK(season.rollup(call).status == 2);
  }
}

TEST_CASE(
    "a visit counts once: the newest revision, and of several phones the one that knows most") {
  const Season season;
  season.put("a-old", report("a", {{"revision", 5}, {"adult_minutes", 1}}));
  season.put("b-other",
             report("b", {{"device", kOtherPhone}, {"events", 39}, {"adult_minutes", 2}}));
  season.put(
      "c-other",
      report("c", {{"device", kOtherPhone}, {"events", 99}, {"ended_at", 0}, {"adults", 9}}));
  const Json answer = season.answer();
  CHECK(answer["reports"] == 6);
  CHECK(answer["repeated"] == 1);
  CHECK(answer["all"]["visits"] == 3);
  CHECK(answer["all"]["adult_minutes"] == 810);
  CHECK(answer["several_phones"] ==
        Json::array({{{"visit", "b"}, {"counts", kPhone}, {"others", {kOtherPhone}}},
                     {{"visit", "c"}, {"counts", kPhone}, {"others", {kOtherPhone}}}}));
  const std::string out = season.rollup().out;
  CHECK(has(out, "3 visits from 6 reports\n1 older or repeated report does not count; "));
  CHECK(has(out,
            "visit b was reported by 2 phones; the report of aaaaaaaaaaaaaaaa counts, made of "
            "the most taps\n"));
  CHECK(has(out,
            "visit c was reported by 2 phones; the report of aaaaaaaaaaaaaaaa counts, the only "
            "one that knows the visit's end\n"));
}

TEST_CASE("what cannot be read is told once, and the others count") {
  const Season season;
  season.put("bad", report("d", {{"adults", 0}, {"adult_minutes", -1}}));
  season.folder.write("reports/cut.json", std::string("{\"format\": "));
  season.folder.write("reports/notes.txt", std::string("not looked at"));
  const Result result = season.rollup({"--json"});
  CHECK(result.status == 1);
  const Json answer = json_of(result.out);
  CHECK(answer["all"]["visits"] == 3);
  REQUIRE(answer["left_out"].size() == 2);
  CHECK(answer["left_out"][0]["file"] == season.folder.at("reports/bad.json"));
  CHECK(answer["left_out"][0]["problems"].size() == 1);
  CHECK(answer["left_out"][0]["problems"][0]["pointer"] == "/adults");
  CHECK(
      has(result.err, "left out: " + season.folder.at("reports/bad.json") + ": /adults: must be"));
  CHECK(has(result.err, "left out: " + season.folder.at("reports/cut.json") + ": the file "));
  CHECK(has(season.rollup().out,
            "2 reports could not be read and were left out: see the messages\n"));
  CHECK(run({"rollup", season.folder.at("reports/bad.json")}).status == 1);
  CHECK(run({"rollup", season.folder.at("gone")}).status == 1);
  CHECK(run({"rollup", "-", "-"}).status == 2);
  CHECK(run({"rollup"}).status == 2);
}

TEST_CASE("reports come one a file, in an array, one a line, or by standard input") {
  const std::string one = trowelbell::dump_json(report("a")),
                    two = trowelbell::dump_json(report("b"));
  const auto visits = [](const std::string& input, int status = 0) {
    const Result result = run({"rollup", "-", "--json"}, input);
    CHECK(result.status == status);
    return status == 1 && result.out.empty() ? Json(0) : json_of(result.out)["all"]["visits"];
  };
  CHECK(visits(one) == 1);
  CHECK(visits(one + "\n") == 1);
  CHECK(visits(report("a").dump(2)) == 1);
  CHECK(visits(one + "\n" + two) == 2);
  CHECK(visits(one + "\r\n\r\n" + two + "\r\n") == 2);
  CHECK(visits("[" + one + "," + two + "]") == 2);
  CHECK(visits(" \n[]", 1) == 0);
  CHECK(visits("", 1) == 0);
  CHECK(visits("[" + one + ",3]", 1) == 1);
  CHECK(has(run({"rollup", "-"}, "[" + one + ",{}]").err, "left out: standard input: /1"));
  CHECK(visits(one + "\nno report\n" + two, 1) == 2);
  CHECK(has(run({"rollup", "-"}, one + "\n{}\n").err, "left out: standard input: line 2"));
}

TEST_CASE("the table for spreadsheets") {
  const Season season;
  std::vector<std::string> call = kRate;
  call.insert(call.end(), {"--csv", "--by", "school"});
  CHECK(
      season.rollup(call).out ==
      "group,name,visits,places,children_came,children_absent,not_counted,kits_brought,kits_given,"
      "kits_spoiled,kits_with_teacher,kits_spare,kits_unaccounted,adult_minutes,adult_hours,ended,"
      "by_bell,mishaps,mishap spill,mishap unwell,left out window-garden/grow,value_usd,"
      "usd_per_hour,rate_source\r\n"
      "all,,3,72,66,6,0,81,66,3,6,3,3,810,13.50,3,2,5,4,1,3,429.30,31.80,\"a national figure, "
      "2022 data\"\r\n"
      "school,\"'=Tansy, \"\"Bend\"\"\",1,24,22,2,0,27,22,1,2,1,1,270,4.50,1,1,2,2,0,1,143.10,"
      "31.80,\"a national figure, 2022 data\"\r\n"
      "school,Fern Hollow School,2,48,44,4,0,54,44,2,4,2,2,540,9.00,2,1,3,2,1,2,286.20,31.80,\"a "
      "national figure, 2022 data\"\r\n");
}

TEST_CASE("what teachers told of sprouts") {
  const Season season;
  const auto told = [&](const std::string& text) {
    return season.folder.write("sprouts.csv", text);
  };
  const Json answer = season.answer(
      {"--sprouts", told("children,told on,visit,sprouted\r\n10,3/22,a,8\r\n5,,gone,5\r\n")});
  const Json& sprouts = answer["all"]["sprouts"];
  CHECK(sprouts["visits"] == 1);
  CHECK(sprouts["sprouted"] == 8);
  CHECK(sprouts["children"] == 10);
  CHECK(std::abs(sprouts["sprout_share"]["low"].get<double>() - 0.4902) < 0.00005);
  CHECK(answer["sprouts_without_report"] == Json::array({"gone"}));
  const std::string out = season.rollup({"--sprouts", season.folder.at("sprouts.csv")}).out;
  CHECK(has(out, "as teachers told of 1 visit: 8 of 10 children have one: 80.0 %, "));
  CHECK(has(out, "sprouts were told of visit gone, of which there is no report"));

  const Result bad = season.rollup(
      {"--json", "--sprouts",
       told("visit,sprouted,children\na,11,10\nb,-1,10\nc,7,61\na,1\nb,2,3\nb,3,3\nc,x,3\n")});
  CHECK(bad.status == 1);
  CHECK(json_of(bad.out)["all"]["sprouts"]["sprouted"] == 2);
  CHECK(json_of(bad.out)["sprouts_left_out"] == 6);
  for (const char* line :
       {"row 2/sprouted: ", "row 3/sprouted: ", "row 4/children: ", "row 5/children: ",
        "row 7/visit: \"b\" has one row already", "row 8/sprouted: "}) {
    CAPTURE(line);
    CHECK(has(bad.err, line));
  }
  CHECK(season.rollup({"--sprouts", told("visit,children\na,1\n")}).status == 1);
  CHECK(season.rollup({"--sprouts", told("")}).status == 1);
  CHECK(season.rollup({"--sprouts", told("visit,sprouted,children\n\"a,1,1\n")}).status == 1);
  CHECK(season.rollup({"--sprouts", season.folder.at("gone")}).status == 1);
  CHECK(run({"rollup", "-", "--sprouts", "-"}).status == 2);
}

TEST_CASE(
    "it counts what was done and claims nothing else; hostile names do not steer the terminal") {
  const Season season;
  const std::string out = season.rollup().out;
  CHECK(has(out, "They do not say what children learned.\n"));
  CHECK(has(out, "Children reached  66; 6 absent, 0 not counted\n"));
  CHECK(has(out, "(none) "));
  CHECK(has(out, "By sponsor"));
  CHECK(has(out, "By school"));
  CHECK(has(out, "By month"));
  std::vector<std::string> call = kRate;
  call[3] = "\x1b[31m 2022";
  CHECK_FALSE(has(season.rollup(call).out, "\x1b"));
}
