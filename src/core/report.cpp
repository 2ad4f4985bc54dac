#include "report.h"

#include <algorithm>

#include "brief_fields.h"

namespace trowelbell {
namespace {

constexpr std::int64_t kDaySeconds = 24 * 60 * 60;
constexpr std::int64_t kMostAdultMinutes = kMostAdults * 24 * 60;
constexpr std::size_t kMostSteps = 60;
constexpr std::size_t kMostPages = 60;
constexpr std::size_t kMostItems = 60;  // of a list to tick
constexpr std::string_view kOutcomes[] = {"done", "left_out", "not_reached"};

std::int64_t seconds(std::int64_t ms) {
  return std::clamp<std::int64_t>((ms + 500) / 1000, 0, kDaySeconds);
}

std::int64_t minutes(std::int64_t ms) {
  return std::clamp<std::int64_t>((ms + 30'000) / 60'000, 0, kDaySeconds / 60);
}

Json steps_json(const Lesson& lesson, std::span<const StepSeconds> times, const VisitState& state,
                std::int64_t now) {
  std::size_t reached = 0;  // steps up to the last one entered
  for (std::size_t i = 0; i < state.steps.size(); ++i) {
    if (state.steps[i].entered) reached = i + 1;
  }
  Json steps = Json::array();
  for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
    const bool out = state.choices[i] == Choice::drop || i < reached;
    const Outcome outcome = state.steps[i].entered ? Outcome::done
                            : out                  ? Outcome::left_out
                                                   : Outcome::not_reached;
    const std::int64_t planned = i < times.size() ? times[i].plan : 0;
    steps.push_back({{"id", lesson.steps[i].id},
                     {"planned_seconds", std::clamp<std::int64_t>(planned, 0, kDaySeconds)},
                     {"actual_seconds", seconds(state.step_ms(i, now))},
                     {"outcome", kOutcomes[static_cast<std::size_t>(outcome)]}});
  }
  return steps;
}

Json holds_json(const VisitState& state, std::int64_t now) {
  Json holds = Json::array();
  std::int64_t last = 0;  // ms of the last one listed
  for (std::size_t i = 0; i < state.holds.size(); ++i) {
    const HoldTime& hold = state.holds[i];
    const bool lasting = state.phase == Phase::held && i + 1 == state.holds.size();
    const std::int64_t ms = lasting ? now - hold.since : hold.ms;
    if (i < kMostHolds) {
      last = ms;
      holds.push_back({{"reason", hold.reason}, {"seconds", seconds(ms)}});
    } else {
      last += ms;
      holds.back()["seconds"] = seconds(last);
    }
  }
  return holds;
}

Json ticks_json(const VisitState& state, std::string_view list, std::span<const CheckItem> items) {
  Json ticks = Json::object();
  for (const CheckItem& item : items) ticks[item.id] = state.ticked(list, item.id);
  return ticks;
}

std::int64_t adult_minutes(const VisitState& state, std::int64_t now) {
  if (state.started_at == 0) return 0;
  const std::int64_t end = state.finished_at > 0 ? state.finished_at : std::min(now, state.bell_at);
  return state.adults * minutes(std::max<std::int64_t>(end - state.started_at, 0));
}

HeadCount read_children(const Reader& reader) {
  const auto count = [&](std::string_view name) { return reader.whole(name, 0, kMostChildren); };
  const HeadCount children{count("places"), count("present"),    count("late"),
                           count("absent"), count("left_early"), count("unknown")};
  if (children.places != children.came() + children.absent + children.unknown) {
    reader.problem("places", "must be the sum of present, late, absent, left_early and unknown");
  }
  return children;
}

KitPiles read_kits(const Reader& reader) {
  const auto pile = [&](std::string_view name) { return reader.whole(name, 0, kMostKits); };
  const KitPiles kits{pile("brought"), pile("given"), pile("spoiled"), pile("with_teacher"),
                      pile("spare")};
  if (reader.whole("unaccounted", -4 * kMostKits, kMostKits) != kits.unaccounted()) {
    reader.problem("unaccounted", "must be brought less given, spoiled, with_teacher and spare");
  }
  return kits;
}

// Calls `each` for the name of every member of the object at `key`; a problem where it is not an id
// or they are too many.
void each_id(const Reader& reader, std::string_view key, std::size_t most,
             const std::function<void(const Reader& members, const std::string& id)>& each) {
  const Reader members = reader.object(key);
  if (members.value().size() > most) {
    reader.problem(key, "must have at most " + std::to_string(most) + " members");
    return;
  }
  for (const auto& member : members.value().items()) {
    Problems bad;
    const Json name = member.key();
    Reader(name, bad).id("");
    if (bad.empty()) {
      each(members, member.key());
    } else {
      members.problem(member.key(), "has a name that is not an id: 1 to 64 of a-z, 0-9 and \"-\"");
    }
  }
}

}  // namespace

Json children_json(const HeadCount& count) {
  return {{"places", count.places}, {"present", count.present},       {"late", count.late},
          {"absent", count.absent}, {"left_early", count.left_early}, {"unknown", count.unknown}};
}

Json kits_json(const KitPiles& kits) {
  return {{"brought", kits.brought}, {"given", kits.given},
          {"spoiled", kits.spoiled}, {"with_teacher", kits.with_teacher},
          {"spare", kits.spare},     {"unaccounted", kits.unaccounted()}};
}

Json make_report(const Brief& brief, const Lesson& lesson, std::span<const StepSeconds> times,
                 std::span<const Event> events, std::string_view device, std::int64_t revision) {
  const VisitState state = fold(brief, lesson, events);
  const std::int64_t now = events.empty() ? 0 : events.back().at;
  Json pages = Json::array();
  for (std::size_t i = 0; i < state.page_ms.size(); ++i)
    pages.push_back(seconds(state.page_spent_ms(i, now)));
  return {{"format", "trowelbell.report"},
          {"version", 1},
          {"visit", brief.visit},
          {"device", device},
          {"revision", revision},
          {"lesson", brief.lesson},
          {"school", brief.school},
          {"room", brief.room},
          {"sponsor", brief.sponsor},
          {"date", format_date(brief.date)},
          {"began_at", state.started_at},
          {"ended_at", state.finished_at},
          {"bell_at", state.bell_at},
          {"steps", steps_json(lesson, times, state, now)},
          {"children", children_json(state.head_count())},
          {"adults", state.adults},
          {"adult_minutes", adult_minutes(state, now)},
          {"kits", kits_json(state.kits)},
          {"lacking", Json(state.lacking)},
          {"mishaps", Json(state.mishaps)},
          {"holds", holds_json(state, now)},
          {"pages", pages},
          {"handover", ticks_json(state, "handover", lesson.handover)},
          {"ready", ticks_json(state, "ready", lesson.ready)},
          {"taken_by", state.taken_by},
          {"note", state.note},
          {"events", events.size()}};
}

ReportFacts read_report(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  ReportFacts facts;
  if (!reader.header("trowelbell.report", 1)) return facts;
  facts.visit = reader.id("visit");
  facts.device = read_device(reader);
  facts.revision = reader.whole("revision", 1, kLargestExact);
  facts.lesson = reader.id("lesson");
  facts.school = reader.text("school", 120);
  facts.room = reader.text("room", 60);
  facts.sponsor = reader.text_or("sponsor", 120, "");
  facts.date = read_date(reader, "date");
  facts.began_at = reader.whole("began_at", 0, kLargestExact);
  facts.ended_at = reader.whole("ended_at", 0, kLargestExact);
  facts.bell_at = reader.whole("bell_at", 0, kLargestExact);
  reader.array("steps", 1, kMostSteps, [&](const Reader& step) {
    facts.steps.push_back(
        {step.id("id"), step.whole("planned_seconds", 0, kDaySeconds),
         step.whole("actual_seconds", 0, kDaySeconds),
         static_cast<Outcome>(step.choice("outcome", {"done", "left_out", "not_reached"}))});
  });
  facts.children = read_children(reader.object("children"));
  facts.adults = reader.whole("adults", 1, kMostAdults);
  facts.adult_minutes = reader.whole("adult_minutes", 0, kMostAdultMinutes);
  facts.kits = read_kits(reader.object("kits"));
  if (reader.has("lacking")) {  // younger than the first reports
    each_id(reader, "lacking", kMostItems, [&](const Reader& members, const std::string& item) {
      facts.lacking[item] = members.whole(item, 1, kMostLacking);
    });
  }
  each_id(reader, "mishaps", kMostMishapKinds, [&](const Reader& members, const std::string& card) {
    facts.mishaps[card] = members.whole(card, 1, kMostMishaps);
  });
  reader.array("holds", 0, kMostHolds, [](const Reader& hold) {
    hold.choice("reason", {"drill", "child", "teacher", "other"});
    hold.whole("seconds", 0, kDaySeconds);
  });
  reader.array("pages", 0, kMostPages, [](const Reader& page) { page.whole("", 0, kDaySeconds); });
  for (const char* list : {"handover", "ready"}) {
    each_id(reader, list, kMostItems,
            [](const Reader& members, const std::string& item) { members.flag(item); });
  }
  constexpr std::string_view kTakers[] = {"", "teacher", "aide", "office", "nobody"};
  facts.taken_by = kTakers[reader.choice("taken_by", {"", "teacher", "aide", "office", "nobody"})];
  facts.note = reader.text_or("note", 500, "", true);
  facts.events = reader.whole("events", 0, kLargestExact);
  return facts;
}

}  // namespace trowelbell
