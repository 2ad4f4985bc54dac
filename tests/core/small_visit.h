// A small made-up visit for the tests of the journal and what follows from it: five places, five
// steps, two phones.
#pragma once

#include "core/journal.h"
#include "core/visit_state.h"

namespace trowelbell::small_visit {

inline constexpr const char* kLead = "aaaaaaaaaaaaaaaa";
inline constexpr const char* kHelper = "bbbbbbbbbbbbbbbb";

inline Step step(std::string id, Keep keep, StepSeconds seconds) {
  Step made;
  made.id = std::move(id);
  made.keep = keep;
  made.seconds = seconds;
  return made;
}

inline Lesson lesson() {
  Lesson made;
  made.id = "window-garden";
  made.steps = {step("hello", Keep::must, {60, 120, 180}), step("story", Keep::should, {}),
                step("plant", Keep::must, {120, 240, 360}), step("song", Keep::may, {60, 120, 180}),
                step("goodbye", Keep::must, {30, 60, 90})};
  made.steps[1].reading = true;
  made.kit = {{.id = "cup", .per = "child"}, {.id = "tray", .per = "table"}};
  made.ready = {{"aprons", {}}, {"water", {}}};
  made.handover = {{"watering", {}}, {"bags", {}}};
  return made;
}

inline Brief brief() {
  Brief made;
  made.visit = "fern-lane-0308";
  made.key = "k3y-only-for-the-header";
  made.lesson = "window-garden";
  made.school = "Fern Lane School";
  made.room = "Room 4";
  made.sponsor = "Friends of the Garden";
  made.date = std::chrono::year{2027} / 3 / 8;
  made.start_minutes = 9 * 60;
  made.bell_minutes = 9 * 60 + 45;
  made.utc_offset_minutes = -300;
  made.children = 5;
  made.adults = 3;
  made.kits = 8;
  return made;
}

// Seconds after the visit's planned start, as a moment.
inline std::int64_t moment(double seconds) {
  return brief().start_ms() + static_cast<std::int64_t>(seconds * 1000);
}

// One phone's taps, each at so many seconds after the planned start.
struct Phone {
  explicit Phone(std::string device) : journal(std::move(device)) {}

  Event tap(double seconds, std::string_view kind, Json data = Json::object()) {
    return journal.append(moment(seconds), kind, std::move(data));
  }
  Event undo(double seconds, const Event& event) {
    return tap(seconds, "undo", {{"device", event.device}, {"seq", event.seq}});
  }
  VisitState state() const { return fold(brief(), lesson(), journal.events()); }
  void merge_from(const Phone& other) {
    for (const Event& event : other.journal.events()) journal.merge(event);
  }

  Journal journal;
};

}  // namespace trowelbell::small_visit
