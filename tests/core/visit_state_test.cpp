#include "core/visit_state.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "core/journal.h"
#include "tests/core/small_visit.h"

using namespace trowelbell;
using small_visit::kHelper;
using small_visit::kLead;
using small_visit::moment;
using small_visit::Phone;

namespace {

Json to(const char* id) {
  return {{"step", id}};
}

// Seconds in each step by so many seconds after the planned start.
std::vector<std::int64_t> step_seconds(const VisitState& state, double at) {
  std::vector<std::int64_t> all;
  for (std::size_t i = 0; i < state.steps.size(); ++i)
    all.push_back(state.step_ms(i, moment(at)) / 1000);
  return all;
}

std::vector<std::int64_t> page_seconds(const VisitState& state, double at) {
  std::vector<std::int64_t> all;
  for (std::size_t i = 0; i < state.page_ms.size(); ++i)
    all.push_back(state.page_spent_ms(i, moment(at)) / 1000);
  return all;
}

using Seconds = std::vector<std::int64_t>;

}  // namespace

TEST_CASE("before the first tap the state is the brief's") {
  const VisitState state = Phone(kLead).state();
  CHECK(state.phase == Phase::before);
  CHECK(state.bell_at == moment(45 * 60));
  CHECK(state.steps.size() == 5);
  CHECK(state.places == std::vector<Presence>(5, Presence::unknown));
  CHECK(state.adults == 3);
  CHECK(state.kits.brought == 8);
  CHECK(state.kits.unaccounted() == 8);
  CHECK(state.sheet_language == "en");
  CHECK(step_seconds(state, 1000) == Seconds{0, 0, 0, 0, 0});
}

TEST_CASE("a brief without bounds is brought within them") {
  Brief wild = small_visit::brief();
  wild.children = 1'000'000;
  wild.adults = -4;
  wild.kits = -1;
  const VisitState state = fold(wild, small_visit::lesson(), {});
  CHECK(state.places.size() == 60);
  CHECK(state.adults == 1);
  CHECK(state.kits.brought == 0);
}

TEST_CASE("time adds up over several stays in a step") {
  Phone lead(kLead);
  lead.tap(-30, "step", to("plant"));  // before the start: nothing
  lead.tap(0, "start");
  lead.tap(5, "start");  // once is enough
  lead.tap(60, "step", to("plant"));
  lead.tap(100, "step", to("plant"));  // already there
  lead.tap(160, "step", to("hello"));
  lead.tap(170, "step", to("juggling"));  // the lesson has no such step
  lead.tap(190, "step", to("goodbye"));
  const VisitState running = lead.state();
  CHECK(running.phase == Phase::running);
  CHECK(running.step == 4);
  CHECK(running.counting_since == moment(190));
  CHECK(step_seconds(running, 200) == Seconds{90, 0, 100, 0, 10});
  CHECK(step_seconds(running, 100) ==
        Seconds{90, 0, 100, 0, 0});  // a look into the past is not negative
  CHECK_FALSE(running.steps[1].entered);
  CHECK(running.step_ms(99, moment(200)) == 0);

  lead.tap(210, "finish");
  lead.tap(220, "finish");
  const VisitState finished = lead.state();
  CHECK(finished.phase == Phase::finished);
  CHECK(finished.started_at == moment(0));
  CHECK(finished.finished_at == moment(210));
  CHECK(step_seconds(finished, 9999) == Seconds{90, 0, 100, 0, 20});
}

