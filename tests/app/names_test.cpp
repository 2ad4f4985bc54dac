// First names: on the lead's phone only, and gone when promised.
#include "app/names.h"

#include <doctest/doctest.h>

#include "tests/app/demo_visit.h"

namespace trowelbell {
namespace {

constexpr std::int64_t kDay = 24 * 3600 * std::int64_t{1000};
// Found nowhere else.
constexpr const char* kPlanted = "Quizzlewick";

void plant(DemoPhone& phone) {
  REQUIRE(phone.tap("brief.go"));
  REQUIRE(phone.tap("tab.room"));
  REQUIRE(phone.tap("room.names"));
  CHECK_FALSE(phone.screen.find_id("names.place.3"));  // not before the school's word
  REQUIRE(phone.tap("names.allowed"));
  phone.type("names.place.3", kPlanted);
  REQUIRE(phone.tap("panel.back"));
}

bool found(std::string_view text) {
  return text.find(kPlanted) != std::string_view::npos;
}

std::size_t found_in(const MemoryStore& store) {
  std::size_t count = 0;
  for (const char* stream : {"app", "outbox", "visit-demo-room"}) {
    for (const std::string& record : store.records(stream)) count += found(record);
  }
  return count;
}

SendResult confirm(std::string_view path, std::string_view /*bearer*/, std::string_view body) {
  const auto parts = path.substr(path.rfind('/') + 1);
  const Json document = Json::parse(body);
  return {.status = 201,
          .body = Json{{"visit", document["visit"]},
                       {"device", document["device"]},
                       {"revision", std::stoll(std::string(parts))},
                       {"digest", sha256_hex(body)},
                       {"received_at", demo_brief().start_ms()}}
                      .dump(),
          .sent_digest = "",
          .retry_after_seconds = -1};
}

TEST_CASE(
    "a name stands at its place, is there after another opening, and in nothing that leaves") {
  MemoryStore store;
  {
    DemoPhone phone(store);
    phone.open();
    plant(phone);
    CHECK(phone.name("room.place.3") == "Place 3, Quizzlewick: not counted yet");
  }
  DemoPhone phone(store);
  phone.open("");
  REQUIRE(phone.tap("brief.go"));
  REQUIRE(phone.tap("tab.room"));
  REQUIRE(phone.tap("room.place.3"));
  CHECK(phone.name("room.place.3") == "Place 3, Quizzlewick: absent");
  REQUIRE(phone.tap("tab.lesson"));
  REQUIRE(phone.tap("lesson.start"));
  REQUIRE(phone.tap("tab.report"));
  for (const char* tap : {"report.save", "report.journal", "report.send"}) REQUIRE(phone.tap(tap));
  for (const SavedFile& file : phone.host.saved) CHECK_FALSE(found(file.name + file.text));
  for (const std::string& body : phone.host.sent_bodies) CHECK_FALSE(found(body));
  CHECK(found_in(store) == 0);
  CHECK(found(store.names));
}

TEST_CASE("names go when the report is received, not before") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  plant(phone);
  REQUIRE(phone.tap("tab.lesson"));
  REQUIRE(phone.tap("lesson.start"));
  REQUIRE(phone.tap("tab.report"));
  REQUIRE(phone.tap("report.send"));
  CHECK(found(store.names));
  phone.host.network = confirm;
  phone.pass(10 * 60'000);
  REQUIRE(phone.name("report.sent.demo-room.2").starts_with("Received"));
  CHECK(store.names.empty());
  REQUIRE(phone.tap("tab.room"));
  CHECK(phone.name("room.place.3") == "Place 3, not counted yet");
  REQUIRE(phone.tap("room.names"));
  CHECK(phone.screen.find_id("names.late"));
  CHECK_FALSE(phone.screen.find_id("names.allowed"));
}

TEST_CASE("names go after seven days, on an open page and on a closed one") {
  for (const bool closed : {false, true}) {
    CAPTURE(closed);
    MemoryStore store;
    DemoPhone phone(store);
    phone.open();
    plant(phone);
    phone.pass(Names::kKeptMs - 60'000);
    CHECK(found(store.names));
    if (closed) {
      DemoPhone later(store);
      later.host.set_wall(demo_brief().start_ms() + Names::kKeptMs);
      later.open("");
    } else {
      phone.pass(120'000);
    }
    CHECK(store.names.empty());
  }
}

TEST_CASE("names go at once by one tap") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  plant(phone);
  REQUIRE(phone.tap("room.names"));
  REQUIRE(phone.tap("names.wipe"));
  CHECK(store.names.empty());
  CHECK_FALSE(phone.screen.find_id("names.place.3"));
}

TEST_CASE("the file: back as it was; set back clocks do not lengthen it; damage empties it") {
  Names names;
  const std::int64_t now = 100 * kDay;
  names.set("a", 1, "Ana", now);
  names.set("b", 60, "Bo", now + kDay);
  Names again;
  again.load(names.text(), now + 2 * kDay);
  CHECK(again.of("a", 1) == "Ana");
  CHECK(again.of("b", 60) == "Bo");
  CHECK(again.text() == names.text());
  // The clock goes back fifty days: seven from then on, not fifty-seven.
  again.load(names.text(), now - 50 * kDay);
  CHECK(again.any("a"));
  CHECK(again.wipe_old(now - 43 * kDay));
  CHECK(again.empty());
  for (const char* damaged : {"", "[]", "{\"a\":3}", "{\"a\":{\"until\":\"x\"}}", "{\"a\":{"}) {
    again.load(damaged, now);
    CHECK(again.empty());
    CHECK(again.text().empty());
  }
  names.set("a", 1, "", now);
  CHECK_FALSE(names.any("a"));
}

}  // namespace
}  // namespace trowelbell
