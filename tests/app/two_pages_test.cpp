// The app open twice on one phone: one page writes, the other looks and can take over.
#include <doctest/doctest.h>

#include "tests/app/demo_visit.h"

namespace trowelbell {
namespace {

// A second page of the phone whose first one writes to `store`.
struct SecondPage : DemoPhone {
  explicit SecondPage(MemoryStore& store) : DemoPhone(store) {
    app.writes_here(false);
    open("");
  }
};

TEST_CASE("a second page shows the visit, says so, and keeps nothing") {
  MemoryStore store;
  DemoPhone first(store);
  first.open();
  REQUIRE(first.tap("brief.go"));
  REQUIRE(first.tap("lesson.start"));
  SecondPage second(store);
  CHECK(second.screen.find_id("lesson.title")->name == first.screen.find_id("lesson.title")->name);
  CHECK(second.screen.find_id("elsewhere.now"));
  CHECK_FALSE(second.screen.find_id("notice.notice.no_store"));

  const std::size_t before = store.acknowledged();
  REQUIRE(second.tap("tab.room"));
  REQUIRE(second.tap("room.place.4"));
  CHECK(second.name("panel.title") == "Open twice");
  REQUIRE(second.tap("panel.back"));
  CHECK(second.name("room.place.4") == "Place 4, not counted yet");
  REQUIRE(second.tap("tab.report"));
  REQUIRE(second.tap("report.send"));
  CHECK(second.host.sent_bodies.empty());
  CHECK(store.acknowledged() == before);
}

TEST_CASE("it follows what the first page records") {
  MemoryStore store;
  DemoPhone first(store);
  first.open();
  SecondPage second(store);
  REQUIRE(first.tap("brief.go"));
  REQUIRE(first.tap("tab.room"));
  REQUIRE(first.tap("room.place.4"));
  REQUIRE(second.tap("brief.go"));
  REQUIRE(second.tap("tab.room"));
  CHECK(second.name("room.place.4") == "Place 4, not counted yet");
  second.host.refresh();
  second.screen.pump(second.app);
  CHECK(second.name("room.place.4") == first.name("room.place.4"));
  CHECK(second.screen.find_id("room.title"));
}

TEST_CASE("taking over, it records; the first page then looks") {
  MemoryStore store;
  DemoPhone first(store);
  first.open();
  REQUIRE(first.tap("brief.go"));
  REQUIRE(first.tap("tab.room"));
  REQUIRE(first.tap("room.place.4"));
  SecondPage second(store);
  REQUIRE(second.tap("brief.go"));
  REQUIRE(second.tap("tab.room"));
  REQUIRE(second.tap("room.place.5"));
  REQUIRE(second.tap("elsewhere.here"));
  first.app.writes_here(false);
  CHECK_FALSE(second.screen.find_id("elsewhere.now"));
  REQUIRE(second.tap("room.place.5"));
  CHECK(second.name("room.place.4") == "Place 4, absent");
  CHECK(second.name("room.place.5") == "Place 5, absent");

  // The first one's next tap asks; back there, it has what the second one recorded.
  REQUIRE(first.tap("room.place.6"));
  CHECK(first.name("panel.title") == "Open twice");
  REQUIRE(first.tap("elsewhere.here"));
  CHECK(first.name("room.place.5") == "Place 5, absent");
  CHECK(first.name("room.place.6") == "Place 6, not counted yet");
  REQUIRE(first.tap("room.place.6"));
  DemoPhone again(store);
  again.open("");
  REQUIRE(again.tap("brief.go"));
  REQUIRE(again.tap("tab.room"));
  for (const char* place : {"4", "5", "6"})
    CHECK(again.name("room.place." + std::string(place)) ==
          "Place " + std::string(place) + ", absent");
}

TEST_CASE("another visit's link in a second page opens there and is the phone's once taken over") {
  MemoryStore store;
  DemoPhone first(store);
  first.open();
  Brief other = demo_brief();
  other.visit = "other-room";
  other.room = "Room 4";
  SecondPage second(store);
  second.app.open_link("#" + brief_fragment(other));
  second.screen.pump(second.app, 4);
  CHECK(second.name("brief.title") == "Room 4, Quillback School");
  REQUIRE(second.tap("elsewhere.go"));
  second.screen.pump(second.app, 4);
  REQUIRE(second.tap("brief.go"));
  DemoPhone again(store);
  again.open("");
  CHECK(again.name("brief.title") == "Room 4, Quillback School");
}

TEST_CASE("a second page leaves the outbox to the first") {
  MemoryStore store;
  DemoPhone first(store);
  first.open();
  REQUIRE(first.tap("brief.go"));
  REQUIRE(first.tap("lesson.start"));
  REQUIRE(first.tap("tab.report"));
  REQUIRE(first.tap("report.send"));
  SecondPage second(store);
  second.pass(10 * 60'000);
  CHECK(second.host.sent_bodies.empty());
}

}  // namespace
}  // namespace trowelbell
