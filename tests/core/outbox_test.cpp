#include "core/outbox.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "core/report.h"

using namespace trowelbell;

namespace {

constexpr const char* kDevice = "aaaaaaaaaaaaaaaa";
constexpr const char* kKey = "k3y-only-for-the-header";

std::string digest(char digit) {
  return std::string(64, digit);
}

Json queued(std::int64_t revision, std::string_view body = "{}") {
  return Outbox::enqueue_record("fern-lane", kKey, kDevice, revision, body, 1000 + revision);
}

Outbox outbox_with(std::initializer_list<std::int64_t> revisions) {
  Outbox outbox;
  for (const std::int64_t revision : revisions) CHECK(outbox.apply(queued(revision)));
  return outbox;
}

std::string answer(std::int64_t revision, std::string_view confirmed) {
  return dump_json({{"visit", "fern-lane"},
                    {"device", kDevice},
                    {"revision", revision},
                    {"digest", confirmed},
                    {"received_at", 777}});
}

SendResult result(int status, std::string body = "", std::int64_t retry_after = -1) {
  return {status, std::move(body), digest('a'), retry_after};
}

}  // namespace

TEST_CASE("a report queued, sent and confirmed") {
  Outbox outbox;
  CHECK(outbox.due() == -1);
  CHECK(outbox.next(5000) == nullptr);
  CHECK(outbox.apply(queued(7, R"({"a":1})")));
  REQUIRE(outbox.entries().size() == 1);
  CHECK(outbox.due() == 0);

  const OutboxEntry* entry = outbox.next(5000);
  REQUIRE(entry != nullptr);
  CHECK(entry->delivery == Delivery::sending);
  CHECK(entry->body == R"({"a":1})");
  CHECK(entry->key == kKey);
  CHECK(entry->queued_at == 1007);
  CHECK(report_path(*entry) == "/v1/visits/fern-lane/reports/aaaaaaaaaaaaaaaa/7");
  CHECK(outbox.next(5000) == nullptr);  // one at a time
  CHECK(outbox.due() == -1);

  const Json record = outbox.finish(result(201, answer(7, digest('a'))), 6000, 500);
  CHECK(dump_json(record) == R"({"received":{"device":"aaaaaaaaaaaaaaaa","digest":")" +
                                 digest('a') +
                                 R"(","received_at":777,"revision":7,"visit":"fern-lane"}})");
  CHECK(entry->delivery == Delivery::waiting);  // until the record is durable
  CHECK(outbox.apply(record));
  CHECK(entry->delivery == Delivery::received);
  CHECK(entry->received_at == 777);
  CHECK(entry->digest == digest('a'));
  CHECK(outbox.due() == -1);
  CHECK(outbox.next(INT64_MAX) == nullptr);
  CHECK(outbox.entries().size() == 1);  // kept
}

