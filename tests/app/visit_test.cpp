// The screens, driven by their nodes: a whole visit, from the link to the receipt.
#include <doctest/doctest.h>

#include "app/sender.h"
#include "core/report.h"
#include "tests/app/demo_visit.h"

namespace trowelbell {
namespace {

// Goes through the lesson by its one large button; returns the steps' titles in the order met.
std::vector<std::string> play_lesson(DemoPhone& phone, std::int64_t ms_a_tap) {
  std::vector<std::string> titles;
  for (int taps = 0; taps < 200; ++taps) {
    const std::string title = phone.name("lesson.title");
    if (titles.empty() || titles.back() != title) titles.push_back(title);
    if (phone.screen.find_id("lesson.to_handover")) break;
    phone.pass(ms_a_tap);
    bool tapped = false;
    for (const char* forward : {"lesson.safe", "story.turn", "lesson.next"}) {
      if (!tapped && phone.screen.find_id(forward)) tapped = phone.tap(forward);
    }
    REQUIRE(tapped);
  }
  return titles;
}

Json report_of(const DemoPhone& phone) {
  return Json::parse(phone.host.sent_bodies.back(), nullptr, false);
}

SendResult received(std::string_view body) {
  const Json report = Json::parse(body, nullptr, false);
  SendResult result;
  result.status = 201;
  result.sent_digest = sha256_hex(body);
  result.body = dump_json({{"visit", report["visit"]},
                           {"device", report["device"]},
                           {"revision", report["revision"]},
                           {"digest", result.sent_digest},
                           {"received_at", demo_brief().bell_ms()}});
  return result;
}

TEST_CASE("a whole visit by its nodes: what was tapped is what is sent") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.host.network = [](std::string_view, std::string_view, std::string_view body) {
    return received(body);
  };
  phone.open();
  REQUIRE(phone.name("brief.title") == "Room 9, Quillback School");
  REQUIRE(phone.tap("brief.go"));
  REQUIRE(phone.tap("lesson.start"));
  REQUIRE(phone.tap("tab.room"));
  REQUIRE(phone.tap("room.place.3"));
  REQUIRE(phone.tap("room.place.17"));
  REQUIRE(phone.tap("room.mark.late"));
  REQUIRE(phone.tap("room.place.9"));
  REQUIRE(phone.tap("room.others"));
  CHECK(phone.name("room.count") == "22 of 24 are here");
  REQUIRE(phone.tap("kits.one_each"));
  REQUIRE(phone.tap("kits.spoiled.more"));
  REQUIRE(phone.tap("kits.with_teacher.more"));
  REQUIRE(phone.tap("kits.with_teacher.more"));
  REQUIRE(phone.tap("kits.rest"));
  CHECK(phone.name("kits.balance") == "22 + 1 + 2 + 2 = 27. It balances.");
  REQUIRE(phone.tap("tab.care"));
  REQUIRE(phone.tap("care.card.spill"));
  REQUIRE(phone.tap("care.log"));
  REQUIRE(phone.tap("tab.lesson"));
  const auto titles = play_lesson(phone, 60'000);
  CHECK(titles.size() > 12);
  REQUIRE(phone.tap("lesson.to_handover"));
  REQUIRE(phone.tap("handover.by.teacher"));
  REQUIRE(phone.tap("tab.report"));
  REQUIRE(phone.tap("report.send"));
  phone.screen.pump(phone.app, 6);

  REQUIRE(phone.host.sent_bodies.size() == 1);
  Problems problems;
  const ReportFacts facts = read_report(report_of(phone), problems);
  REQUIRE(problems.empty());
  CHECK(facts.children.places == 24);
  CHECK(facts.children.present == 21);
  CHECK(facts.children.late == 1);
  CHECK(facts.children.absent == 2);
  CHECK(facts.kits.given == 22);
  CHECK(facts.kits.spoiled == 1);
  CHECK(facts.kits.with_teacher == 2);
  CHECK(facts.kits.spare == 2);
  CHECK(facts.mishaps.at("spill") == 1);
  CHECK(facts.taken_by == "teacher");
  CHECK(facts.began_at == demo_brief().start_ms());
  const auto receipt =
      phone.screen.find_id("report.sent.demo-room." + std::to_string(facts.revision));
  REQUIRE(receipt);
  CHECK(receipt->name == "Received at 09:50");
}

TEST_CASE("a phone opened again stands at the same step, on the same page, with the right clock") {
  MemoryStore store;
  std::string step, left;
  std::int64_t phone_clock = 0;
  {
    DemoPhone phone(store);
    phone.open();
    phone.tap("brief.go");
    phone.tap("lesson.start");
    phone.pass(30'000);
    while (!phone.screen.find_id("story.turn")) {
      phone.pass(500);
      if (!phone.tap("lesson.safe")) phone.tap("lesson.next");
    }
    phone.tap("story.turn");
    phone.pass(500);
    phone.tap("story.turn");
    phone.pass(20'000);
    step = phone.name("story.text");
    left = phone.name("lesson.left");
    phone_clock = phone.host.wall_ms();
  }
  DemoPhone again(store);
  again.host.set_wall(phone_clock);
  again.open("");
  CHECK(again.name("story.text") == step);
  CHECK(again.name("lesson.left") == left);
}

TEST_CASE("a late start leaves filler out and says why; Keep brings it back") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.host.set_wall(demo_brief().start_ms() + 10 * 60'000);
  phone.open();
  phone.tap("brief.go");
  phone.tap("lesson.start");
  CHECK(phone.name("lesson.why").find("so that nobody is rushed") != std::string::npos);
  REQUIRE(phone.tap("lesson.plan"));
  REQUIRE(phone.screen.find(Role::button, "Keep: Look at two seeds"));
  REQUIRE(phone.screen.tap(phone.app, phone.screen.find(Role::button, "Keep: Look at two seeds")));
  CHECK(phone.screen.find(Role::button, "Leave out: Look at two seeds"));
}

TEST_CASE("on hold the step's clock stands still and the bell comes nearer") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  phone.tap("brief.go");
  phone.tap("lesson.start");
  phone.pass(500);
  const std::string before = phone.name("lesson.left");
  phone.tap("lesson.hold");
  REQUIRE(phone.tap("hold.drill"));
  CHECK(phone.name("hold.reason").find("school's own plan") != std::string::npos);
  phone.pass(4 * 60'000);
  CHECK(phone.name("lesson.bell") == "40 min to the bell");
  REQUIRE(phone.tap("lesson.resume"));
  CHECK(phone.name("lesson.left") == before);
}

TEST_CASE("a safety line waits for a tap, however late it is") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  phone.tap("brief.go");
  phone.tap("lesson.start");
  while (!phone.screen.find_id("lesson.safe")) {
    phone.pass(500);
    REQUIRE(phone.tap("lesson.next"));
  }
  const std::string step = phone.name("lesson.title");
  phone.pass(60 * 60'000);
  CHECK(phone.name("lesson.title") == step);
  CHECK(!phone.screen.find_id("lesson.next"));
  REQUIRE(phone.tap("lesson.safe"));
  CHECK(phone.name("lesson.title") == step);
  CHECK(phone.screen.find_id("lesson.next"));
}

TEST_CASE("a tap shows only when it is stored; without a store it shows with a warning") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  phone.tap("brief.go");
  phone.host.hold_acknowledgements = true;
  phone.tap("lesson.start");
  CHECK(phone.screen.find_id("lesson.start"));
  phone.host.hold_acknowledgements = false;
  phone.screen.pump(phone.app);
  CHECK(!phone.screen.find_id("lesson.start"));
}

TEST_CASE("a link that cannot be read says so and keeps the visit that is open") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  for (const std::string bad :
       {"#b=", "#b=%%%%", "#b=eyJmb3JtYXQiOiJ0cm93ZWxiZWxsLmJyaWVmIn0", "#nonsense"}) {
    CAPTURE(bad);
    phone.app.open_link(bad);
    phone.screen.pump(phone.app);
    CHECK(phone.screen.find_id("notice.notice.bad_link"));
    CHECK(phone.name("brief.title") == "Room 9, Quillback School");
    phone.tap("notice.notice.bad_link.close");
    CHECK(!phone.screen.find_id("notice.notice.bad_link"));
  }
}

TEST_CASE("a shortcut of the home screen opens its screen, with a visit and without") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open("#care");
  CHECK(phone.screen.find_id("opening.file"));
  phone.app.open_link("#" + brief_fragment(demo_brief()));
  phone.screen.pump(phone.app, 6);
  phone.app.open_link("#report");
  phone.screen.pump(phone.app);
  CHECK(phone.screen.find_id("report.title"));
  DemoPhone again(store);
  again.open("#care");
  CHECK(again.screen.find_id("care.card.spill"));
  CHECK_FALSE(again.screen.find_id("notice.notice.bad_link"));
}

TEST_CASE("undo takes back the last tap and only that") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  phone.tap("tab.room");
  phone.tap("room.place.5");
  CHECK(phone.name("room.place.5") == "Place 5, absent");
  phone.tap("room.place.6");
  phone.tap("room.undo");
  CHECK(phone.name("room.place.5") == "Place 5, absent");
  CHECK(phone.name("room.place.6") == "Place 6, not counted yet");
}

