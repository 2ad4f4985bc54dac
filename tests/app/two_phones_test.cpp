// Two phones on one visit: what the one saved becomes part of what the other has.
#include <doctest/doctest.h>

#include <set>

#include "core/journal_file.h"
#include "core/report.h"
#include "tests/app/demo_visit.h"

namespace trowelbell {
namespace {

void take_in(DemoPhone& phone, const std::string& file) {
  phone.host.picked_file = file;
  REQUIRE(phone.tap("tab.report"));
  REQUIRE(phone.tap("report.join"));
  phone.screen.pump(phone.app);
}

std::string journal_of(DemoPhone& phone) {
  REQUIRE(phone.tap("tab.report"));
  REQUIRE(phone.tap("report.journal"));
  return phone.host.saved.back().text;
}

Json sent(DemoPhone& phone) {
  REQUIRE(phone.tap("tab.report"));
  REQUIRE(phone.tap("report.send"));
  return Json::parse(phone.host.sent_bodies.back());
}

// The lead leads; the aide counts heads on a phone of her own, five seconds later.
struct Team {
  MemoryStore lead_store, aide_store;
  DemoPhone lead{lead_store}, aide{aide_store};

  Team() {
    aide.host.random_hex(5);  // another phone, other digits
    for (DemoPhone* phone : {&lead, &aide}) phone->open();
    REQUIRE(lead.tap("brief.go"));
    REQUIRE(lead.tap("lesson.start"));
    aide.pass(5000);
    REQUIRE(aide.tap("brief.go"));
    REQUIRE(aide.tap("tab.room"));
    REQUIRE(aide.tap("room.mark.absent"));
    REQUIRE(aide.tap("room.place.3"));
    REQUIRE(aide.tap("room.others"));
    REQUIRE(aide.tap("kits.given.more"));
    lead.pass(15'000);
    aide.pass(10'000);
  }
};

TEST_CASE("another phone's journal joins, and both phones then report the same visit") {
  Team team;
  take_in(team.lead, journal_of(team.aide));
  CHECK(team.lead.name("notice.notice.joined").starts_with("3 taps"));
  take_in(team.aide, journal_of(team.lead));
  Json of_lead = sent(team.lead), of_aide = sent(team.aide);
  CHECK(of_lead["children"]["absent"] == 1);
  CHECK(of_lead["children"]["present"] == 23);
  CHECK(of_lead["kits"]["given"] == 1);
  CHECK(of_lead["began_at"] == demo_brief().start_ms());
  // What differs is who made it, and the one's tap on Send that the other has not heard of.
  for (const char* own : {"device", "revision", "events", "ended_at"}) {
    of_lead.erase(own);
    of_aide.erase(own);
  }
  of_lead.erase("adult_minutes");
  of_aide.erase("adult_minutes");
  CHECK(of_lead.dump() == of_aide.dump());
}

TEST_CASE("what has joined is there again when the app is opened again") {
  MemoryStore kept;
  {
    Team team;
    take_in(team.lead, journal_of(team.aide));
    kept = team.lead_store;
  }
  DemoPhone again(kept);
  again.open("");
  REQUIRE(again.tap("tab.room"));
  CHECK(again.name("room.place.3") == "Place 3, absent");
}

TEST_CASE("the same file once more has nothing new; one's own file brings back what was lost") {
  Team team;
  const std::string file = journal_of(team.aide);
  take_in(team.lead, file);
  take_in(team.lead, file);
  CHECK(team.lead.screen.find_id("notice.notice.nothing_new"));

  team.aide_store.lose("visit-demo-room", 2);
  DemoPhone again(team.aide_store);
  again.open("");
  REQUIRE(again.tap("tab.room"));
  CHECK(again.name("room.place.5") == "Place 5, not counted yet");
  take_in(again, file);
  REQUIRE(again.tap("tab.room"));
  CHECK(again.name("room.place.5") == "Place 5, here");
}

TEST_CASE("files that cannot join say why and change nothing") {
  Team team;
  const Json file = Json::parse(journal_of(team.aide));
  const auto refused = [&](const Json& changed, const std::string& key) {
    CAPTURE(key);
    DemoPhone phone(team.lead_store);
    phone.open("");
    const std::size_t before = team.lead_store.acknowledged();
    take_in(phone, changed.dump());
    CHECK(phone.screen.find_id("notice." + key));
    CHECK(team.lead_store.acknowledged() == before);
  };
  Json other = file;
  other["visit"] = "another-room";
  refused(other, "notice.other_visit");
  Json newer = file;
  newer["version"] = 2;
  refused(newer, "notice.newer");
  Json torn = file;
  torn["events"][0].erase("at");
  refused(torn, "notice.bad_journal");
  // Stamped two days from now: every later tap would be, too.
  Json ahead = file;
  ahead["events"][0]["at"] = demo_brief().start_ms() + 2 * 24 * 3600 * 1000;
  refused(ahead, "notice.bad_journal");
  Json far = file;
  far["events"][0]["seq"] = kMostEvents + 1;
  refused(far, "notice.bad_journal");
}

TEST_CASE("without a visit, or in a practice, a journal waits for its visit") {
  Team team;
  const std::string file = journal_of(team.aide);
  MemoryStore empty;
  DemoPhone phone(empty);
  phone.open("");
  phone.host.picked_file = file;
  REQUIRE(phone.tap("opening.file"));
  phone.screen.pump(phone.app);
  CHECK(phone.screen.find_id("notice.notice.journal_alone"));
}

}  // namespace
}  // namespace trowelbell
