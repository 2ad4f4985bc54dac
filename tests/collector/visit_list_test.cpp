#include "collector/visit_list.h"

#include <doctest/doctest.h>

#include "collector/schema.h"
#include "collector/visit_book.h"
#include "support.h"

namespace trowelbell::collector {
namespace {

using namespace testing;

Json list(House& house, const std::string& query = "") {
  const Response response = house.ask(get("/v1/visits" + query, kCoordinatorKey));
  REQUIRE(response.status == 200);
  return body_of(response);
}

void send(House& house, const Json& document, const std::string& key) {
  const std::string target =
      report_path(document["visit"], document["device"], document["revision"]);
  REQUIRE(house.ask(put(target, dump_json(document), key)).status == 201);
}

}  // namespace

TEST_CASE("the list shows every visit, what its newest report says, and who is awaited") {
  House house;
  send(house, report("fern-k1"), kKey);
  const Json answer = list(house);
  REQUIRE(answer["visits"].size() == 2);
  const Json& newest = answer["visits"][0];  // by date, the newest first
  CHECK(newest["visit"] == "tansy-k2");
  CHECK(newest["date"] == "2027-03-09");
  CHECK(newest["latest"].is_null());
  CHECK(newest["reports"] == 0);
  const Json& reported = answer["visits"][1];
  CHECK(reported["visit"] == "fern-k1");
  CHECK(reported["school"] == "Fern Hollow School");
  CHECK(reported["room"] == "K1");
  CHECK(reported["sponsor"] == "Quiet Kettle Tea Company");
  CHECK(reported["start"] == "09:00");
  CHECK(reported["bell"] == "09:45");
  CHECK(reported["children"] == 20);
  CHECK(reported["reports"] == 1);
  const Json& latest = reported["latest"];
  CHECK(latest["received_at"] == 1'000'000);
  CHECK(latest["came"] == 18);
  CHECK(latest["children"]["absent"] == 2);
  CHECK(latest["kits"]["given"] == 18);
  CHECK(latest["mishaps"] == Json{{"spill", 2}, {"soil-hands", 1}});
  CHECK(latest["taken_by"] == "teacher");
  CHECK(answer["totals"] == Json{{"visits", 2},
                                 {"reported", 1},
                                 {"waiting", 1},
                                 {"came", 18},
                                 {"present", 15},
                                 {"absent", 2},
                                 {"kits_given", 18},
                                 {"mishaps", 3},
                                 {"adult_minutes", 180}});
  CHECK_FALSE(answer.contains("next"));
}

TEST_CASE("a visit counts once in the totals, with its newest report") {
  House house;
  send(house, report("fern-k1"), kKey);
  Json second = report("fern-k1", kDevice, 2);
  second["adult_minutes"] = 200;
  send(house, second, kKey);
  send(house, report("tansy-k2"), kOtherKey);
  const Json answer = list(house);
  CHECK(answer["totals"]["adult_minutes"] == 380);
  CHECK(answer["totals"]["reported"] == 2);
  CHECK(answer["visits"][1]["reports"] == 2);
  CHECK(house.ask(get("/v1/health")).status == 200);
  CHECK(body_of(house.ask(get("/v1/health"))) == Json{{"status", "ok"}, {"reports", 3}});
}

TEST_CASE("no answer and no row holds a key") {
  House house;
  send(house, report("fern-k1"), kKey);
  const std::string text = house.ask(get("/v1/visits", kCoordinatorKey)).body;
  CHECK(text.find(kKey) == std::string::npos);
  house.writer->stop();
  house.archive.reset();
  house.writer.reset();
  Database database = Database::for_reading(house.file());
  Statement query(database, "SELECT key_digest FROM visits WHERE visit = 'fern-k1'");
  Rows rows = query.start();
  REQUIRE(rows.next());
  CHECK(rows.bytes(0).size() == 32);
  CHECK(rows.bytes(0).find("key") == std::string_view::npos);
}

TEST_CASE("pages follow each other without gap or repetition, in every view") {
  House house;
  house.writer->stop();
  {
    Database database = Database::for_writing(house.file());
    std::vector<VisitEntry> entries;
    for (int i = 0; i < 25; ++i)
      entries.push_back(
          {"visit-" + std::to_string(i), Digest{}, "2027-04-0" + std::to_string(1 + i % 3), "{}"});
    import_visits(database, entries);
    database.execute("UPDATE visits SET reported = 1 WHERE visit LIKE 'visit-1%'");
  }
  for (const std::string show : {"all", "waiting", "in"}) {
    CAPTURE(show);
    const Json whole = list(house, std::string("?show=") + show);
    Json joined = Json::array();
    std::string after;
    do {
      const Json page = list(house, std::string("?limit=4&show=") + show + "&after=" + after);
      CHECK(page["visits"].size() <= 4);
      for (const Json& visit : page["visits"]) joined.push_back(visit);
      after = page.value("next", "");
    } while (!after.empty());
    CHECK(joined == whole["visits"]);
  }
  CHECK(list(house, "?show=in")["visits"].size() == 11);
  CHECK(list(house, "?show=waiting")["visits"].size() == 16);
}

TEST_CASE("a query out of order is refused") {
  House house;
  for (const std::string query : {"?show=x", "?limit=0", "?limit=1001", "?limit=2x", "?limit=-1",
                                  "?after=x", "?after=2027-13-01.a", "?after=2027-01-01"}) {
    CAPTURE(query);
    CHECK(house.ask(get(std::string("/v1/visits") + query, kCoordinatorKey)).status == 400);
  }
}

TEST_CASE("the newest report comes back byte for byte, with its digest as tag") {
  House house;
  CHECK(house.ask(get("/v1/visits/fern-k1/reports/latest", kCoordinatorKey)).status == 404);
  const std::string body = "  " + dump_json(report("fern-k1")) + "\n";  // as sent, not as we would
  REQUIRE(house.ask(put(report_path("fern-k1"), body)).status == 201);
  Request request = get("/v1/visits/fern-k1/reports/latest", kCoordinatorKey);
  const Response response = house.ask(request);
  CHECK(response.status == 200);
  CHECK(response.body == body);
  CHECK(response.field("ETag") == '"' + hex(sha256(body)) + '"');
  request.if_none_match = std::string(response.field("ETag"));
  CHECK(house.ask(request).status == 304);
  request.method = "HEAD";
  request.if_none_match.clear();
  const Response head = house.ask(request);
  CHECK(head.head);
  CHECK(head.content().size() == body.size());
  request.authorization = "Bearer " + std::string(kKey);
  CHECK(house.ask(request).status == 401);
}

}  // namespace trowelbell::collector
