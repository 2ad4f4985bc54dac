#include "visit_state.h"

#include <algorithm>
#include <array>

#include "journal.h"

namespace trowelbell {
namespace {

template <typename Item>
bool has_item(const std::vector<Item>& items, std::string_view id) {
  return std::any_of(items.begin(), items.end(), [&](const Item& item) { return item.id == id; });
}

// Takes in one event after another. A handler reads its data first and changes the state only where
// that went well, so a bad event leaves no trace.
class Fold {
 public:
  Fold(const Brief& brief, const Lesson& lesson) : lesson_(lesson) {
    state_.bell_at = brief.bell_ms();
    state_.steps.resize(lesson.steps.size());
    state_.choices.resize(lesson.steps.size(), Choice::automatic);
    state_.adults = std::clamp<std::int64_t>(brief.adults, 1, kMostAdults);
    state_.kits.brought = std::clamp<std::int64_t>(brief.kits, 0, kMostKits);
    state_.sheet_language = brief.sheet_language;
    children_ = std::clamp<std::int64_t>(brief.children, 1, kMostChildren);
  }

  void take(const Event& event);
  VisitState finished() && {
    state_.places.assign(places_.begin(), places_.begin() + children_);
    return std::move(state_);
  }

 private:
  struct Handler {
    std::string_view kind;
    void (Fold::*take)(const Reader& data);
  };
  static const std::array<Handler, 20> kHandlers;

  bool reading() const {
    return state_.step < lesson_.steps.size() && lesson_.steps[state_.step].reading;
  }

  void enter(std::size_t step) {
    state_.step = step;
    if (step < state_.steps.size()) state_.steps[step].entered = true;
    run();
  }

  void run() {
    state_.phase = Phase::running;
    state_.counting_since = at_;
    if (reading()) show_page(state_.page);
  }

  void show_page(std::int64_t page) {
    const auto index = static_cast<std::size_t>(page);
    state_.page = page;
    state_.page_since = at_;
    if (state_.page_ms.size() <= index) state_.page_ms.resize(index + 1, 0);
  }

  void count_page() {
    if (state_.page_since == 0) return;
    state_.page_ms[static_cast<std::size_t>(state_.page)] += at_ - state_.page_since;
    state_.page_since = 0;
  }

  // Ends what runs: the stay in the step and on the page, or the hold.
  void stop() {
    if (state_.phase == Phase::running) {
      if (state_.step < state_.steps.size()) {
        state_.steps[state_.step].ms += at_ - state_.counting_since;
      }
      state_.counting_since = 0;
      count_page();
    } else if (state_.phase == Phase::held) {
      state_.holds.back().ms = at_ - state_.holds.back().since;
    }
  }

  void start(const Reader&) {
    if (state_.phase != Phase::before) return;
    state_.started_at = at_;
    const auto first = std::find_if(state_.choices.begin(), state_.choices.end(),
                                    [](Choice choice) { return choice != Choice::drop; });
    enter(first == state_.choices.end() ? 0
                                        : static_cast<std::size_t>(first - state_.choices.begin()));
  }

  void step(const Reader& data) {
    const std::size_t index = step_index(lesson_, data.id("step"));
    if (!data.ok() || index == lesson_.steps.size() || state_.phase == Phase::before) return;
    if (index == state_.step && state_.phase != Phase::finished) return;
    stop();
    state_.finished_at = 0;
    enter(index);
  }

  void page(const Reader& data) {
    const std::int64_t page = data.whole("page", 0, 59);
    if (!data.ok() || state_.phase == Phase::before) return;
    if (state_.page_since == 0) {
      state_.page = page;
    } else {
      count_page();
      show_page(page);
    }
  }

  void finish(const Reader&) {
    if (state_.phase != Phase::running && state_.phase != Phase::held) return;
    stop();
    state_.phase = Phase::finished;
    state_.finished_at = at_;
  }

  void hold(const Reader& data) {
    constexpr std::string_view kReasons[] = {"drill", "child", "teacher", "other"};
    const std::size_t reason = data.choice("reason", {"drill", "child", "teacher", "other"});
    if (!data.ok() || state_.phase != Phase::running) return;
    stop();
    state_.phase = Phase::held;
    state_.holds.push_back({std::string(kReasons[reason]), at_, 0});
  }

  void resume(const Reader&) {
    if (state_.phase != Phase::held) return;
    stop();
    run();
  }

