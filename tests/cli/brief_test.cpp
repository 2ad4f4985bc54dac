#include "core/brief.h"

#include <set>

#include "command.h"

using namespace trowelbell::cli_test;
using trowelbell::Json;

namespace {

std::vector<std::string> one(std::vector<std::string> more) {
  std::vector<std::string> call = {"brief", kCounty, "--visit", kVisit};
  call.insert(call.end(), more.begin(), more.end());
  return call;
}

}  // namespace

TEST_CASE("all briefs of the demo county are made, whatever their schools' days come from") {
  const Result all = run({"brief", kCounty, "--json"});
  REQUIRE(all.status == 0);
  const Json briefs = json_of(all.out)["briefs"];
  CHECK(briefs.size() == 6);
  for (const Json& made : briefs) {
    const Json& brief = made["brief"];
    CAPTURE(brief["visit"]);
    CHECK(brief["utc_offset_minutes"] == -420);
    CHECK(brief["closed"].size() >= 2);
  }
}

TEST_CASE("keys are made once and kept") {
  const Folder folder;
  const std::string keys = folder.at("keys.json");
  const Result first = run({"brief", kCounty, "--keys", keys, "--json"});
  const Result second = run({"brief", kCounty, "--keys", keys, "--json"});
  CHECK(first.status == 0);
  CHECK(first.out == second.out);
  std::set<std::string> different;
  const Json printed = json_of(first.out);
  for (const Json& made : printed["briefs"]) {
    const std::string key = made["brief"]["key"];
    CHECK(key.size() == 32);
    CHECK(json_of(file_text(keys))["keys"][made["brief"]["visit"].get<std::string>()] == key);
    different.insert(key);
  }
  CHECK(different.size() == printed["briefs"].size());
  CHECK(different.size() > 1);
  using std::filesystem::perms;
  CHECK(std::filesystem::status(keys).permissions() == (perms::owner_read | perms::owner_write));
  CHECK(run({"brief", kCounty, "--json"}).out != first.out);
}

TEST_CASE("a keys file that cannot be read stops everything and stays as it is") {
  const Folder folder;
  for (const char* text :
       {"", "{", R"({"format":"trowelbell.keys","version":1,"keys":{"fern-hollow-room-4":7}})"}) {
    const std::string keys = folder.write("keys.json", std::string(text));
    const Result result = run({"brief", kCounty, "--keys", keys});
    CHECK(result.status == 1);
    CHECK(result.out.empty());
    CHECK(has(result.err, "keys.json: "));
    CHECK(file_text(keys) == text);
  }
}

TEST_CASE("files, links and JSON hold the same brief") {
  const Folder folder;
  const Result result = run(one({"--out", folder.at("made/briefs"), "--link",
                                 "https://visits.example/", "--keys", folder.at("k"), "--json"}));
  REQUIRE(result.status == 0);
  CHECK(result.err.empty());
  const Json made = json_of(result.out)["briefs"][0];
  CHECK(made["file"] == folder.at("made/briefs/" + kVisit + ".brief.json"));
  CHECK(json_of(file_text(made["file"])) == made["brief"]);
  const std::string link = made["link"];
  CHECK(link.rfind("https://visits.example/#b=", 0) == 0);
  trowelbell::Problems problems;
  const auto opened = trowelbell::brief_from_fragment(link, problems);
  REQUIRE(opened.has_value());
  CHECK(trowelbell::brief_json(*opened) == made["brief"]);
}

TEST_CASE("a visit is moved with the length of its slot") {
  const Result result = run(one({"--date", "2027-03-16", "--start", "13:30"}));
  CHECK(result.status == 0);
  CHECK(result.out ==
        "fern-hollow-room-4: Fern Hollow School, Room 4, 2027-03-16 13:30 to 14:15, 24 children, 4 "
        "adults, 27 kits\n");
  CHECK(has(result.err, "with --keys FILE a second run gives the same ones"));
  CHECK(has(run(one({"--date", "2027-03-13"})).err, "2027-03-13 is a weekend or a closed day"));
}

TEST_CASE("what the call may not ask") {
  const std::vector<std::string> calls[] = {
      {"--start", "now"},           {"--start", "9:05"},
      {"--date", "today"},          {"--date", "2027-02-29"},
      {"--link", "visits.example"}, {"--link", "https://visits.example/#x"}};
  for (const auto& call : calls) {
    CAPTURE(call.back());
    const Result result = run(one(call));
    CHECK(result.status == 2);
    CHECK(result.out.empty());
  }
}

TEST_CASE("what the input may not be") {
  const Folder folder;
  CHECK(run({"brief", kCounty, "--visit", "no-such-visit"}).status == 1);
  CHECK(has(run(one({"--start", "23:30"})).err, "after midnight"));
  CHECK(run({"brief", folder.at("gone.json")}).status == 1);
  CHECK(run({"brief", "-"}, "{}").status == 1);
  CHECK(run({"brief", "-", "--visit", kVisit}, file_text(kCounty)).status == 0);
  // A folder that cannot be made: a file stands in its way.
  folder.write("taken", std::string("x"));
  const Result blocked = run(one({"--out", folder.at("taken")}));
  CHECK(blocked.status == 1);
  CHECK(has(blocked.err, "cannot be written"));
}
