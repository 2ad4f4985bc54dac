// Supplies of the demo county and of spreadsheets. Common practice behind the figures: two seeds of
// each of two kinds and four cotton balls a child, a third of a stem, a few spare kits.
#include "command.h"

using namespace trowelbell::cli_test;
using trowelbell::Json;

namespace {

const Json& by_id(const Json& list, const std::string& id) {
  for (const Json& entry : list) {
    if (entry["id"] == id) return entry;
  }
  FAIL("no entry \"" << id << "\"");
  return list;
}

Result supplies(std::vector<std::string> more, const std::string& input = "") {
  more.insert(more.begin(), {"supplies", "--content", kContent});
  return run(more, input);
}

Json order(std::vector<std::string> more, const std::string& input = "") {
  more.emplace_back("--json");
  const Result result = supplies(std::move(more), input);
  REQUIRE_MESSAGE(result.status == 0, result.err);
  const Json orders = json_of(result.out)["orders"];
  REQUIRE(orders.size() == 1);
  return orders[0];
}

// One visit of 24 children with three spare kits, four tables, four adults.
std::string brief_in(const Folder& folder) {
  return folder.write("brief.json", demo_brief());
}

const std::string kHeads = "visit,date,lesson,children,adults,tables,kits,spares\r\n";
const std::string kSeason = kHeads +
                            "b,2027-03-11,window-garden,20,3,3,,2\r\n"
                            "a,2027-03-09,window-garden,24,4,4,27,\r\n";

}  // namespace

TEST_CASE("the packing table of one visit") {
  const Folder folder;
  const std::string brief = brief_in(folder);
  const Json answer = order({"--brief", brief});
  CHECK(answer["children"] == 24);
  CHECK(answer["spares"] == 3);
  REQUIRE(answer["visits"].size() == 1);
  const Json& items = answer["visits"][0]["items"];
  CHECK(by_id(items, "bean-seeds")["pieces"] == 54);
  CHECK(by_id(items, "pea-seeds")["pieces"] == 54);
  CHECK(by_id(items, "cotton-balls")["pieces"] == 108);
  CHECK(by_id(items, "stem")["taken"] == 9);
  CHECK(by_id(answer["items"], "cotton-balls")["order"] == Json{{{"size", 100}, {"packs", 2}}});
  const Result words = supplies({"--brief", brief});
  CHECK(has(words.out, "1 visit, 24 children, 3 spare kits"));
  CHECK(has(words.out, "In each of 27 kits:\n    2 x bean seeds, untreated (count 54)\n"));
  CHECK(has(words.out, "fuzzy stem, one third for a hanger (count 27; cut 9 in thirds)\n"));
  CHECK(has(words.out, "On each of 4 tables:\n    1 x tray (count 4; bring back)\n"));
  // No spare kits: 24 stems' thirds from 8.
  CHECK(has(supplies({"--brief", brief, "--spares", "0"}).out, "(count 24; cut 8 in thirds)\n"));
}

TEST_CASE("a season's spreadsheet is walked by date, and leftovers go on") {
  const Folder folder;
  const Json season = order({"--season", folder.write("season.csv", kSeason)});
  REQUIRE(season["visits"].size() == 2);
  CHECK(season["visits"][0]["visit"] == "a");
  CHECK(season["visits"][0]["spares"] == 3);  // kits less children
  CHECK(season["visits"][1]["spares"] == 2);
  const Json& stem = by_id(season["visits"][1]["items"], "stem");
  CHECK(stem["pieces"] == 22);
  CHECK(stem["left"] == Json{{"pieces", 8}, {"parts", 2}});  // 27 and 22 pieces from 17 of 25
  CHECK(by_id(season["items"], "stem")["order"] == Json{{{"size", 25}, {"packs", 1}}});
  CHECK(by_id(season["items"], "tray")["order"] == Json{{{"size", 1}, {"packs", 4}}});
  const Result words = supplies({"--season", folder.at("season.csv")});
  CHECK(has(words.out,
            "  bean seeds, untreated                           2 packs of 50, before "
            "2027-03-09\n"));
  CHECK(has(words.out, "    bean seeds, untreated: buy 2 packs of 50; 46 left\n"));
  CHECK(has(words.out, "    bean seeds, untreated: 2 left\n"));
  const Json later =
      order({"--season", folder.at("season.csv"), "--from", "2027-03-10", "--spares", "1"});
  REQUIRE(later["visits"].size() == 1);
  CHECK(later["visits"][0]["spares"] == 1);
  CHECK(order({"--season", "-"}, kSeason) == season);
}

TEST_CASE("the visits of a county, and of several files together") {
  const Folder folder;
  const Json county = order({"--county", kCounty});
  CHECK(county["visits"].size() == 6);
  CHECK(county["children"] == 24 + 22 + 20 + 26 + 18 + 23);
  // Two rooms of four tables on one morning: eight trays, though no room has more than five tables.
  CHECK(by_id(county["items"], "tray")["order"] == Json{{{"size", 1}, {"packs", 8}}});
  CHECK(order({"--county", kCounty, "--season", folder.write("s.csv", kSeason)})["visits"].size() ==
        8);
  const Result twice = supplies({"--county", kCounty, "--brief", brief_in(folder)});
  CHECK(twice.status == 1);
  CHECK(twice.out.empty());
  CHECK(has(twice.err, "visit fern-hollow-room-4: is there more than once"));
}

