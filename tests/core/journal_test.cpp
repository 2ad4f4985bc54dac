#include "core/journal.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>

#include "tests/core/small_visit.h"

using namespace trowelbell;
using small_visit::kHelper;
using small_visit::kLead;
using small_visit::Phone;

namespace {

std::vector<std::string> kinds(const std::vector<const Event*>& events) {
  std::vector<std::string> all;
  all.reserve(events.size());
  for (const Event* event : events) all.push_back(event->kind);
  return all;
}

using Kinds = std::vector<std::string>;

}  // namespace

TEST_CASE("the clock goes on by the clock that moved more") {
  struct Look {
    std::int64_t wall, monotonic, expected;
    const char* why;
  };
  const Look looks[] = {
      {1'000'000, 500, 1'000'000, "the first look is the wall clock's"},
      {1'010'000, 10'500, 1'010'000, "both move"},
      {1'610'000, 10'500, 1'610'000, "ten minutes asleep: only the wall clock saw it"},
      {1'620'000, 20'500, 1'620'000, "both move again"},
      {20'000, 30'500, 1'630'000, "the wall clock is set back: the monotonic one goes on"},
      {30'000, 40'500, 1'640'000, "and again"},
      {330'000, 40'500, 1'940'000, "asleep once more, with the clock still wrong"},
      {330'000, 40'500, 1'940'000, "no time passes"},
      {329'500, 40'000, 1'940'000, "both a little back: never backwards"},
  };
  SteadyClock clock;
  for (const Look& look : looks) {
    CAPTURE(std::string(look.why));
    CHECK(clock.now(look.wall, look.monotonic) == look.expected);
  }
}

TEST_CASE("a known event pushes the clock past itself, and it goes on from there") {
  SteadyClock clock;
  clock.not_before(5'000);
  CHECK(clock.now(1'000, 0) == 5'001);  // the wall clock was set back since that event
  CHECK(clock.now(1'400, 400) == 5'401);
  clock.not_before(9'000);
  CHECK(clock.now(1'400, 400) == 9'001);
  CHECK(clock.now(1'500, 500) == 9'101);
  clock.not_before(2'000);  // long past
  CHECK(clock.now(1'600, 600) == 9'201);
}

TEST_CASE("rounded clocks looked at in every frame do not make time run fast") {
  // Oracle: the true time of the simulation. The two clocks round at different moments, as in
  // browsers.
  for (const double grain : {1.0, 16.0, 100.0}) {
    CAPTURE(grain);
    const auto rounded = [grain](double ms) {
      return static_cast<std::int64_t>(std::floor(ms / grain) * grain);
    };
    SteadyClock clock;
    const std::int64_t begin = clock.now(rounded(1e12), rounded(grain * 0.4));
    std::int64_t last = begin;
    for (int frame = 1; frame <= 60 * 60 * 60; ++frame) {  // an hour
      const double elapsed = frame * (1000.0 / 60);
      last = clock.now(rounded(1e12 + elapsed), rounded(elapsed + grain * 0.4));
    }
    CHECK(std::abs(static_cast<double>(last - begin) - 3'600'000) <= 2 * grain);
  }
}

TEST_CASE("the clock never runs backwards, sees every sleep and ignores every clock set back") {
  // Oracle: the true time. Clocks set back hide sleeps of the same moment; so they do not coincide
  // here.
  std::mt19937 random(20270308);
  const auto draw = [&](int least, int most) {
    return std::uniform_int_distribution<int>(least, most)(random);
  };
  for (int run = 0; run < 200; ++run) {
    SteadyClock clock;
    std::int64_t wall = 1'800'000'000'000, monotonic = draw(0, 100'000), gone = 0;
    const std::int64_t begin = clock.now(wall, monotonic);
    std::int64_t last = begin;
    for (int look = 0; look < 300; ++look) {
      const std::int64_t passed = draw(0, 5'000);
      const bool asleep = draw(0, 9) == 0;
      wall += asleep ? passed + 60'000 : passed;
      monotonic += asleep ? draw(0, 500) : passed;
      gone += asleep ? passed + 60'000 : passed;
      if (!asleep && draw(0, 9) == 0) wall -= draw(2'000, 4'000'000);
      const std::int64_t now = clock.now(wall, monotonic);
      CHECK(now >= last);
      last = now;
    }
    CHECK(last - begin == gone);
  }
}

TEST_CASE("new events are numbered and stamped after everything known") {
  Journal journal(kLead);
  CHECK(journal.last_at() == 0);
  CHECK(journal.append(1000, "start", Json::object()).seq == 1);
  CHECK(journal.append(1000, "hold", {{"reason", "drill"}}).at == 1001);  // the clock stood still
  CHECK(journal.append(10, "resume", Json::object()).at == 1002);         // the clock was set back
  Event foreign{kHelper, 7, 9000, "finish", Json::object()};
  CHECK(journal.merge(foreign));
  const Event after = journal.append(2000, "note", {{"text", "x"}});
  CHECK(after.at == 9001);  // the helper's clock is ahead: what is seen after it stays after it
  CHECK(after.seq == 4);
  CHECK(after.device == kLead);
  CHECK(journal.last_at() == 9001);
  CHECK(journal.events().size() == 5);
  CHECK(journal.events().back() == after);
}

TEST_CASE("a journal read again from its store goes on with the next number") {
  Phone phone(kLead);
  for (int i = 0; i < 5; ++i) phone.tap(i, "mishap", {{"card", "spill"}});
  Journal again(kLead);
  for (const std::size_t i : {3u, 0u, 4u, 2u, 1u}) CHECK(again.merge(phone.journal.events()[i]));
  CHECK(std::equal(again.events().begin(), again.events().end(), phone.journal.events().begin(),
                   phone.journal.events().end()));
  CHECK(again.append(0, "finish", Json::object()).seq == 6);
}

TEST_CASE(
    "an event already known changes nothing; a rival for its place is settled alike in any order") {
  const Event known{kLead, 1, 1000, "start", Json::object()};
  Journal journal(kHelper);
  CHECK(journal.merge(known));
  CHECK_FALSE(journal.merge(known));
  CHECK(journal.events().size() == 1);

  // One (device, seq) twice with different contents: a phone that lost its store and began again.
  std::vector<Event> rivals = {known,
                               {kLead, 1, 500, "finish", Json::object()},
                               {kLead, 1, 500, "hold", {{"reason", "drill"}}},
                               {kLead, 1, 500, "hold", {{"reason", "child"}}},
                               {kLead, 1, 2000, "start", Json::object()}};
  std::sort(rivals.begin(), rivals.end());
  do {
    Journal each(kHelper);
    for (const Event& rival : rivals) each.merge(rival);
    REQUIRE(each.events().size() == 1);
    CHECK(each.events()[0] == Event{kLead, 1, 500, "finish", Json::object()});
    CHECK(each.find(kLead, 1) == each.events().data());
  } while (std::next_permutation(rivals.begin(), rivals.end()));
}

TEST_CASE("events are found by device and number") {
  Phone phone(kLead);
  phone.tap(0, "start");
  phone.tap(5, "finish");
  phone.journal.merge({kHelper, 1, small_visit::moment(2), "children", {{"count", 4}}});
  REQUIRE(phone.journal.find(kHelper, 1) != nullptr);
  CHECK(phone.journal.find(kHelper, 1)->kind == "children");
  CHECK(phone.journal.find(kLead, 2)->kind == "finish");
  CHECK(phone.journal.find(kLead, 3) == nullptr);
  CHECK(phone.journal.find("cccccccccccccccc", 1) == nullptr);
}

TEST_CASE("an undo takes back its event; an undo of that undo brings it back, and so on") {
  Phone phone(kLead);
  phone.tap(0, "start");
  const Event hold = phone.tap(1, "hold", {{"reason", "drill"}});
  Event last = phone.undo(2, hold);
  CHECK(kinds(effective(phone.journal.events())) == Kinds{"start"});
  for (int depth = 2; depth < 12; ++depth) {
    last = phone.undo(depth + 1, last);
    CAPTURE(depth);
    const bool undone = depth % 2 == 1;
    CHECK(kinds(effective(phone.journal.events())) ==
          (undone ? Kinds{"start"} : Kinds{"start", "hold"}));
  }
}

TEST_CASE("two undos of one event take it back once, and both must go to bring it back") {
  Phone phone(kLead);
  const Event start = phone.tap(0, "start");
  const Event first = phone.undo(1, start);
  const Event second = phone.undo(2, start);
  CHECK(effective(phone.journal.events()).empty());
  phone.undo(3, first);
  CHECK(effective(phone.journal.events()).empty());
  phone.undo(4, second);
  CHECK(kinds(effective(phone.journal.events())) == Kinds{"start"});
}

TEST_CASE("an undo of itself, of what comes later, of nothing, or without sense has no effect") {
  const auto undo = [](std::int64_t seq, Json data) {
    return Event{kLead, seq, seq * 100, "undo", std::move(data)};
  };
  const std::vector<Event> events = {
      {kLead, 1, 100, "start", Json::object()},   undo(2, {{"device", kLead}, {"seq", 2}}),
      undo(3, {{"device", kLead}, {"seq", 9}}),   undo(4, {{"device", kLead}, {"seq", 77}}),
      undo(5, {{"device", kHelper}, {"seq", 1}}), undo(6, {{"device", 4}, {"seq", 1}}),
      undo(7, {{"device", kLead}, {"seq", "1"}}), undo(8, nullptr),
      {kLead, 9, 900, "finish", Json::object()}};
  CHECK(kinds(effective(events)) == Kinds{"start", "finish"});
}

TEST_CASE("undo offers this phone's newest tap that it may take back") {
  Phone lead(kLead);
  CHECK(lead.journal.undoable() == nullptr);
  const auto offered = [&] {
    const Event* event = lead.journal.undoable();
    return event == nullptr ? std::string("nothing") : event->kind;
  };

  lead.tap(0, "tick", {{"list", "ready"}, {"item", "water"}, {"done", true}});
  const Event start = lead.tap(1, "start");
  CHECK(offered() == "start");  // just now: a slip of the finger
  const Event hold = lead.tap(2, "hold", {{"reason", "child"}});
  CHECK(offered() == "hold");
  const Event undo = lead.undo(3, hold);
  CHECK(offered() == "start");  // nothing that counts came after it
  lead.undo(4, undo);
  CHECK(offered() == "hold");

  lead.tap(5, "report");
  CHECK(offered() == "hold");  // a report was made: it stays made
  lead.undo(6, hold);
  CHECK(offered() == "tick");  // the report counts, so the start is past taking back

  lead.journal.merge(
      {kHelper, 1, small_visit::moment(8), "place", {{"place", 1}, {"is", "present"}}});
  CHECK(offered() == "tick");  // never another phone's
}

TEST_CASE("a start stays once another phone's tap follows it") {
  Phone lead(kLead);
  lead.tap(0, "start");
  lead.journal.merge(
      {kHelper, 1, small_visit::moment(1), "place", {{"place", 1}, {"is", "present"}}});
  CHECK(lead.journal.undoable() == nullptr);
}
