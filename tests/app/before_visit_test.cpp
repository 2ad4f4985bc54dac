// What the lead does with the phone before the visit: the outlook, the packing table, the readers.
#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>

#include "core/staffing.h"
#include "tests/app/demo_visit.h"

namespace trowelbell {
namespace {

// The demo's lesson or story, as the phone reads it.
template <typename Read>
auto read_content(const std::string& file, const Read& read) {
  std::ifstream in(std::string(TROWELBELL_CONTENT_DIR) + "/" + file);
  Problems problems;
  const std::string text(std::istreambuf_iterator<char>(in), {});
  const auto document = parse_json(text, {1 << 20, 12}, problems);
  REQUIRE(document);
  return read(*document, problems);
}

std::string taken_by(DemoPhone& phone) {
  phone.tap("tab.report");
  const std::string words = phone.name("report.taken");
  phone.tap("tab.handover");
  return words;
}

void enter_room(DemoPhone& phone) {
  phone.open();
  phone.tap("brief.go");
  phone.tap("lesson.start");
  phone.tap("tab.room");
}

// Draws until the rehearsals are done.
void rehearse(DemoPhone& phone) {
  for (int frames = 0; frames < 60; ++frames) phone.screen.pump(phone.app);
}

TEST_CASE("the outlook tells what the core works out, to the digit") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  REQUIRE(phone.tap("brief.to_outlook"));
  rehearse(phone);
  StaffingQuestion question;
  question.children = 24;
  question.seconds = 45 * 60;
  const Lesson lesson = read_content("lessons/window-garden.json", read_lesson);
  const Story story = read_content("stories/a-pot-of-not-yet.json", read_story);
  const auto rows = staffing(lesson, story, "en", question);
  for (const StaffingRow& row : rows) {
    for (std::size_t k = 0; k < row.late.size(); ++k) {
      const std::int64_t late = question.minutes_late[k];
      const std::string name =
          phone.name("outlook." + std::to_string(row.adults) + "." + std::to_string(late));
      CAPTURE(name);
      const auto percent = std::to_string(std::llround(row.late[k].chance() * 100));
      CHECK(name.find(" " + percent + " % ± ") != std::string::npos);
      CHECK(name.find(late == 0 ? "on time" : std::to_string(late) + " minutes late") !=
            std::string::npos);
    }
  }
  const auto least = least_adults(lesson, rows);
  REQUIRE(least);
  CHECK(phone.name("outlook.least").find("at least " + std::to_string(*least) + " adults") !=
        std::string::npos);
}

TEST_CASE("the outlook's bars follow the lateness chosen, and its cases say what would go") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  phone.tap("brief.to_outlook");
  rehearse(phone);
  const std::string on_time = phone.name("outlook.bars");
  CHECK(on_time.find("on time; 1 adult") == 0);
  REQUIRE(phone.tap("outlook.late.20"));
  phone.screen.pump(phone.app);
  CHECK(phone.name("outlook.bars").find("20 minutes late; 1 adult") == 0);
  CHECK(phone.name("outlook.bars") != on_time);
  // Four adults and 45 minutes fit; ten minutes less do not without leaving something out.
  CHECK(phone.name("outlook.typical.fits").find("to spare") != std::string::npos);
  const auto left_out = [&](std::string_view of) {
    return std::count_if(phone.app.nodes().begin(), phone.app.nodes().end(), [&](const Node& node) {
      return node.id.starts_with(of) && node.name.find("is left out") != std::string::npos;
    });
  };
  CHECK(left_out("outlook.typical.") == 0);
  CHECK(left_out("outlook.ten_late.") > 0);
}

