// The journal's promises, for visits that nobody would think of: random taps on two phones, judged
// by slow and obvious oracles of our own (rapidcheck makes and shrinks the visits).
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <random>

#include "core/report.h"
#include "tests/core/small_visit.h"

using namespace trowelbell;
using small_visit::kHelper;
using small_visit::kLead;

namespace {

using Events = std::vector<Event>;

std::string state_bytes(std::span<const Event> events) {
  return dump_json(state_json(fold(small_visit::brief(), small_visit::lesson(), events)));
}

Json data_for(std::string_view kind) {
  const auto any = [](std::initializer_list<const char*> of) {
    return *rc::gen::elementOf(std::vector<const char*>(of));
  };
  const auto whole = [](int least, int most) { return *rc::gen::inRange(least, most + 1); };
  const auto step = [&] { return any({"hello", "story", "plant", "song", "goodbye", "juggling"}); };
  const auto is = [&] { return any({"present", "late", "absent", "left_early", "unknown"}); };
  if (kind == "step") return {{"step", step()}};
  if (kind == "page") return {{"page", whole(0, 9)}};
  if (kind == "hold") return {{"reason", any({"drill", "child", "teacher", "other"})}};
  if (kind == "choose") return {{"step", step()}, {"choice", any({"keep", "drop", "auto"})}};
  if (kind == "place") return {{"place", whole(1, 9)}, {"is", is()}};
  if (kind == "others") return {{"is", is()}};
  if (kind == "children") return {{"count", whole(1, 9)}};
  if (kind == "adults") return {{"count", whole(1, 20)}};
  if (kind == "bell") return {{"at", small_visit::moment(whole(0, 3600))}};
  if (kind == "kit") {
    return {{"pile", any({"brought", "given", "spoiled", "with_teacher", "spare"})},
            {"by", whole(-9, 9)}};
  }
  if (kind == "lacking") return {{"item", any({"cup", "tray", "kite"})}, {"count", whole(0, 3)}};
  if (kind == "readers") return {{"count", whole(1, 2)}};
  if (kind == "tick") {
    return {{"list", any({"ready", "packed", "step", "handover"})},
            {"item", any({"aprons", "water", "cup", "plant", "watering", "bags", "kites"})},
            {"done", whole(0, 1) == 1}};
  }
  if (kind == "mishap") return {{"card", any({"spill", "soil-hands", "small-parts"})}};
  if (kind == "taken") return {{"by", any({"teacher", "aide", "office", "nobody"})}};
  if (kind == "sheet") return {{"language", any({"en", "es"})}};
  if (kind == "note") return {{"text", any({"", "Sunny sill.", "Bring lamps.\nMore cups."})}};
  return Json::object();
}

// The clock's kinds and undo come up often, or most random visits would stand still.
std::string random_kind() {
  static const std::vector<std::string> kinds = {
      "start",   "step",   "step",     "step",   "page",  "page", "finish", "hold",
      "hold",    "resume", "undo",     "undo",   "undo",  "undo", "choose", "place",
      "place",   "others", "children", "adults", "bell",  "kit",  "kit",    "lacking",
      "readers", "tick",   "mishap",   "taken",  "sheet", "note", "report", "sing"};
  return *rc::gen::elementOf(kinds);
}

// Two phones tap away and now and then tell each other what they know; whole seconds, as the
// second-by-second oracle needs, but for the ticks that the hybrid clock adds.
Events random_visit() {
  std::vector<Journal> phones = {Journal(kLead), Journal(kHelper)};
  const int taps = *rc::gen::inRange(0, 60);
  std::int64_t second = -10;
  for (int tap = 0; tap < taps; ++tap) {
    second += *rc::gen::inRange(0, 40);
    Journal& phone = phones[*rc::gen::inRange<std::size_t>(0, 2)];
    const std::string kind = *rc::gen::weightedOneOf<std::string>(
        {{tap == 0 ? 9u : 1u, rc::gen::just<std::string>("start")},
         {9, rc::gen::exec(random_kind)}});
    Json data = data_for(kind);
    if (kind == "undo") {
      const bool own_last = *rc::gen::arbitrary<bool>() && !phone.events().empty();
      const Event* target = own_last ? &phone.events().back() : nullptr;
      data = {{"device", target != nullptr
                             ? target->device
                             : *rc::gen::elementOf(std::vector<std::string>{kLead, kHelper})},
              {"seq", target != nullptr ? target->seq : *rc::gen::inRange<std::int64_t>(1, 40)}};
    }
    phone.append(small_visit::moment(static_cast<double>(second)), kind, std::move(data));
    if (*rc::gen::inRange(0, 8) == 0) {
      for (Journal& to : phones) {
        for (const Journal& from : phones) {
          const Events known(from.events().begin(), from.events().end());
          for (const Event& event : known) to.merge(event);
        }
      }
    }
  }
  Journal both(kLead);
  for (const Journal& phone : phones) {
    for (const Event& event : phone.events()) both.merge(event);
  }
  return Events(both.events().begin(), both.events().end());
}

Events merged(const Events& arrival, const char* device = kLead) {
  Journal journal(device);
  for (const Event& event : arrival) journal.merge(event);
  return Events(journal.events().begin(), journal.events().end());
}

Events shuffled(Events events) {
  std::shuffle(events.begin(), events.end(), std::mt19937(*rc::gen::arbitrary<unsigned>()));
  return events;
}

// Undo by removing: the newest undo always counts; it goes, and with it what it names, if that
// stood before it.
Events without_undone(Events events) {
  for (;;) {
    const auto newest = std::find_if(events.rbegin(), events.rend(),
                                     [](const Event& e) { return e.kind == "undo"; });
    if (newest == events.rend()) return events;
    const Event undo = *newest;
    const std::size_t place =
        events.size() - 1 - static_cast<std::size_t>(newest - events.rbegin());
    events.erase(events.begin() + static_cast<std::ptrdiff_t>(place));
    for (std::size_t i = 0; i < place; ++i) {
      if (events[i].device == undo.data["device"] && events[i].seq == undo.data["seq"]) {
        events.erase(events.begin() + static_cast<std::ptrdiff_t>(i));
        break;
      }
    }
  }
}

// Where the visit stands between two events, found by walking from the beginning each time:
// "before", "held", "finished" or the id of the step under way; in the reading step with the page
// after a blank.
std::string standing(const Events& events, std::size_t upto, const Lesson& lesson) {
  std::string step, mode = "before";
  std::int64_t page = 0;
  std::map<std::string, std::string> choices;
  for (std::size_t i = 0; i <= upto; ++i) {
    const Event& event = events[i];
    const bool known =
        event.kind == "step" &&
        step_index(lesson, event.data["step"].get<std::string>()) < lesson.steps.size();
    if (event.kind == "choose") choices[event.data["step"]] = event.data["choice"];
    if (event.kind == "start" && mode == "before") {
      mode = "running";
      step = "hello";
      for (std::size_t j = lesson.steps.size(); j-- > 0;) {
        if (choices[lesson.steps[j].id] != "drop") step = lesson.steps[j].id;
      }
    } else if (known && mode != "before" && (event.data["step"] != step || mode == "finished")) {
      mode = "running";
      step = event.data["step"];
    } else if (event.kind == "hold" && mode == "running") {
      mode = "held";
    } else if (event.kind == "resume" && mode == "held") {
      mode = "running";
    } else if (event.kind == "finish" && (mode == "running" || mode == "held")) {
      mode = "finished";
    } else if (event.kind == "page" && mode != "before") {
      page = event.data["page"];
    }
  }
  if (mode != "running") return mode;
  return step == "story" ? "story " + std::to_string(page) : step;
}

void check_invariants(const VisitState& state, std::int64_t last) {
  const HeadCount count = state.head_count();
  RC_ASSERT(count.places == count.came() + count.absent + count.unknown);
  RC_ASSERT(count.places >= 1 && count.places <= kMostChildren);
  RC_ASSERT(state.adults >= 1 && state.adults <= kMostAdults);
  for (const std::int64_t pile : {state.kits.brought, state.kits.given, state.kits.spoiled,
                                  state.kits.with_teacher, state.kits.spare}) {
    RC_ASSERT(pile >= 0 && pile <= kMostKits);
  }
  RC_ASSERT((state.started_at > 0) == (state.phase != Phase::before));
  RC_ASSERT((state.finished_at > 0) == (state.phase == Phase::finished));
  RC_ASSERT((state.counting_since > 0) == (state.phase == Phase::running));
  const bool reading = state.phase == Phase::running && state.step == 1;
  RC_ASSERT((state.page_since > 0) == reading);
  std::int64_t pages = 0;
  for (std::size_t i = 0; i < state.page_ms.size(); ++i) pages += state.page_spent_ms(i, last);
  RC_ASSERT(pages == state.step_ms(1, last));
  for (const StepTime& step : state.steps) {
    RC_ASSERT(step.ms >= 0);
    RC_ASSERT(step.entered || step.ms == 0);
  }
}

}  // namespace