TEST_CASE("two quick taps on the button that leads on are one") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  phone.tap("brief.go");
  phone.tap("lesson.start");
  const std::string first = phone.name("lesson.title");
  phone.tap("lesson.next");
  CHECK(phone.name("lesson.title") == first);
  phone.pass(500);
  phone.tap("lesson.next");
  const std::string second = phone.name("lesson.title");
  CHECK(second != first);
  phone.tap("lesson.next");
  CHECK(phone.name("lesson.title") == second);
}

TEST_CASE("the plan scrolls to its last step") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  phone.tap("brief.go");
  phone.tap("lesson.start");
  phone.tap("lesson.plan");
  CHECK(phone.tap("plan.step.goodbye.go"));
  CHECK(phone.screen.find_id("lesson.next"));
}

TEST_CASE("the back gesture leaves a panel, then the screen") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  phone.tap("brief.go");
  phone.tap("lesson.start");
  phone.tap("lesson.plan");
  phone.app.back();
  phone.screen.pump(phone.app);
  CHECK(phone.screen.find_id("lesson.plan"));
  phone.tap("tab.report");
  phone.app.back();
  phone.screen.pump(phone.app);
  CHECK(phone.screen.find_id("lesson.plan"));
}

TEST_CASE("what is typed as Send is tapped, within one frame, is in the report") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  REQUIRE(phone.tap("brief.go"));
  REQUIRE(phone.tap("lesson.start"));
  REQUIRE(phone.tap("tab.report"));
  phone.app.type("report.note", "Warm sill, 3 b");
  phone.screen.pump(phone.app);
  phone.app.type("report.note", "Warm sill, 3 bags.");
  phone.app.activate("report.send");
  phone.screen.pump(phone.app, 6);
  const auto records = store.records(Sender::kStream);
  REQUIRE_FALSE(records.empty());
  CHECK(records.front().find("3 bags.") != std::string::npos);
}

}  // namespace
}  // namespace trowelbell
