// Every answer to a report, without sockets. Statuses: RFC 9110; problems: RFC 9457.
#include <doctest/doctest.h>

#include "core/report.h"
#include "support.h"

namespace trowelbell::collector {
namespace {

using namespace testing;

std::string good_body(std::int64_t revision = 1) {
  return dump_json(report("fern-k1", kDevice, revision));
}

// RFC 9457, 3.1: the members, their types, and "status" as sent.
void check_problem(const Response& response, int status, const std::string& kind) {
  CHECK(response.status == status);
  CHECK(response.field("Content-Type") == "application/problem+json");
  const Json body = body_of(response);
  CHECK(body["type"] == "urn:trowelbell:problem:" + kind);
  CHECK(body["status"] == status);
  CHECK(body["title"].is_string());
  CHECK(body["detail"].is_string());
  CHECK_FALSE(body["title"].get<std::string>().empty());
  CHECK_FALSE(body["detail"].get<std::string>().empty());
}

}  // namespace

TEST_CASE("a report is stored once, and confirmed as often as it is sent") {
  House house;
  const std::string body = good_body();
  const Response first = house.ask(put(report_path("fern-k1"), body));
  CHECK(first.status == 201);
  CHECK(first.field("Content-Type") == "application/json");
  const Json confirmed = body_of(first);
  CHECK(confirmed == Json{{"visit", "fern-k1"},
                          {"device", kDevice},
                          {"revision", 1},
                          {"digest", hex(sha256(body))},
                          {"received_at", 1'000'000}});

  house.now = 2'000'000;
  const Response again = house.ask(put(report_path("fern-k1"), body));
  CHECK(again.status == 200);
  CHECK(body_of(again) == confirmed);  // RFC 9110, 9.2.2: PUT is idempotent
  CHECK(house.writer->reports() == 1);
}

TEST_CASE("another body at the same address changes nothing") {
  House house;
  const std::string body = good_body();
  house.ask(put(report_path("fern-k1"), body));
  Json other = report("fern-k1");
  other["note"] = "Something else.";
  check_problem(house.ask(put(report_path("fern-k1"), dump_json(other))), 409, "conflict");
  CHECK(house.archive->latest("fern-k1")->body == body);
  CHECK(house.writer->reports() == 1);
}

TEST_CASE("an unknown visit and a wrong key get one and the same answer") {
  House house;
  const Response wrong = house.ask(put(report_path("fern-k1"), good_body(), kOtherKey));
  check_problem(wrong, 401, "key");
  // RFC 9110, 15.5.2: a 401 must name a scheme.
  CHECK(wrong.field("WWW-Authenticate").starts_with("Bearer"));
  const Response unknown = house.ask(put(report_path("no-such-visit"), good_body()));
  CHECK(unknown.status == wrong.status);
  CHECK(unknown.body == wrong.body);
  Request request = put(report_path("fern-k1"), good_body());
  for (const std::string field :
       {"", "Bearer", "Bearer ", "Basic YTpi", "a-key-of-the-first-visit",
        "Bearer  a-key-of-the-first-visit", "Bearer a-key-of-the-first-visi"}) {
    CAPTURE(field);
    request.authorization = field;
    CHECK(house.ask(request).body == wrong.body);
  }
  request.authorization =
      std::string("bearer ") + kKey;  // the scheme's case is free, RFC 9110, 11.1
  CHECK(house.ask(request).status == 201);
  CHECK(house.writer->reports() == 1);
}

TEST_CASE("the coordinator's key does not let anyone write, nor a visit's key read") {
  House house;
  CHECK(house.ask(put(report_path("fern-k1"), good_body(), kCoordinatorKey)).status == 401);
  CHECK(house.ask(get("/v1/visits", kKey)).status == 401);
}

TEST_CASE("only plain JSON is taken") {
  House house;
  Request request = put(report_path("fern-k1"), good_body());
  for (const std::string type :
       {"", "text/plain", "application/jsonp", "application/problem+json"}) {
    CAPTURE(type);
    request.content_type = type;
    check_problem(house.ask(request), 415, "media-type");
  }
  request.content_type = "Application/JSON ; charset=utf-8";
  request.content_encoding = "gzip";
  check_problem(house.ask(request), 415, "media-type");
  request.content_encoding.clear();
  CHECK(house.ask(request).status == 201);
}

TEST_CASE("what is not JSON is refused with the place") {
  House house;
  for (const std::string& body :
       {std::string(), std::string("{"), std::string("{\"a\":1}x"), std::string("\xff\xfe"),
        std::string(1000, '['), good_body().substr(0, 200)}) {
    CAPTURE(body);
    check_problem(house.ask(put(report_path("fern-k1"), body)), 400, "not-json");
  }
  CHECK(house.writer->reports() == 0);
}

TEST_CASE("JSON that is no report is refused with pointers") {
  House house;
  struct Row {
    std::string pointer;  // JSON Pointer, RFC 6901
    Json value;
  };
  const Row rows[] = {
      {"/format", "something.else"},
      {"/version", 2},
      {"/note", std::string(501, 'x')},
      {"/children/present", -1},
      {"/children/present", "15"},
      {"/kits/given", 3.5},
      {"/date", "2027-02-30"},
      {"/taken_by", "a-child"},
      {"/mishaps/spill", 0},
      {"/adults", Json()},
  };
  for (const Row& row : rows) {
    CAPTURE(row.pointer);
    Json document = report("fern-k1");
    document[Json::json_pointer(row.pointer)] = row.value;
    const Response response = house.ask(put(report_path("fern-k1"), dump_json(document)));
    check_problem(response, 422, "not-a-report");
    const Json errors = body_of(response)["errors"];
    REQUIRE(errors.is_array());
    bool named = false;
    for (const Json& error : errors) {
      CHECK(error["detail"].is_string());
      named = named || error["pointer"] == row.pointer;
    }
    CHECK_MESSAGE(named, errors.dump());
  }
  for (const std::string body : {"[]", "null", "3", "{}"}) {
    CAPTURE(body);
    CHECK(house.ask(put(report_path("fern-k1"), body)).status == 422);
  }
  CHECK(house.writer->reports() == 0);
}

TEST_CASE("a hostile document cannot make a huge answer") {
  House house;
  Json document = report("fern-k1");
  for (int i = 0; i < 3000; ++i) document["pages"].push_back("no");
  const Response response = house.ask(put(report_path("fern-k1"), dump_json(document)));
  CHECK(response.status == 422);
  CHECK(body_of(response)["errors"].size() <= kMostProblems);
}

TEST_CASE("a report must be the one its address says") {
  House house;
  const std::pair<std::string, const char*> rows[] = {
      {report_path("fern-k1", "ffffffffffffffff"), "/device"},
      {report_path("fern-k1", kDevice, 2), "/revision"},
  };
  for (const auto& row : rows) {
    CAPTURE(row.first);
    const Response response = house.ask(put(row.first, good_body()));
    check_problem(response, 422, "not-a-report");
    CHECK(body_of(response)["errors"][0]["pointer"] == row.second);
  }
  const Response response = house.ask(put(report_path("tansy-k2"), good_body(), kOtherKey));
  check_problem(response, 422, "not-a-report");
  CHECK(body_of(response)["errors"][0]["pointer"] == "/visit");
  CHECK(house.writer->reports() == 0);
}

TEST_CASE("If-None-Match: * stores only what is not there") {
  // RFC 9110, 13.1.2: a failed condition on PUT is 412.
  House house;
  Request request = put(report_path("fern-k1"), good_body());
  request.if_none_match = "*";
  CHECK(house.ask(request).status == 201);
  check_problem(house.ask(request), 412, "exists");
  CHECK(house.writer->reports() == 1);
}

TEST_CASE("methods that an address does not take, and OPTIONS") {
  // RFC 9110, 15.5.6: a 405 must carry Allow.
  House house;
  struct Row {
    std::string target;
    std::string method;
    std::string allow;
  };
  const Row rows[] = {
      {report_path("fern-k1"), "GET", "PUT, OPTIONS"},
      {report_path("fern-k1"), "POST", "PUT, OPTIONS"},
      {report_path("fern-k1"), "DELETE", "PUT, OPTIONS"},
      {"/v1/visits", "PUT", "GET, HEAD, OPTIONS"},
      {"/v1/health", "POST", "GET, HEAD, OPTIONS"},
      {"/", "DELETE", "GET, HEAD, OPTIONS"},
      {"/v1/visits/fern-k1/reports/latest", "PUT", "GET, HEAD, OPTIONS"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.target);
    Request request = get(row.target, kCoordinatorKey);
    request.method = row.method;
    const Response refused = house.ask(request);
    check_problem(refused, 405, "method");
    CHECK(refused.field("Allow") == row.allow);
    request.method = "OPTIONS";
    const Response options = house.ask(request);
    CHECK(options.status == 204);
    CHECK(options.field("Allow") == row.allow);
    CHECK(options.field("Access-Control-Allow-Origin").empty());  // same origin only
  }
  check_problem(house.ask(get("/v1/nothing")), 404, "not-found");
}

TEST_CASE("a full visit turns further reports away but still confirms what it has") {
  House house(4000);
  std::vector<NewReport> reports;
  for (std::int64_t revision = 1; revision <= 2000; ++revision)
    reports.push_back({"fern-k1", kDevice, revision, "{}", "digest", 1, "{}", {}, false});
  const auto ignore = [](const Outcome&) {};
  for (const NewReport& one : reports) REQUIRE(house.writer->submit(one, ignore));
  const Response full = house.ask(put(report_path("fern-k1", kDevice, 5000), good_body(5000)));
  check_problem(full, 429, "too-many");
  CHECK_FALSE(full.field("Retry-After").empty());
  CHECK(house.writer->reports() == 2000);
  CHECK(keep(*house.writer, reports[7]).kept == Kept::already);
}

}  // namespace trowelbell::collector