TEST_CASE("what is on the shelf is taken off the order") {
  const Folder folder;
  const std::string brief = brief_in(folder);
  const std::string shelf = folder.write(
      "shelf.csv", std::string("id,pieces,parts\nbean-seeds,60,\nstem,2,5\ntray,4,\n"));
  const Json answer = order({"--brief", brief, "--stock", shelf});
  CHECK(by_id(answer["items"], "bean-seeds")["order"].empty());
  CHECK(by_id(answer["items"], "bean-seeds")["left"]["pieces"] == 6);
  CHECK(by_id(answer["items"], "tray")["order"].empty());
  // 27 pieces: 5 parts and 22 from 8 stems, of which 2 are there; 25 are bought, 19 and 2 parts
  // left.
  CHECK(by_id(answer["visits"][0]["items"], "stem")["old_parts"] == 5);
  CHECK(by_id(answer["items"], "stem")["left"] == Json{{"pieces", 19}, {"parts", 2}});
  CHECK(has(supplies({"--brief", brief, "--stock", shelf}).out,
            "(count 27; take 5 cut parts left from before; cut 8 in thirds, keep 2 cut parts)"));
  for (const char* bad :
       {"id,pieces\nno-such-item,1\n", "id,pieces\ntray,1\ntray,2\n", "id,pieces\ntray,-1\n",
        "id,pieces,parts\ntray,1,2\n", "id,pieces\ntray,\n", "id\ntray\n"}) {
    CAPTURE(bad);
    const Result result =
        supplies({"--brief", brief, "--stock", folder.write("bad.csv", std::string(bad))});
    CHECK(result.status == 1);
    CHECK(result.out.empty());
    CHECK(has(result.err, "bad.csv: row "));
  }
}

TEST_CASE("several pack sizes: the cheapest order, with its price") {
  const Folder folder;
  const std::string content = folder.at("content");
  std::filesystem::copy(kContent, content, std::filesystem::copy_options::recursive);
  const std::string file = content + "/lessons/window-garden.json";
  Json lesson = json_of(file_text(file));
  for (Json& item : lesson["kit"]) {
    if (item["id"] != "cotton-balls") continue;
    item.erase("pack");
    item["packs"] = {{{"size", 50}, {"price_cents", 120}}, {{"size", 300}, {"price_cents", 330}}};
  }
  std::ofstream(file) << lesson.dump();
  const std::string brief = brief_in(folder);
  // 108 cotton balls: three packs of 50 are 3.60, one of 300 is 3.30.
  const Result words = run({"supplies", "--content", content, "--brief", brief});
  CHECK(has(words.out,
            "cotton balls                                    1 pack of 300, before "
            "2027-03-09, $3.30\n"));
  const Result json = run({"supplies", "--content", content, "--brief", brief, "--json"});
  CHECK(by_id(json_of(json.out)["orders"][0]["items"], "cotton-balls")["price_cents"] == 330);
}

TEST_CASE("a spreadsheet with faults is refused whole, each fault with its row") {
  const Folder folder;
  const auto told = [&](const std::string& text, const char* what) {
    CAPTURE(text);
    const Result result = supplies({"--season", folder.write("season.csv", text)});
    CHECK(result.status == 1);
    CHECK(result.out.empty());
    CHECK_MESSAGE(has(result.err, what), result.err);
  };
  told(kHeads + "a,2027-02-29,window-garden,24,4,4,27,\r\n", "season.csv: row 2/date: ");
  told(kSeason + "\r\nc,2027-03-12,window-garden,many,4,4,27,\r\n", "season.csv: row 5/children: ");
  told(kHeads + "a,2027-03-09,window-garden,24,4,4,27,2\r\n", "row 2/spares: must be kits less");
  told(kHeads + "a,2027-03-09,no-such-lesson,24,4,4,27,\r\n", "no lesson \"no-such-lesson\"");
  told(kSeason + "a,2027-03-12,window-garden,24,4,4,27,\r\n", "visit a: is there more than once");
  told("visit;date;lesson;children;adults\r\n", "row 1: has no column \"visit\"");
  told(kHeads, "there are no visits");
  told(kHeads + "a,\"2027-03-09,window-garden", "is not CSV");
  const std::string other =
      "visit,date,lesson,children,adults,spare\r\na,2027-03-09,window-garden,24,4,9\r\n";
  const Result unused = supplies({"--season", folder.write("season.csv", other)});
  CHECK(unused.status == 0);
  CHECK(has(unused.err, "the column \"spare\" is not used"));
}

TEST_CASE("a supplies call at fault is told") {
  const Folder folder;
  const std::string brief = brief_in(folder);
  for (const std::vector<std::string>& more :
       std::vector<std::vector<std::string>>{{},
                                             {"--brief", brief, "--spares", "61"},
                                             {"--brief", brief, "--from", "2027-02-29"},
                                             {"--brief", "-", "--stock", "-"}}) {
    const Result result = supplies(more);
    CHECK(result.status == 2);
    CHECK(result.out.empty());
    CHECK_FALSE(result.err.empty());
  }
  CHECK(supplies({"--brief", folder.at("missing.json")}).status == 1);
}
