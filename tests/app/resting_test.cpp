// A phone at rest: how seldom it is drawn, and that what it shows stays right between two frames.
#include <doctest/doctest.h>

#include <string>

#include "demo_visit.h"

using namespace trowelbell;

namespace {

std::string times_shown(const DemoPhone& phone) {
  std::string all;
  for (const auto id : {"lesson.left", "lesson.bell", "lesson.clock", "hold.time"})
    all += phone.name(id) + "; ";
  return all;
}

// Draws when the app has asked for it, for so many minutes, and how often that was. Looks at every
// second between: only in the last one before a frame may a time read differently.
int frames_at_rest(DemoPhone& phone, int minutes) {
  int frames = 0;
  for (std::int64_t passed = 0; passed < minutes * 60'000; ++frames) {
    const std::int64_t due = phone.screen.pump(phone.app, 1);
    const std::string shown = times_shown(phone);
    REQUIRE(due > 0);
    for (std::int64_t ms = 1000; ms <= due - 1000; ms += 1000) {
      phone.pass(1000);
      CHECK(times_shown(phone) == shown);
    }
    phone.host.pass(due < 1000 ? due : 1000 + due % 1000);
    passed += due;
  }
  return frames;
}

}  // namespace

TEST_CASE("Lesson is drawn when a time on it reads differently, not every second") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.host.still_preferred = true;  // no sprout walks
  phone.open();
  phone.tap("brief.go");
  phone.tap("lesson.start");
  phone.pass(7'300);
  const int most_in_time = frames_at_rest(phone, 2);
  CHECK(most_in_time >= 4);
  CHECK(most_in_time <= 13);
  phone.tap("lesson.next");
  frames_at_rest(phone, 12);
  REQUIRE(phone.name("lesson.left").find("over") != std::string::npos);
  CHECK(frames_at_rest(phone, 2) <= 13);  // six a minute: its quarters, the clock, the bell
  phone.tap("lesson.hold");
  phone.tap("hold.drill");
  REQUIRE(phone.name("hold.time") != "");
  CHECK(frames_at_rest(phone, 3) <= 19);
}

TEST_CASE("a running time is rounded, and never far from the truth") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  phone.tap("brief.go");
  phone.tap("lesson.start");
  phone.tap("lesson.next");
  const std::string whole = phone.name("lesson.left");
  phone.pass(5'000);
  CHECK(phone.name("lesson.left") == whole);  // what a step begins with stands for a while
  phone.pass(10'000);
  CHECK(phone.name("lesson.left") != whole);
}