TEST_CASE("any order of arrival gives the same journal and the same state") {
  CHECK(rc::check([] {
    const Events visit = random_visit();
    const Events again = merged(shuffled(visit), *rc::gen::element(kLead, kHelper));
    RC_ASSERT(again == visit);
    RC_ASSERT(state_bytes(again) == state_bytes(visit));
  }));
}

TEST_CASE("two halves, overlapping and merged either way round, give the same state") {
  CHECK(rc::check([] {
    const Events visit = random_visit();
    Events one, other;
    for (const Event& event : visit) {
      const int where = *rc::gen::inRange(0, 3);  // here, there, or in both
      if (where != 1) one.push_back(event);
      if (where != 0) other.push_back(event);
    }
    Events there_first = shuffled(other), here_first = shuffled(one);
    here_first.insert(here_first.end(), other.begin(), other.end());
    there_first.insert(there_first.end(), one.begin(), one.end());
    RC_ASSERT(merged(here_first) == visit);
    RC_ASSERT(state_bytes(merged(here_first)) == state_bytes(merged(there_first)));
  }));
}

TEST_CASE("forged events that claim each other's place still give one journal in any order") {
  CHECK(rc::check([] {
    Events events;
    const int count = *rc::gen::inRange(0, 12);
    for (int i = 0; i < count; ++i) {
      const std::string kind = random_kind();
      events.push_back({*rc::gen::element(kLead, kHelper), *rc::gen::inRange<std::int64_t>(1, 4),
                        small_visit::moment(*rc::gen::inRange(0, 3)), kind, data_for(kind)});
    }
    const Events journal = merged(events);
    RC_ASSERT(merged(shuffled(events)) == journal);
    RC_ASSERT(merged(shuffled(journal)) == journal);
    RC_ASSERT(std::is_sorted(journal.begin(), journal.end()));
  }));
}

