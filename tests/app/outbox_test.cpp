// What became of each report, on the phone's screen; and what the phone keeps.
#include <doctest/doctest.h>

#include "tests/app/demo_visit.h"

namespace trowelbell {
namespace {

constexpr const char* kGone = R"({"type": "urn:trowelbell:problem:unknown-visit", "status": 404,)"
                              R"( "title": "No such visit", "detail": "Ask your coordinator."})";

SendResult refuse(std::string_view /*path*/, std::string_view /*bearer*/,
                  std::string_view /*body*/) {
  return {.status = 404, .body = kGone, .sent_digest = "", .retry_after_seconds = -1};
}

void send(DemoPhone& phone) {
  REQUIRE(phone.tap("brief.go"));
  REQUIRE(phone.tap("lesson.start"));
  REQUIRE(phone.tap("tab.report"));
  REQUIRE(phone.tap("report.send"));
}

TEST_CASE("a refused report says why and is not thrown away: its very bytes can be saved") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.host.network = refuse;
  phone.open();
  send(phone);
  const std::string id = "report.sent.demo-room.2";
  CHECK(phone.name(id + ".words").find("Ask your coordinator.") != std::string::npos);
  REQUIRE(phone.tap(id + ".save"));
  REQUIRE(phone.host.saved.size() == 1);
  CHECK(phone.host.saved[0].text == phone.host.sent_bodies.at(0));
  // And so it is after another opening.
  DemoPhone again(store);
  again.open("");
  REQUIRE(again.tap("tab.report"));
  REQUIRE(again.tap(id + ".save"));
  CHECK(again.host.saved.at(0).text == phone.host.sent_bodies.at(0));
}

TEST_CASE("every report of the phone is listed with what became of it, also another visit's") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  send(phone);
  phone.pass(60'000);
  REQUIRE(phone.tap("report.send"));
  CHECK(phone.screen.find_id("report.sent.demo-room.3"));
  CHECK(phone.name("report.of.demo-room.2") == "Visit demo-room, report 2");
  Brief other = demo_brief();
  other.visit = "other-room";
  phone.app.open_link("#" + brief_fragment(other));
  phone.screen.pump(phone.app, 6);
  REQUIRE(phone.tap("tab.report"));
  CHECK(phone.screen.find_id("report.empty"));
  CHECK(phone.name("report.of.demo-room.3") == "Visit demo-room, report 3");
  CHECK(phone.name("report.sent.demo-room.3") == "Waiting to be sent");
}

TEST_CASE("the phone says what it keeps, how much that is and for how long") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.host.storage = {2'340'001, false};
  phone.open();
  const std::string words = phone.name("phone.kept");
  CHECK(words.find("this visit with 0 taps, 0 reports") != std::string::npos);
  CHECK(words.find("2.4 megabytes") != std::string::npos);
  CHECK(words.find("may clear it") != std::string::npos);
  phone.host.storage = {-1, true};
  phone.pass(60'000);
  const std::string later = phone.name("phone.kept");
  CHECK(later.find("megabytes") == std::string::npos);
  CHECK(later.find("until you clear") != std::string::npos);
}

}  // namespace
}  // namespace trowelbell