  void choose(const Reader& data) {
    constexpr Choice kChoices[] = {Choice::keep, Choice::drop, Choice::automatic};
    const std::size_t index = step_index(lesson_, data.id("step"));
    const std::size_t choice = data.choice("choice", {"keep", "drop", "auto"});
    if (data.ok() && index < state_.choices.size()) state_.choices[index] = kChoices[choice];
  }

  static Presence presence(const Reader& data) {
    return static_cast<Presence>(
        data.choice("is", {"unknown", "present", "late", "absent", "left_early"}));
  }

  void place(const Reader& data) {
    const std::int64_t place = data.whole("place", 1, kMostChildren);
    const Presence is = presence(data);
    if (data.ok() && place <= children_) places_[static_cast<std::size_t>(place - 1)] = is;
  }

  void others(const Reader& data) {
    const Presence is = presence(data);
    if (data.ok()) {
      std::replace(places_.begin(), places_.begin() + children_, Presence::unknown, is);
    }
  }

  void children(const Reader& data) {
    const std::int64_t count = data.whole("count", 1, kMostChildren);
    if (data.ok()) children_ = count;
  }

  void adults(const Reader& data) {
    const std::int64_t count = data.whole("count", 1, kMostAdults);
    if (data.ok()) state_.adults = count;
  }

  void bell(const Reader& data) {
    const std::int64_t bell = data.whole("at", 0, kLargestExact);
    if (data.ok()) state_.bell_at = bell;
  }

  void kit(const Reader& data) {
    constexpr std::int64_t KitPiles::*kPiles[] = {&KitPiles::brought, &KitPiles::given,
                                                  &KitPiles::spoiled, &KitPiles::with_teacher,
                                                  &KitPiles::spare};
    const std::size_t pile =
        data.choice("pile", {"brought", "given", "spoiled", "with_teacher", "spare"});
    const std::int64_t by = data.whole("by", -120, 120);
    if (!data.ok()) return;
    std::int64_t& kits = state_.kits.*kPiles[pile];
    kits = std::clamp<std::int64_t>(kits + by, 0, kMostKits);
  }

  void lacking(const Reader& data) {
    std::string item = data.id("item");
    const std::int64_t count = data.whole("count", 0, kMostLacking);
    if (!data.ok() || !has_item(lesson_.kit, item)) return;
    if (count > 0) {
      state_.lacking[std::move(item)] = count;
    } else {
      state_.lacking.erase(item);
    }
  }

  void readers(const Reader& data) {
    const std::int64_t count = data.whole("count", 1, 2);
    if (data.ok()) state_.readers = count;
  }

  void tick(const Reader& data) {
    const std::size_t list = data.choice("list", {"ready", "packed", "step", "handover"});
    const std::string item = data.id("item");
    const bool done = data.flag("done");
    const bool known = list == 0   ? has_item(lesson_.ready, item)
                       : list == 1 ? has_item(lesson_.kit, item)
                       : list == 2 ? has_item(lesson_.steps, item)
                                   : has_item(lesson_.handover, item);
    if (!data.ok() || !known) return;
    constexpr std::string_view kLists[] = {"ready/", "packed/", "step/", "handover/"};
    const std::string tick = std::string(kLists[list]) + item;
    if (done) {
      state_.ticks.insert(tick);
    } else {
      state_.ticks.erase(tick);
    }
  }

  void mishap(const Reader& data) {
    const std::string card = data.id("card");
    if (!data.ok()) return;
    auto& mishaps = state_.mishaps;
    if (mishaps.size() >= kMostMishapKinds && mishaps.find(card) == mishaps.end()) return;
    std::int64_t& count = mishaps[card];
    count = std::min(count + 1, kMostMishaps);
  }

  void taken(const Reader& data) {
    constexpr std::string_view kTakers[] = {"teacher", "aide", "office", "nobody"};
    const std::size_t by = data.choice("by", {"teacher", "aide", "office", "nobody"});
    if (data.ok()) state_.taken_by = kTakers[by];
  }

  void sheet(const Reader& data) {
    const bool spanish = data.choice("language", {"en", "es"}) == 1;
    if (data.ok()) state_.sheet_language = spanish ? "es" : "en";
  }

  void note(const Reader& data) {
    std::string text = data.text_or("text", 500, "", true);
    if (data.ok()) state_.note = std::move(text);
  }