TEST_CASE("every prefix of a visit is a visit") {
  CHECK(rc::check([] {
    const Events visit = random_visit();
    for (std::size_t length = 0; length <= visit.size(); ++length) {
      const std::span<const Event> prefix(visit.data(), length);
      const std::int64_t last = length == 0 ? 0 : visit[length - 1].at;
      check_invariants(fold(small_visit::brief(), small_visit::lesson(), prefix), last);
      const Events alone = merged(Events(prefix.rbegin(), prefix.rend()));
      RC_ASSERT(state_bytes(alone) == state_bytes(prefix));
    }
  }));
}

TEST_CASE("undo and redo are as if the events had never been") {
  CHECK(rc::check([] {
    const Events visit = random_visit();
    const Events kept = without_undone(visit);
    const auto counting = effective(visit);
    RC_ASSERT(counting.size() == kept.size());
    for (std::size_t i = 0; i < kept.size(); ++i) RC_ASSERT(*counting[i] == kept[i]);
    RC_ASSERT(state_bytes(visit) == state_bytes(kept));
  }));
}

TEST_CASE("taking back what undo offers leaves the state that would be without it") {
  CHECK(rc::check([] {
    const Events visit = random_visit();
    Journal journal(kLead);
    for (const Event& event : visit) journal.merge(event);
    const Event* offered = journal.undoable();
    const bool any = offered != nullptr;
    RC_PRE(any);
    const Event target = *offered;
    RC_ASSERT(target.device == kLead);
    Events without = without_undone(visit);
    std::erase(without, target);
    journal.append(0, "undo", {{"device", target.device}, {"seq", target.seq}});
    RC_ASSERT(state_bytes(journal.events()) == state_bytes(without));
  }));
}

