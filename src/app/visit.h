// The visit that is open: its brief, its journal, and what follows from them.
#pragma once

#include <functional>
#include <memory>

#include "core/journal.h"
#include "core/lesson_time.h"
#include "core/visit_pace.h"

namespace trowelbell {

// Makes a record durable in a stream of the phone's store and calls back with whether that worked.
using Write =
    std::function<void(std::string stream, std::string record, std::function<void(bool ok)>)>;

// Held by shared_ptr: an answer of the store may come after the visit was closed.
class Visit : public std::enable_shared_from_this<Visit> {
 public:
  Visit(Brief brief, std::string device, Write write);

  const Brief& brief() const { return brief_; }
  std::string stream() const { return "visit-" + brief_.visit; }

  // Takes the records of the visit's stream; the newest brief among them counts, unless this one
  // came by a link just now and differs: then it is appended. Returns how many records could not be
  // understood. Where no brief can be had (the browser's data was cleared) the visit does not count
  // as loaded.
  std::size_t load(const std::vector<std::string>& records, bool brief_is_new);
  bool loaded() const { return loaded_; }

  // One tap: an event, shown once it is durable. Returns its sequence number.
  std::int64_t record(std::int64_t now, std::string_view kind, Json data = Json::object());
  void undo(std::int64_t now);
  // Events of another phone, or of a saved copy. They are shown together, once all are durable;
  // then `done` is told how many were new. False where none is, or they would be too many.
  bool join(std::span<const Event> events, const std::function<void(std::size_t)>& done);
  bool can_undo() const { return journal_.undoable() != nullptr; }
  const Journal& journal() const { return journal_; }
  // The events that are durable, or that the store gave up on.
  std::span<const Event> shown() const;
  bool all_shown() const { return shown().size() == journal_.events().size(); }
  bool store_failed() const { return store_failed_; }

  // Called when the lesson and the story are here, and on every change of either.
  void set_lesson(const Lesson* lesson, const Story* story, std::string_view language);
  const Lesson* lesson() const { return lesson_; }
  const Story* story() const { return story_; }

  // Both need the lesson. The state is folded anew only after a change.
  const VisitState& state() const { return state_; }
  std::span<const StepSeconds> times() const { return times_; }
  VisitPace pace(std::int64_t now) const;

 private:
  void refold();

  Brief brief_;
  Journal journal_;
  Write write_;
  std::set<std::int64_t> pending_;  // sequence numbers not yet durable
  std::size_t joining_ = 0;         // events of join() not yet durable
  bool loaded_ = false;
  bool store_failed_ = false;
  const Lesson* lesson_ = nullptr;
  const Story* story_ = nullptr;
  std::string language_;
  VisitState state_;
  std::vector<StepSeconds> times_;
};

}  // namespace trowelbell