TEST_CASE("holds are taken out of every time; a step while held goes on with the visit") {
  Phone lead(kLead);
  lead.tap(-5, "hold", {{"reason", "drill"}});  // nothing to hold yet
  lead.tap(0, "start");
  lead.tap(10, "hold", {{"reason", "drill"}});
  lead.tap(20, "hold", {{"reason", "child"}});  // held already
  CHECK(lead.state().phase == Phase::held);
  CHECK(lead.state().holds.size() == 1);
  CHECK(lead.state().holds[0].ms == 0);
  CHECK(step_seconds(lead.state(), 25) == Seconds{10, 0, 0, 0, 0});
  lead.tap(25, "step", to("hello"));  // the current step: still held
  CHECK(lead.state().phase == Phase::held);
  lead.tap(40, "resume");
  lead.tap(45, "resume");
  lead.tap(50, "hold", {{"reason", "teacher"}});
  lead.tap(70, "step", to("plant"));
  CHECK(lead.state().phase == Phase::running);
  lead.tap(80, "hold", {{"reason", "other"}});
  lead.tap(95, "finish");
  const VisitState state = lead.state();
  CHECK(step_seconds(state, 100) == Seconds{20, 0, 10, 0, 0});
  REQUIRE(state.holds.size() == 3);
  CHECK(state.holds[0].reason == "drill");
  CHECK(state.holds[0].since == moment(10));
  CHECK(state.holds[0].ms == 30'000);
  CHECK(state.holds[1].reason == "teacher");
  CHECK(state.holds[1].ms == 20'000);
  CHECK(state.holds[2].ms == 15'000);
}

TEST_CASE(
    "a step after the finish reopens the visit, also the last step; the gap is no step's time") {
  for (const char* id : {"goodbye", "plant"}) {
    CAPTURE(std::string(id));
    Phone lead(kLead);
    lead.tap(0, "start");
    lead.tap(10, "step", to("goodbye"));
    lead.tap(20, "finish");
    lead.tap(50, "step", to(id));
    CHECK(lead.state().phase == Phase::running);
    CHECK(lead.state().finished_at == 0);
    lead.tap(60, "finish");
    CHECK(lead.state().finished_at == moment(60));
    const bool last = std::string_view(id) == "goodbye";
    CHECK(step_seconds(lead.state(), 99) ==
          (last ? Seconds{10, 0, 0, 0, 20} : Seconds{10, 0, 10, 0, 10}));
  }
}

TEST_CASE("the visit starts in the first step that the lead has kept") {
  Phone lead(kLead);
  lead.tap(-20, "choose", {{"step", "hello"}, {"choice", "drop"}});
  lead.tap(-10, "choose", {{"step", "story"}, {"choice", "drop"}});
  lead.tap(-9, "choose", {{"step", "story"}, {"choice", "auto"}});
  lead.tap(-8, "choose", {{"step", "song"}, {"choice", "keep"}});
  lead.tap(-7, "choose", {{"step", "song"}, {"choice", "maybe"}});
  lead.tap(-6, "choose", {{"step", "juggling"}, {"choice", "keep"}});
  lead.tap(0, "start");
  const VisitState state = lead.state();
  CHECK(state.step == 1);
  CHECK_FALSE(state.steps[0].entered);
  CHECK(state.choices == std::vector<Choice>{Choice::drop, Choice::automatic, Choice::automatic,
                                             Choice::keep, Choice::automatic});

  Phone none(kLead);
  for (const Step& step : small_visit::lesson().steps) {
    none.tap(-1, "choose", {{"step", step.id}, {"choice", "drop"}});
  }
  none.tap(0, "start");
  CHECK(none.state().step == 0);
}

TEST_CASE("pages are timed while the story is read, and only then") {
  Phone lead(kLead);
  lead.tap(-9, "page", {{"page", 3}});  // leafing through before the visit
  lead.tap(0, "start");
  CHECK(lead.state().page == 0);
  lead.tap(10, "step", to("story"));
  CHECK(lead.state().page_since == moment(10));
  lead.tap(12, "page", {{"page", 0}});  // already shown
  lead.tap(30, "page", {{"page", 1}});
  lead.tap(35, "hold", {{"reason", "child"}});
  CHECK(lead.state().page_since == 0);
  lead.tap(95, "resume");
  lead.tap(100, "page", {{"page", 2}});
  lead.tap(120, "page", {{"page", 1}});  // back once more
  lead.tap(121, "page", {{"page", 60}});
  CHECK(page_seconds(lead.state(), 125) == Seconds{20, 15, 20});
  lead.tap(130, "step", to("plant"));
  lead.tap(150, "page", {{"page", 2}});  // shown, but nobody reads
  CHECK(page_seconds(lead.state(), 160) == Seconds{20, 20, 20});
  CHECK(lead.state().page == 2);
  lead.tap(200, "step", to("story"));  // goes on with the page left
  lead.tap(205, "finish");
  CHECK(page_seconds(lead.state(), 999) == Seconds{20, 20, 25});
  CHECK(lead.state().page_spent_ms(3, moment(999)) == 0);
}

TEST_CASE("places, latecomers and a changing class") {
  Phone lead(kLead);
  const auto place = [&](std::int64_t number, const char* is) {
    lead.tap(0, "place", {{"place", number}, {"is", is}});
  };
  place(1, "present");
  place(2, "late");
  place(3, "absent");
  place(6, "present");  // there are five
  place(0, "present");
  place(4, "asleep");
  lead.tap(1, "others", {{"is", "present"}});
  place(5, "left_early");
  HeadCount count = lead.state().head_count();
  CHECK(count.places == 5);
  CHECK(count.present == 2);
  CHECK(count.late == 1);
  CHECK(count.absent == 1);
  CHECK(count.left_early == 1);
  CHECK(count.unknown == 0);
  CHECK(count.came() == 4);

  lead.tap(2, "children", {{"count", 2}});  // a slip: 2 for 22
  CHECK(lead.state().head_count().places == 2);
  CHECK(lead.state().head_count().came() == 2);
  lead.tap(3, "others", {{"is", "absent"}});  // nothing unknown among these two
  lead.tap(4, "children", {{"count", 7}});
  lead.tap(5, "children", {{"count", 61}});
  count = lead.state().head_count();
  CHECK(count.places == 7);
  CHECK(count.came() == 4);  // the known places kept their word
  CHECK(count.absent == 1);
  CHECK(count.unknown == 2);
  place(3, "unknown");
  CHECK(lead.state().head_count().unknown == 3);
}

TEST_CASE("kit piles stay within bounds, tap by tap") {
  Phone lead(kLead);
  const auto kit = [&](const char* pile, std::int64_t by) {
    lead.tap(0, "kit", {{"pile", pile}, {"by", by}});
  };
  kit("given", 5);
  kit("given", -9);  // not below nothing
  kit("given", 4);
  kit("spoiled", 1);
  kit("with_teacher", 2);
  kit("spare", 3);
  kit("brought", 1);
  kit("brought", 121);  // no such tap
  kit("sold", 1);
  const KitPiles kits = lead.state().kits;
  CHECK(kits.brought == 9);
  CHECK(kits.given == 4);
  CHECK(kits.spoiled == 1);
  CHECK(kits.with_teacher == 2);
  CHECK(kits.spare == 3);
  CHECK(kits.unaccounted() == -1);
  for (int i = 0; i < 20; ++i) kit("spare", 120);
  CHECK(lead.state().kits.spare == kMostKits);
}

TEST_CASE("ticks, mishaps, bell, team, taker, sheet and note") {
  Phone lead(kLead);
  lead.tap(0, "tick", {{"list", "ready"}, {"item", "water"}, {"done", true}});
  lead.tap(0, "tick", {{"list", "ready"}, {"item", "aprons"}, {"done", true}});
  lead.tap(0, "tick", {{"list", "ready"}, {"item", "aprons"}, {"done", false}});
  lead.tap(0, "tick",
           {{"list", "ready"}, {"item", "watering"}, {"done", true}});  // the other list's
  lead.tap(0, "tick", {{"list", "step"}, {"item", "plant"}, {"done", true}});
  lead.tap(0, "tick", {{"list", "handover"}, {"item", "bags"}, {"done", true}});
  lead.tap(0, "tick", {{"list", "handover"}, {"item", "watering"}, {"done", 1}});
  lead.tap(0, "mishap", {{"card", "spill"}});
  lead.tap(0, "mishap", {{"card", "spill"}});
  lead.tap(0, "mishap", {{"card", "soil-hands"}});
  lead.tap(0, "mishap", {{"card", "Spill!"}});
  lead.tap(0, "bell", {{"at", moment(40 * 60)}});
  lead.tap(0, "bell", {{"at", -1}});
  lead.tap(0, "adults", {{"count", 4}});
  lead.tap(0, "adults", {{"count", 0}});
  lead.tap(0, "taken", {{"by", "aide"}});
  lead.tap(0, "taken", {{"by", "dog"}});
  lead.tap(0, "sheet", {{"language", "es"}});
  lead.tap(0, "sheet", {{"language", "fr"}});
  lead.tap(0, "note", {{"text", "Sunny sill.\nCome back."}});
  lead.tap(0, "note", {{"text", std::string(501, 'x')}});
  lead.tap(0, "report");
  const VisitState state = lead.state();
  CHECK(state.ticks == std::set<std::string>{"ready/water", "step/plant", "handover/bags"});
  CHECK(state.ticked("ready", "water"));
  CHECK_FALSE(state.ticked("ready", "aprons"));
  CHECK(state.mishaps == std::map<std::string, std::int64_t>{{"soil-hands", 1}, {"spill", 2}});
  CHECK(state.bell_at == moment(40 * 60));
  CHECK(state.adults == 4);
  CHECK(state.taken_by == "aide");
  CHECK(state.sheet_language == "es");
  CHECK(state.note == "Sunny sill.\nCome back.");
  lead.tap(1, "note", {{"text", ""}});
  CHECK(lead.state().note.empty());
}

TEST_CASE("what the packing table lacks, and who reads") {
  Phone lead(kLead);
  CHECK(lead.state().readers == 1);
  lead.tap(-600, "tick", {{"list", "packed"}, {"item", "cup"}, {"done", true}});
  lead.tap(-595, "lacking", {{"item", "cup"}, {"count", 3}});
  lead.tap(-590, "lacking", {{"item", "tray"}, {"count", 2}});
  lead.tap(-580, "lacking", {{"item", "tray"}, {"count", 1}});  // one was found
  lead.tap(-575, "lacking", {{"item", "cup"}, {"count", 0}});   // all were
  lead.tap(-570, "lacking", {{"item", "kite"}, {"count", 1}});  // not in the kit
  lead.tap(-560, "lacking", {{"item", "tray"}, {"count", 1000}});
  lead.tap(-550, "readers", {{"count", 2}});
  lead.tap(-540, "readers", {{"count", 3}});
  CHECK(lead.state().lacking == std::map<std::string, std::int64_t>{{"tray", 1}});
  CHECK(lead.state().ticked("packed", "cup"));
  CHECK(lead.state().readers == 2);
}

TEST_CASE("mishaps are bounded in kind and number") {
  Phone lead(kLead);
  for (int i = 0; i < 1200; ++i) lead.tap(0, "mishap", {{"card", "spill"}});
  for (int i = 0; i < 120; ++i) lead.tap(0, "mishap", {{"card", "kind-" + std::to_string(i)}});
  lead.tap(0, "mishap", {{"card", "kind-0"}});
  const VisitState state = lead.state();
  CHECK(state.mishaps.size() == kMostMishapKinds);
  CHECK(state.mishaps.at("spill") == kMostMishaps);
  CHECK(state.mishaps.at("kind-0") == 2);
}

TEST_CASE("what read_event refuses changes nothing, so a reload shows the same state") {
  const Json bad_data[] = {nullptr,
                           7,
                           "text",
                           Json::array({1, 2}),
                           Json::object(),
                           {{"step", 1}},
                           {{"step", "no/id"}},
                           {{"page", 1.5}},
                           {{"page", UINT64_MAX}},
                           {{"place", 1}, {"is", 2}},
                           {{"count", "3"}},
                           {{"at", 1e300}},
                           {{"pile", "given"}, {"by", INT64_MIN}},
                           {{"list", "ready"}, {"item", "water"}},
                           {{"text", "\x01"}},
                           {{"text", "\xff"}}};
  const char* all_kinds[] = {"start",  "step",    "page",    "finish",   "hold",   "resume",
                             "choose", "place",   "others",  "children", "adults", "bell",
                             "kit",    "lacking", "readers", "tick",     "mishap", "taken",
                             "sheet",  "note",    "report",  "undo",     "sing"};
  Phone lead(kLead);
  lead.tap(0, "start");
  const std::string before = dump_json(state_json(lead.state()));
  int refused = 0;
  for (const char* kind : all_kinds) {
    for (const Json& data : bad_data) {
      Phone phone = lead;
      const Event event = phone.tap(5, kind, data);
      Problems problems;
      if (read_event(event_json(event), problems)) continue;
      ++refused;
      CAPTURE(std::string(kind));
      CAPTURE(dump_json(data));
      CHECK(dump_json(state_json(phone.state())) == before);
    }
  }
  CHECK(refused > 250);
}

TEST_CASE("a lesson without steps and events out of order or time are survived") {
  Lesson empty;
  Phone lead(kLead);
  lead.tap(0, "start");
  lead.tap(10, "page", {{"page", 4}});
  lead.tap(20, "hold", {{"reason", "drill"}});
  lead.tap(30, "finish");
  const VisitState state = fold(small_visit::brief(), empty, lead.journal.events());
  CHECK(state.phase == Phase::finished);
  CHECK(state.steps.empty());

  std::vector<Event> backwards(lead.journal.events().begin(), lead.journal.events().end());
  std::reverse(backwards.begin(), backwards.end());
  backwards.push_back({kLead, 8, INT64_MAX, "step", to("plant")});
  backwards.push_back({kLead, 9, INT64_MIN, "step", to("song")});
  backwards.push_back({kLead, 10, 0, "finish", Json::object()});
  const VisitState odd = fold(small_visit::brief(), small_visit::lesson(), backwards);
  CHECK(odd.phase == Phase::finished);
  for (const StepTime& step : odd.steps) CHECK(step.ms >= 0);
}

TEST_CASE("two phones on one visit make one state") {
  Phone lead(kLead), helper(kHelper);
  lead.tap(0, "start");
  helper.tap(1, "place", {{"place", 1}, {"is", "absent"}});
  lead.tap(2, "place", {{"place", 1}, {"is", "late"}});  // the later word counts
  helper.tap(3, "kit", {{"pile", "given"}, {"by", 2}});
  lead.tap(4, "kit", {{"pile", "given"}, {"by", 1}});
  lead.merge_from(helper);
  helper.merge_from(lead);
  CHECK(dump_json(state_json(lead.state())) == dump_json(state_json(helper.state())));
  CHECK(lead.state().places[0] == Presence::late);
  CHECK(lead.state().kits.given == 3);
}