TEST_CASE("times are those of a walk from event to event, and add up to the visit less its holds") {
  CHECK(rc::check([] {
    const Lesson lesson = small_visit::lesson();
    const Events events = without_undone(random_visit());
    RC_PRE(!events.empty());
    std::map<std::string, std::int64_t> spent;
    for (std::size_t i = 0; i + 1 < events.size(); ++i) {
      spent[standing(events, i, lesson)] += events[i + 1].at - events[i].at;
    }
    const std::int64_t last = events.back().at;
    const VisitState state = fold(small_visit::brief(), lesson, events);
    std::int64_t steps = 0, holds = 0;
    for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
      steps += state.step_ms(i, last);
      if (lesson.steps[i].id != "story")
        RC_ASSERT(state.step_ms(i, last) == spent[lesson.steps[i].id]);
    }
    for (std::int64_t page = 0; page < 10; ++page) {
      RC_ASSERT(state.page_spent_ms(static_cast<std::size_t>(page), last) ==
                spent["story " + std::to_string(page)]);
    }
    for (const HoldTime& hold : state.holds) holds += hold.ms;
    if (state.phase == Phase::held) holds += last - state.holds.back().since;
    RC_ASSERT(holds == spent["held"]);
    if (state.started_at > 0)
      RC_ASSERT(steps + holds + spent["finished"] == last - state.started_at);
  }));
}

TEST_CASE("the report of any visit is taken by its reader and agrees with the state") {
  CHECK(rc::check([] {
    const Events visit = random_visit();
    const VisitState state = fold(small_visit::brief(), small_visit::lesson(), visit);
    const std::vector<StepSeconds> times(5, {30, 60, 90});
    const Json report =
        make_report(small_visit::brief(), small_visit::lesson(), times, visit, kLead, 1);
    const std::string body = dump_json(report);
    Problems problems;
    const auto read = parse_json(body, kReportLimits, problems);
    RC_ASSERT(read.has_value());
    const ReportFacts facts = read_report(*read, problems);
    RC_ASSERT(problems.empty());
    RC_ASSERT(facts.children.came() == state.head_count().came());
    RC_ASSERT(facts.kits.unaccounted() == state.kits.unaccounted());
    RC_ASSERT(facts.mishaps == state.mishaps);
    RC_ASSERT(facts.lacking == state.lacking);
    RC_ASSERT(facts.note == state.note);
    RC_ASSERT(dump_json(make_report(small_visit::brief(), small_visit::lesson(), times,
                                    merged(shuffled(visit)), kLead, 1)) == body);
  }));
}

TEST_CASE("hostile events are survived, and those that read_event refuses leave no trace") {
  CHECK(rc::check([] {
    const auto scalar = []() -> Json {
      switch (*rc::gen::inRange(0, 7)) {
        case 0:
          return nullptr;
        case 1:
          return *rc::gen::arbitrary<std::int64_t>();
        case 2:
          return *rc::gen::arbitrary<std::uint64_t>();
        case 3:
          return *rc::gen::arbitrary<double>();
        case 4:
          return *rc::gen::arbitrary<bool>();
        case 5:
          return *rc::gen::arbitrary<std::string>();
        default:
          return *rc::gen::element("plant", "present", "given", "ready", "water", "drill",
                                   "teacher");
      }
    };
    Events all, readable;
    const int count = *rc::gen::inRange(0, 30);
    for (int i = 0; i < count; ++i) {
      Event event{*rc::gen::element(kLead, kHelper), i + 1, small_visit::moment(i), random_kind(),
                  Json::object()};
      if (*rc::gen::inRange(0, 6) == 0) {
        event.data = scalar();
      } else if (*rc::gen::arbitrary<bool>()) {
        event.data = data_for(event.kind);
      } else {
        for (const char* name :
             {"step", "page", "reason", "choice", "place", "is", "count", "at", "pile", "by",
              "list", "item", "done", "card", "language", "text", "device", "seq"}) {
          if (*rc::gen::arbitrary<bool>()) event.data[name] = scalar();
        }
      }
      Problems problems;
      if (read_event(event_json(event), problems)) readable.push_back(event);
      all.push_back(std::move(event));
    }
    RC_ASSERT(state_bytes(all) == state_bytes(readable));
  }));
}