TEST_CASE("a short packing table is told on Brief, in the report, and as kits that are enough") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  CHECK(phone.name("brief.packed") == "0 of 20 things are counted.");
  REQUIRE(phone.tap("brief.to_packing"));
  // Common practice: two seeds of each of two kinds a child, a stem cut in thirds.
  CHECK(phone.name("packing.item.bean-seeds") == "54 × bean seeds, untreated");
  CHECK(phone.name("packing.item.stem.how") == "1 in each kit. Cut 9 in 3 parts each.");
  REQUIRE(phone.tap("packing.item.bean-seeds"));
  CHECK(phone.name("packing.state") == "1 of 20 things are counted.");
  REQUIRE(phone.tap("packing.item.bean-seeds"));  // a slip is taken off where it happened
  CHECK(phone.name("packing.state") == "0 of 20 things are counted.");
  REQUIRE(phone.tap("packing.item.zip-bag.short"));
  REQUIRE(phone.tap("packing.item.zip-bag.lacking.more"));
  CHECK(phone.name("packing.state") == "One thing is short. It is enough for 25 of 27 kits.");
  REQUIRE(phone.tap("panel.back"));
  CHECK(phone.name("brief.packed") == "One thing is short. It is enough for 25 of 27 kits.");
  CHECK(phone.screen.find_id("brief.packing.tell"));
  REQUIRE(phone.tap("brief.go"));
  REQUIRE(phone.tap("tab.report"));
  CHECK(phone.name("report.lacking.zip-bag").find("2 × clear zip bag") != std::string::npos);
}

TEST_CASE("two readers take turns by page, named by role") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  REQUIRE(phone.tap("readers"));
  REQUIRE(phone.tap("brief.go"));
  REQUIRE(phone.tap("lesson.start"));
  for (int i = 0; i < 30 && !phone.screen.find_id("story.turn"); ++i) {
    phone.pass(1000);
    if (!phone.tap("lesson.safe")) phone.tap("lesson.next");
  }
  CHECK(phone.name("lesson.number").find("first reader") != std::string::npos);
  CHECK(phone.screen.find_id("story.turn")->hint.find("then second reader") != std::string::npos);
  phone.pass(1000);
  REQUIRE(phone.tap("story.turn"));
  CHECK(phone.name("lesson.number").find("second reader") != std::string::npos);
  REQUIRE(phone.tap("readers"));
  CHECK(phone.name("lesson.number").find("second") == std::string::npos);
  CHECK(phone.screen.find_id("story.turn")->hint.find("then") == std::string::npos);
}

TEST_CASE("kits that do not add up are not handed over in silence") {
  MemoryStore store;
  DemoPhone phone(store);
  enter_room(phone);
  phone.tap("room.place.1");  // absent
  phone.tap("room.others");
  phone.tap("kits.one_each");
  REQUIRE(phone.tap("tab.handover"));
  REQUIRE(phone.tap("handover.by.teacher"));
  CHECK(phone.screen.find_id("uneven.title"));
  CHECK(phone.name("kits.balance") == "4 kits are not accounted for yet.");
  CHECK(phone.name("uneven.likely") ==
        "By the head count we would expect 23 given, 1 left for absent children, 3 spare.");
  REQUIRE(phone.tap("uneven.count"));
  REQUIRE(phone.screen.find_id("room.title"));
  REQUIRE(phone.tap("tab.handover"));
  REQUIRE(phone.tap("handover.by.nobody"));  // not taken yet: nothing to warn of
  CHECK(taken_by(phone) == "Handed over to nobody");
  REQUIRE(phone.tap("handover.by.aide"));
  REQUIRE(phone.tap("uneven.all_the_same"));
  CHECK(taken_by(phone) == "Handed over to an aide");
  REQUIRE(phone.tap("tab.report"));
  CHECK(phone.name("report.uneven") == "4 kits are not accounted for yet.");
}

TEST_CASE("kits that add up are handed over at once") {
  MemoryStore store;
  DemoPhone phone(store);
  enter_room(phone);
  phone.tap("room.others");
  phone.tap("kits.one_each");
  phone.tap("kits.rest");
  phone.tap("tab.handover");
  REQUIRE(phone.tap("handover.by.teacher"));
  CHECK(taken_by(phone) == "Handed over to the teacher");
}

}  // namespace
}  // namespace trowelbell