  const Lesson& lesson_;
  VisitState state_;
  std::array<Presence, kMostChildren> places_{};  // also those beyond the present count
  std::int64_t children_ = 0;
  std::int64_t at_ = 1;  // of the event being taken; 0 in the state means "not yet"
};

// "report" and "undo" change nothing here; effective() has dealt with the undos.
constexpr std::array<Fold::Handler, 20> Fold::kHandlers = {{
    {"start", &Fold::start},       {"step", &Fold::step},       {"page", &Fold::page},
    {"finish", &Fold::finish},     {"hold", &Fold::hold},       {"resume", &Fold::resume},
    {"choose", &Fold::choose},     {"place", &Fold::place},     {"others", &Fold::others},
    {"children", &Fold::children}, {"adults", &Fold::adults},   {"bell", &Fold::bell},
    {"kit", &Fold::kit},           {"lacking", &Fold::lacking}, {"readers", &Fold::readers},
    {"tick", &Fold::tick},         {"mishap", &Fold::mishap},   {"taken", &Fold::taken},
    {"sheet", &Fold::sheet},       {"note", &Fold::note},
}};

void Fold::take(const Event& event) {
  // Never back, even where a caller's events are out of order: durations stay whole and add up.
  at_ = std::max(at_, event.at);
  const auto* handler = std::find_if(kHandlers.begin(), kHandlers.end(),
                                     [&](const Handler& each) { return each.kind == event.kind; });
  if (handler == kHandlers.end() || !event.data.is_object()) return;
  Problems problems;
  (this->*handler->take)(Reader(event.data, problems));
}

}  // namespace

HeadCount VisitState::head_count() const {
  const auto count = [this](Presence is) {
    return static_cast<std::int64_t>(std::count(places.begin(), places.end(), is));
  };
  return {static_cast<std::int64_t>(places.size()),
          count(Presence::present),
          count(Presence::late),
          count(Presence::absent),
          count(Presence::left_early),
          count(Presence::unknown)};
}

bool VisitState::ticked(std::string_view list, std::string_view item) const {
  return ticks.count(std::string(list) + "/" + std::string(item)) > 0;
}

std::int64_t VisitState::step_ms(std::size_t index, std::int64_t now) const {
  if (index >= steps.size()) return 0;
  const bool running = index == step && counting_since > 0;
  return steps[index].ms + (running ? std::max<std::int64_t>(now - counting_since, 0) : 0);
}

std::int64_t VisitState::page_spent_ms(std::size_t index, std::int64_t now) const {
  if (index >= page_ms.size()) return 0;
  const bool running = index == static_cast<std::size_t>(page) && page_since > 0;
  return page_ms[index] + (running ? std::max<std::int64_t>(now - page_since, 0) : 0);
}

VisitState fold(const Brief& brief, const Lesson& lesson, std::span<const Event> events) {
  Fold fold(brief, lesson);
  for (const Event* event : effective(events)) fold.take(*event);
  return std::move(fold).finished();
}

Json state_json(const VisitState& state) {
  constexpr std::string_view kPhases[] = {"before", "running", "held", "finished"};
  constexpr std::string_view kChoices[] = {"auto", "keep", "drop"};
  Json steps = Json::array();
  for (std::size_t i = 0; i < state.steps.size(); ++i) {
    steps.push_back({{"entered", state.steps[i].entered},
                     {"ms", state.steps[i].ms},
                     {"choice", kChoices[static_cast<std::size_t>(state.choices[i])]}});
  }
  Json holds = Json::array();
  for (const HoldTime& hold : state.holds) {
    holds.push_back({{"reason", hold.reason}, {"since", hold.since}, {"ms", hold.ms}});
  }
  Json places = Json::array();
  for (const Presence is : state.places)
    places.push_back(kPresenceNames[static_cast<std::size_t>(is)]);
  return {{"phase", kPhases[static_cast<std::size_t>(state.phase)]},
          {"started_at", state.started_at},
          {"finished_at", state.finished_at},
          {"bell_at", state.bell_at},
          {"step", state.step},
          {"counting_since", state.counting_since},
          {"steps", steps},
          {"page", state.page},
          {"page_since", state.page_since},
          {"page_ms", state.page_ms},
          {"holds", holds},
          {"places", places},
          {"adults", state.adults},
          {"readers", state.readers},
          {"lacking", state.lacking},
          {"kits",
           {{"brought", state.kits.brought},
            {"given", state.kits.given},
            {"spoiled", state.kits.spoiled},
            {"with_teacher", state.kits.with_teacher},
            {"spare", state.kits.spare}}},
          {"ticks", state.ticks},
          {"mishaps", state.mishaps},
          {"taken_by", state.taken_by},
          {"sheet_language", state.sheet_language},
          {"note", state.note}};
}

}  // namespace trowelbell
