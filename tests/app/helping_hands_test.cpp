// What helps a busy hand: the chime's switch, large letters, the left hand, and practice.
#include <doctest/doctest.h>

#include "tests/app/demo_visit.h"

namespace trowelbell {
namespace {

void begin_lesson(DemoPhone& phone) {
  REQUIRE(phone.tap("brief.go"));
  REQUIRE(phone.tap("lesson.start"));
}

// One tap of the large button, after the guard against slips.
void lead_on(DemoPhone& phone) {
  phone.pass(1000);
  if (!phone.tap("lesson.safe") && !phone.tap("story.turn")) REQUIRE(phone.tap("lesson.next"));
}

void finish_lesson(DemoPhone& phone) {
  for (int i = 0; i < 200 && !phone.screen.find_id("lesson.to_handover"); ++i) lead_on(phone);
  REQUIRE(phone.screen.find_id("lesson.to_handover"));
}

TEST_CASE("one tap on Lesson turns the chime off, and the phone remembers") {
  MemoryStore store;
  {
    DemoPhone phone(store);
    phone.open();
    begin_lesson(phone);
    lead_on(phone);
    REQUIRE_FALSE(phone.host.buzzes.empty());
    CHECK(phone.name("lesson.sound") == "Turn the chime off");
    REQUIRE(phone.tap("lesson.sound"));
    CHECK(phone.name("lesson.sound") == "Turn the chime on");
    const auto heard = phone.host.buzzes.size();
    finish_lesson(phone);
    phone.pass(45 * 60'000);
    CHECK(phone.host.buzzes.size() == heard);
  }
  DemoPhone again(store);
  again.open("");
  REQUIRE(again.tap("lesson.brief"));
  CHECK(again.screen.find_id("phone.sound.0")->checked);
}

TEST_CASE("the large letters lead through the lesson and step aside when it stands still") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  begin_lesson(phone);
  REQUIRE(phone.tap("lesson.big"));
  REQUIRE(phone.screen.find_id("big.left"));
  CHECK_FALSE(phone.screen.find_id("tabs"));
  const std::string first = phone.name("panel.title");
  for (int i = 0; i < 3 && phone.name("panel.title") == first; ++i) lead_on(phone);
  CHECK(phone.name("panel.title") != first);
  // To the end without leaving it; then there is nothing more to show large.
  finish_lesson(phone);
  CHECK_FALSE(phone.screen.find_id("big.left"));
  CHECK(phone.screen.find_id("tabs"));
}

TEST_CASE("the large letters read the story's page") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  begin_lesson(phone);
  for (int i = 0; i < 60 && !phone.screen.find_id("story.turn"); ++i) lead_on(phone);
  const std::string page = phone.name("story.text");
  REQUIRE_FALSE(page.empty());
  REQUIRE(phone.tap("lesson.big"));
  CHECK(phone.name("big.page") == page);
}

TEST_CASE("for the left hand the tools and the large button change sides, in reading order") {
  MemoryStore store;
  DemoPhone phone(store, 320, 568);
  phone.open();
  REQUIRE(phone.tap("phone.hand.0"));
  begin_lesson(phone);
  for (int i = 0; i < 20 && phone.screen.find_id("lesson.safe"); ++i) lead_on(phone);
  const auto place = [&](std::string_view id) { return phone.screen.find_id(id)->x; };
  const auto order = [&](std::string_view id) {
    const auto nodes = phone.app.nodes();
    return std::find_if(nodes.begin(), nodes.end(), [&](const Node& n) { return n.id == id; }) -
           nodes.begin();
  };
  CHECK(place("lesson.next") < place("lesson.undo"));
  CHECK(order("lesson.next") < order("lesson.undo"));
  CHECK(place("lesson.undo") < place("lesson.back"));
  REQUIRE(phone.tap("lesson.brief"));
  REQUIRE(phone.tap("phone.hand.1"));
  REQUIRE(phone.tap("brief.go"));
  CHECK(place("lesson.next") > place("lesson.undo"));
}

TEST_CASE("a practice runs ten times as fast") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  REQUIRE(phone.tap("phone.practice"));
  begin_lesson(phone);
  CHECK(phone.name("lesson.clock") == "09:05");
  phone.pass(60'000);
  CHECK(phone.name("lesson.clock") == "09:15");
}

TEST_CASE("a practice leaves nothing: no record, no report, and the visit as it was") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.host.network = [](auto, auto, auto) -> SendResult {
    FAIL("something was sent");
    return {};
  };
  phone.open();
  REQUIRE(phone.tap("brief.ready.gloves"));
  const auto kept = store.acknowledged();
  REQUIRE(phone.tap("phone.practice"));
  CHECK_FALSE(phone.screen.find_id("brief.ready.gloves")->checked);
  begin_lesson(phone);
  finish_lesson(phone);
  REQUIRE(phone.tap("tab.handover"));
  REQUIRE(phone.tap("handover.by.teacher"));
  REQUIRE(phone.tap("uneven.all_the_same"));
  REQUIRE(phone.tap("tab.report"));
  CHECK_FALSE(phone.screen.find_id("report.send"));
  CHECK_FALSE(phone.screen.find_id("report.save"));
  CHECK_FALSE(phone.screen.find_id("report.journal"));
  REQUIRE(phone.tap("report.practice_end"));
  CHECK(phone.screen.find_id("brief.ready.gloves")->checked);
  CHECK(store.acknowledged() == kept);
  CHECK(phone.host.sent_bodies.empty());
  CHECK(phone.host.saved.empty());
  // The day itself begins from its beginning.
  REQUIRE(phone.tap("brief.go"));
  CHECK(phone.screen.find_id("lesson.start"));
}

TEST_CASE("a practice can be ended on any screen, with a visit to return to and without") {
  for (const bool with_visit : {true, false}) {
    CAPTURE(with_visit);
    for (const std::string screen :
         {"", "brief.go", "tab.room", "tab.care", "tab.handover", "tab.report"}) {
      CAPTURE(screen);
      MemoryStore store;
      DemoPhone phone(store);
      with_visit ? phone.open() : phone.open("");
      REQUIRE(phone.tap(with_visit ? "phone.practice" : "opening.practice"));
      if (!screen.empty()) {
        begin_lesson(phone);
        phone.tap(screen);
      }
      REQUIRE(phone.tap("practice.end"));
      CHECK_FALSE(phone.screen.find_id("practice.now"));
      CHECK(phone.screen.find_id(with_visit ? "brief.title" : "opening.file"));
    }
  }
}

TEST_CASE("without a visit there is a made-up one to practice with; a link ends it") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open("");
  REQUIRE(phone.tap("opening.practice"));
  CHECK(phone.name("brief.title") == "Practice room, a made-up school");
  begin_lesson(phone);
  phone.app.open_link("#" + brief_fragment(demo_brief()));
  phone.screen.pump(phone.app, 6);
  CHECK(phone.name("brief.title") == "Room 9, Quillback School");
  CHECK_FALSE(phone.screen.find_id("practice.now"));
}

}  // namespace
}  // namespace trowelbell