TEST_CASE("a confirmation must name this report and what was sent") {
  const std::string good = answer(7, digest('a'));
  Json other_visit = Json::parse(good), other_device = other_visit, no_time = other_visit,
       upper = other_visit;
  other_visit["visit"] = "elm-road";
  other_device["device"] = "bbbbbbbbbbbbbbbb";
  no_time.erase("received_at");
  upper["digest"] = std::string(64, 'A');
  const std::string bodies[] = {"",
                                "<html>Sign in to the guest network</html>",
                                "null",
                                "[]",
                                "{}",
                                good.substr(0, good.size() - 1),
                                answer(8, digest('a')),
                                answer(7, digest('b')),
                                answer(7, ""),
                                dump_json(other_visit),
                                dump_json(other_device),
                                dump_json(no_time),
                                dump_json(upper),
                                std::string(100'000, ' ') + good};
  for (const std::string& body : bodies) {
    CAPTURE(body.substr(0, 200));
    Outbox outbox = outbox_with({7});
    outbox.next(0);
    CHECK(outbox.finish(result(200, body), 10'000, 500).is_null());
    CHECK(outbox.find("fern-lane", 7)->delivery == Delivery::waiting);
    CHECK(outbox.due() > 10'000);
  }
  // Nobody said what was sent: nothing can be confirmed.
  Outbox outbox = outbox_with({7});
  outbox.next(0);
  CHECK(outbox.finish({200, answer(7, ""), "", -1}, 0, 0).is_null());
}

TEST_CASE("which statuses are tried again and which refuse") {
  // RFC 9110, section 15; 425 is RFC 8470, 429 is RFC 6585.
  for (const int status : {0, 100, 202, 204, 302, 304, 408, 425, 429, 500, 502, 503, 504, 599}) {
    CAPTURE(status);
    Outbox outbox = outbox_with({7});
    outbox.next(0);
    CHECK(outbox.finish(result(status, answer(7, digest('a'))), 0, 0).is_null());
    CHECK(outbox.find("fern-lane", 7)->delivery == Delivery::waiting);
  }
  for (const int status : {400, 401, 403, 404, 405, 409, 410, 413, 415, 422, 499}) {
    CAPTURE(status);
    Outbox outbox = outbox_with({7});
    outbox.next(0);
    const std::string problem =
        R"({"type":"urn:trowelbell:problem:key","detail":"The key is not this visit's."})";
    const Json record = outbox.finish(result(status, problem), 0, 0);
    CHECK(record == Json{{"refused",
                          {{"visit", "fern-lane"},
                           {"device", kDevice},
                           {"revision", 7},
                           {"status", status},
                           {"detail", "The key is not this visit's."}}}});
    CHECK(outbox.apply(record));
    const OutboxEntry* entry = outbox.find("fern-lane", 7);
    CHECK(entry->delivery == Delivery::refused);
    CHECK(entry->refusal == "The key is not this visit's.");
    CHECK(entry->body == "{}");  // kept for good
    CHECK(outbox.due() == -1);
  }
}

TEST_CASE("a refusal that is not the collector's is none: the report is tried again") {
  // A school's filter, a captive portal, a proxy. "about:blank" is RFC 9457, 4.2.1.
  for (const char* body :
       {"", "<html>", "[1]", "{}", R"({"detail":"No."})", R"({"type":4,"detail":"No."})",
        R"({"type":"about:blank","detail":"No."})", R"({"type":"urn:other:problem:key"})"}) {
    CAPTURE(body);
    Outbox outbox = outbox_with({7});
    outbox.next(0);
    CHECK(outbox.finish(result(403, body), 0, 0).is_null());
    CHECK(outbox.find("fern-lane", 7)->delivery == Delivery::waiting);
  }
}

TEST_CASE("what the collector says is cut to size and made harmless") {
  const std::string wide = "\xE2\x82\xAC";  // three bytes
  std::string long_text, cut;
  for (int i = 0; i < 200; ++i) long_text += wide;
  for (int i = 0; i < 100; ++i) cut += wide;
  struct Row {
    std::string body, expected;
  };
  const Row rows[] = {{R"({})", "HTTP 422"},
                      {R"({"detail":4})", "HTTP 422"},
                      {R"({"detail":"","title":"Unprocessable"})", "Unprocessable"},
                      {dump_json({{"detail", long_text}}), cut},
                      {dump_json({{"detail", "x" + long_text}}), "x" + cut.substr(3)},
                      {R"({"detail":"a\nb\u001b[2Jc\u007f"})", "a b [2Jc "},
                      {R"({"detail":"a\u0085b\u00a0c\u009f"})", "a  b\u00a0c  "}};
  for (const Row& row : rows) {
    CAPTURE(row.body);
    Outbox outbox = outbox_with({7});
    outbox.next(0);
    const std::string type = R"({"type":"urn:trowelbell:problem:key")";
    const std::string body = type + (row.body == "{}" ? "" : ",") + row.body.substr(1);
    const Json record = outbox.finish(result(422, body), 0, 0);
    CHECK(outbox.apply(record));
    CHECK(outbox.find("fern-lane", 7)->refusal == row.expected);
  }
}

TEST_CASE("the pauses double from two seconds to five minutes, a quarter either way") {
  const std::int64_t pauses[] = {2, 4, 8, 16, 32, 64, 128, 256, 300, 300, 300};
  for (const std::int64_t jitter : {0, 500, 999, -5, 5000}) {
    CAPTURE(jitter);
    Outbox outbox = outbox_with({7});
    std::int64_t now = 1'000'000;
    for (const std::int64_t pause : pauses) {
      CAPTURE(pause);
      REQUIRE(outbox.next(now) != nullptr);
      CHECK(outbox.finish(result(0), now, jitter).is_null());
      const std::int64_t wait = outbox.due() - now;
      const double share = static_cast<double>(wait) / static_cast<double>(pause * 1000);
      CHECK(share == doctest::Approx(jitter <= 0     ? 0.75
                                     : jitter == 500 ? 1.0
                                                     : 1.25)
                         .epsilon(0.001));
      CHECK(outbox.next(outbox.due() - 1) == nullptr);
      now = outbox.due();
    }
    CHECK(outbox.find("fern-lane", 7)->attempts == std::size(pauses));
  }
}

TEST_CASE("the collector's Retry-After is obeyed, up to an hour, also in a hurry") {
  struct Row {
    int status;
    std::int64_t retry_after, wait;  // seconds
  };
  const Row rows[] = {{503, 120, 120}, {429, 3600, 3600}, {503, INT64_MAX, 3600},
                      {500, 1, 2},     {0, -1, 2},        {503, 0, 2}};
  for (const Row& row : rows) {
    CAPTURE(row.retry_after);
    Outbox outbox = outbox_with({7});
    outbox.next(0);
    CHECK(outbox.finish(result(row.status, "", row.retry_after), 50'000, 500).is_null());
    CHECK(outbox.due() == 50'000 + row.wait * 1000);
    outbox.hurry();
    if (row.retry_after > 0) {
      CHECK(outbox.due() == 50'000 + std::min<std::int64_t>(row.retry_after, 3600) * 1000);
    } else {
      CHECK(outbox.due() == 0);
    }
  }
}

TEST_CASE("reports go in the order queued; one that must wait holds up no other") {
  Outbox outbox = outbox_with({7, 9, 8});
  CHECK(outbox.next(0)->revision == 7);
  CHECK(outbox.due() == -1);  // 9 could go, but for the one under way
  outbox.finish(result(503, "", 600), 0, 500);
  CHECK(outbox.next(0)->revision == 9);
  outbox.finish(result(0), 0, 500);
  CHECK(outbox.next(0)->revision == 8);
  outbox.finish(result(0), 0, 500);
  CHECK(outbox.next(0) == nullptr);
  CHECK(outbox.due() == 2000);
  CHECK(outbox.next(2000)->revision == 9);
}

TEST_CASE("records come in twice, late, in disorder or broken without harm") {
  Outbox outbox = outbox_with({7});
  const Json received = {{"received",
                          {{"visit", "fern-lane"},
                           {"device", kDevice},
                           {"revision", 7},
                           {"digest", digest('a')},
                           {"received_at", 777}}}};
  const Json refused = {{"refused",
                         {{"visit", "fern-lane"},
                          {"device", kDevice},
                          {"revision", 7},
                          {"status", 401},
                          {"detail", "No."}}}};
  CHECK(outbox.apply(queued(7)));  // the second copy of the store
  CHECK(outbox.entries().size() == 1);
  CHECK_FALSE(outbox.apply(queued(7, R"({"other":1})")));
  CHECK(outbox.find("fern-lane", 7)->body == "{}");

  CHECK(outbox.apply(refused));
  CHECK(outbox.apply(queued(7)));
  CHECK(outbox.find("fern-lane", 7)->delivery == Delivery::refused);
  CHECK(outbox.apply(received));  // it came through after all
  CHECK(outbox.apply(received));
  CHECK(outbox.apply(refused));
  CHECK(outbox.find("fern-lane", 7)->delivery == Delivery::received);
  CHECK(outbox.find("fern-lane", 7)->refusal.empty());

  Json unknown = received;
  unknown["received"]["revision"] = 8;
  Json bad_digest = received;
  bad_digest["received"]["digest"] = "abc";
  Json long_body = queued(9);
  long_body["queued"]["body"] = std::string(kReportLimits.bytes + 1, 'x');
  Json no_key = queued(9);
  no_key["queued"].erase("key");
  const Json broken[] = {unknown,
                         bad_digest,
                         long_body,
                         no_key,
                         nullptr,
                         3,
                         Json::array(),
                         Json::object(),
                         {{"queued", 1}},
                         {{"received", nullptr}},
                         {{"lost", Json::object()}}};
  for (const Json& record : broken) {
    CAPTURE(dump_json(record).substr(0, 100));
    CHECK_FALSE(outbox.apply(record));
    CHECK(outbox.entries().size() == 1);
  }
}

TEST_CASE("pointers stay good while the outbox grows") {
  Outbox outbox = outbox_with({1});
  const OutboxEntry* first = outbox.next(0);
  for (std::int64_t revision = 2; revision < 500; ++revision) outbox.apply(queued(revision));
  CHECK(first == outbox.find("fern-lane", 1));
  CHECK(first->delivery == Delivery::sending);
  CHECK(outbox.find("fern-lane", 500) == nullptr);
  CHECK(outbox.find("elm-road", 1) == nullptr);
}

TEST_CASE("a finish with nothing under way, or settled meanwhile, does nothing") {
  Outbox outbox = outbox_with({7});
  CHECK(outbox.finish(result(201, answer(7, digest('a'))), 0, 0).is_null());
  CHECK(outbox.find("fern-lane", 7)->attempts == 0);
  outbox.next(0);
  CHECK(outbox.apply({{"received",
                       {{"visit", "fern-lane"},
                        {"device", kDevice},
                        {"revision", 7},
                        {"digest", digest('a')},
                        {"received_at", 1}}}}));
  CHECK(outbox.next(0) == nullptr);  // the request is still under way
  CHECK(outbox.finish(result(0), 0, 0).is_null());
  CHECK(outbox.find("fern-lane", 7)->delivery == Delivery::received);
}
